package siltwright.cleanliness;

/**
 * The counts that a scale number or class stands for: more than the one, up to and including the
 * other.
 *
 * @param moreThanPerMl lower limit, excluded; 0 means that a count of 0 is included as well
 * @param upToPerMl upper limit, included; infinite above the last class
 */
public record CountRange(double moreThanPerMl, double upToPerMl) {

  /** Returns whether a count lies in the range. */
  public boolean contains(double perMl) {
    return perMl <= upToPerMl && (perMl > moreThanPerMl || perMl == 0 && moreThanPerMl == 0);
  }
}
