package siltwright.model;

import java.util.Locale;

/**
 * One thing that is wrong with what the user gave.
 *
 * @param source file or command line it stands in
 * @param place where: JSON pointer, row and column, or option
 * @param value what stands there, shortened
 * @param expected what was expected
 */
public record Problem(String source, String place, String value, String expected) {
  private static final int LONGEST_VALUE = 60;
  private static final int LONGEST_PLACE = 200;
  private static final int LONGEST_EXPECTED = 800;

  public Problem {
    value = shortened(value, LONGEST_VALUE);
  }

  private static String shortened(String text, int most) {
    return text.codePointCount(0, text.length()) <= most
        ? text
        : text.substring(0, text.offsetByCodePoints(0, most)) + "…";
  }

  /** Returns the one line that the user reads; of names of any length no more than that bears. */
  @Override
  public String toString() {
    StringBuilder line = new StringBuilder(visible(source));
    if (!place.isEmpty()) {
      line.append(' ').append(shortened(visible(place), LONGEST_PLACE));
    }
    line.append(": ");
    if (!value.isEmpty()) {
      line.append("found ").append(visible(value)).append("; ");
    }
    return line.append("expected ")
        .append(shortened(visible(expected), LONGEST_EXPECTED))
        .toString();
  }

  /** Makes visible what a terminal would obey, what breaks a line, and half of a character. */
  private static String visible(String text) {
    StringBuilder out = new StringBuilder();
    text.codePoints()
        .forEach(
            c -> {
              if (Character.isISOControl(c)
                  || c == '\u2028'
                  || c == '\u2029'
                  || Character.getType(c) == Character.SURROGATE) {
                out.append(String.format(Locale.ROOT, "\\u%04x", c));
              } else {
                out.appendCodePoint(c);
              }
            });
    return out.toString();
  }
}
