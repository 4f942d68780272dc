package siltwright.cleanliness.internal;

import java.util.Arrays;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import siltwright.cleanliness.ParticleCounts;
import siltwright.model.InputException;
import siltwright.model.Problem;
import siltwright.model.SizeBands;

/** Reads counts as they are written in an option, such as {@code 4=1950,6=420,14=61}. */
final class CountsOption {
  /** What such counts look like. */
  static final String FORM =
      "SIZE=COUNT,... such as 4=1950,6=420,14=61, with sizes out of 4, 6, 14, 21, 38, 70";

  private static final Pattern PAIR =
      Pattern.compile("\\s*(\\d{1,3})\\s*=\\s*(\\d+(?:\\.\\d+)?(?:[eE][+-]?\\d+)?)\\s*");

  private CountsOption() {}

  /**
   * Reads counts.
   *
   * @throws InputException if they have another form, a size is no band edge or stands twice, or
   *     counts rise with size
   */
  static ParticleCounts read(String option, String text) {
    double[] perMl = new double[SizeBands.COUNT];
    Arrays.fill(perMl, Double.NaN);
    for (String part : text.split(",", -1)) {
      Matcher pair = PAIR.matcher(part);
      if (!pair.matches()) {
        throw refused(option, part, FORM);
      }
      int edge = SizeBands.bandFrom(Integer.parseInt(pair.group(1)));
      if (edge < 0) {
        throw refused(option, part, "a size out of 4, 6, 14, 21, 38, 70 µm(c)");
      }
      if (!Double.isNaN(perMl[edge])) {
        throw refused(option, part, "each size once");
      }
      perMl[edge] = Double.parseDouble(pair.group(2));
      if (Double.isInfinite(perMl[edge])) {
        throw refused(option, part, "a count that is a number");
      }
    }
    try {
      return ParticleCounts.perMl(perMl);
    } catch (IllegalArgumentException e) {
      throw refused(option, text, "counts at or above each size, which do not rise with size");
    }
  }

  private static InputException refused(String option, String value, String expected) {
    return new InputException(new Problem("option", option, value, expected));
  }
}
