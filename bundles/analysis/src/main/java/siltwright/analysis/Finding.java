package siltwright.analysis;

/**
 * Something that the user should know of a result.
 *
 * @param severity how much it matters
 * @param text one or two sentences
 * @param pointsAt what it is about: a path in the machine, a row; empty for the result as a whole
 */
public record Finding(Severity severity, String text, String pointsAt) {
  /** How much a finding matters. */
  public enum Severity {
    /** Good to know. */
    NOTE,
    /** Look at it. */
    CAUTION,
    /** Something is wrong or unsafe. */
    WARNING
  }
}
