package siltwright.model;

import java.util.regex.Matcher;
import java.util.regex.Pattern;

/**
 * A cleanliness code of ISO 4406: three scale numbers for the counts at or above 4, 6 and 14 µm(c).
 *
 * @param at4 scale number for particles at or above 4 µm(c), 0 to 28
 * @param at6 scale number for particles at or above 6 µm(c), 0 to 28
 * @param at14 scale number for particles at or above 14 µm(c), 0 to 28
 */
public record CleanlinessCode(int at4, int at6, int at14) {
  /** Highest scale number of the standard's table. */
  public static final int HIGHEST = 28;

  private static final Pattern FORM = Pattern.compile("(\\d{1,2})/(\\d{1,2})/(\\d{1,2})");

  /** Checks that the numbers are on the scale and do not rise with size. */
  public CleanlinessCode {
    if (at4 < 0 || at4 > HIGHEST || at6 > at4 || at14 > at6 || at14 < 0) {
      throw new IllegalArgumentException(
          "a code has three scale numbers from 0 to 28 that do not rise, not "
              + at4
              + "/"
              + at6
              + "/"
              + at14);
    }
  }

  /**
   * Reads a code such as {@code 18/16/13}.
   *
   * @throws IllegalArgumentException if the text is no such code
   */
  public static CleanlinessCode parse(String text) {
    Matcher m = FORM.matcher(text);
    if (!m.matches()) {
      throw new IllegalArgumentException("a code is written like 18/16/13, not " + text);
    }
    return new CleanlinessCode(
        Integer.parseInt(m.group(1)), Integer.parseInt(m.group(2)), Integer.parseInt(m.group(3)));
  }

  @Override
  public String toString() {
    return at4 + "/" + at6 + "/" + at14;
  }
}
