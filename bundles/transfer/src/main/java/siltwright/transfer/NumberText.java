package siltwright.transfer;

import java.util.regex.Pattern;

/** Reads numbers as people write them. */
final class NumberText {
  private static final double[] POWERS = new double[23];
  private static final int EXACT_DIGITS = 15;

  private static final Pattern POINT =
      Pattern.compile("[+-]?(\\d+|\\d{1,3}(?:[,'’   ]\\d{3})+)?(?:\\.\\d*)?(?:[eE][+-]?\\d{1,3})?");
  private static final Pattern COMMA =
      Pattern.compile("[+-]?(\\d+|\\d{1,3}(?:[.'’   ]\\d{3})+)?(?:,\\d*)?(?:[eE][+-]?\\d{1,3})?");

  static {
    double power = 1;
    for (int i = 0; i < POWERS.length; i++) {
      POWERS[i] = power;
      power *= 10;
    }
  }

  private final char decimal;

  /**
   * Makes a reader.
   *
   * @param decimal what parts the fraction: a point or a comma
   */
  NumberText(char decimal) {
    this.decimal = decimal;
  }

  /**
   * Reads a text without blanks round it.
   *
   * @return the number; not a number if it is none
   */
  double read(String text) {
    int n = text.length();
    long mantissa = 0;
    int digits = 0;
    int fraction = -1;
    int i = n > 0 && text.charAt(0) == '-' ? 1 : 0;
    for (; i < n; i++) {
      char c = text.charAt(i);
      if (c >= '0' && c <= '9') {
        mantissa = 10 * mantissa + c - '0';
        digits++;
        if (fraction >= 0) {
          fraction++;
        }
      } else if (c == decimal && fraction < 0) {
        fraction = 0;
      } else {
        return slow(text);
      }
    }
    if (digits == 0) {
      return Double.NaN;
    }
    if (digits > EXACT_DIGITS) {
      return slow(text);
    }
    // two exact doubles, whose quotient is rounded once
    double value = fraction > 0 ? mantissa / POWERS[fraction] : mantissa;
    return text.charAt(0) == '-' ? -value : value;
  }

  private double slow(String text) {
    if (text.length() > 60 || !(decimal == '.' ? POINT : COMMA).matcher(text).matches()) {
      return Double.NaN;
    }
    String plain = text.replaceAll(decimal == '.' ? "[,'’   ]" : "[.'’   ]", "");
    try {
      double value = Double.parseDouble(plain.replace(decimal, '.'));
      return Double.isInfinite(value) ? Double.NaN : value;
    } catch (NumberFormatException e) {
      return Double.NaN;
    }
  }
}
