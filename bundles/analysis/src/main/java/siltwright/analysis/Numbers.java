package siltwright.analysis;

import java.math.BigDecimal;
import java.math.MathContext;
import java.math.RoundingMode;
import java.util.regex.Pattern;

/** Numbers as people read them, the same on the command line, in charts and in reports. */
public final class Numbers {
  /** Stands where there is no number. */
  public static final String NONE = "–";

  private static final int DIGITS = 4;

  /** What a plan can be held to, and what a cost is known to. */
  private static final int DIGITS_OF_HOURS_AND_MONEY = 3;

  private static final Pattern HOURS_OR_MONEY = Pattern.compile("h|[A-Z]{3}(/h)?");
  private static final double LARGEST_PLAIN = 1e7;
  private static final double SMALLEST_PLAIN = 1e-4;

  private Numbers() {}

  /**
   * Returns a number with four significant digits and without zeros at its end; whole digits before
   * the point are never rounded away below ten million. Very large and very small ones stand as
   * {@code 1.234e9}.
   *
   * @param value a number; not a number or infinite gives {@link #NONE}
   */
  public static String text(double value) {
    return text(value, "");
  }

  /**
   * The same for a number with a unit: hours and money, alone or per hour, have three significant
   * digits.
   *
   * @param value a number; not a number or infinite gives {@link #NONE}
   * @param unit its unit, which is not part of the text
   */
  public static String text(double value, String unit) {
    if (!Double.isFinite(value)) {
      return NONE;
    }
    int digits = digits(unit);
    if (isPlain(value)) {
      return fixed(value, decimals(value, digits));
    }
    BigDecimal rounded =
        BigDecimal.valueOf(value).round(new MathContext(digits)).stripTrailingZeros();
    int exponent = rounded.precision() - rounded.scale() - 1;
    return rounded.movePointLeft(exponent).toPlainString() + "e" + exponent;
  }

  /**
   * Returns how many digits after the point a column of values shares, so that it stands aligned:
   * four significant ones for the largest, up to two more where the smallest would vanish, and none
   * that no value needs. A value that would be written as {@code 1.234e9} has no say.
   */
  public static int decimals(double... values) {
    return decimals("", values);
  }

  /** The same for a column with a unit, as in {@link #text(double, String)}. */
  public static int decimals(String unit, double... values) {
    int digits = digits(unit);
    int needed = 0;
    double largest = 0;
    double smallest = Double.POSITIVE_INFINITY;
    for (double v : values) {
      if (Double.isFinite(v) && isPlain(v)) {
        needed = Math.max(needed, decimals(v, digits));
        largest = Math.max(largest, Math.abs(v));
        smallest = v == 0 ? smallest : Math.min(smallest, Math.abs(v));
      }
    }
    int forLargest = Math.max(0, digits - whole(largest));
    int forSmallest = Math.min(1 - whole(smallest), forLargest + 2);
    return Math.min(needed, Math.max(forLargest, forSmallest));
  }

  private static int digits(String unit) {
    return HOURS_OR_MONEY.matcher(unit).matches() ? DIGITS_OF_HOURS_AND_MONEY : DIGITS;
  }

  private static int decimals(double value, int digits) {
    return Math.max(
        0, BigDecimal.valueOf(value).round(new MathContext(digits)).stripTrailingZeros().scale());
  }

  /** Returns the digits before the point; negative with zeros behind it, as in 0.001: -2. */
  private static int whole(double size) {
    return size == 0 || Double.isInfinite(size) ? 1 : (int) Math.floor(Math.log10(size)) + 1;
  }

  /**
   * Returns a number with so many digits after the point.
   *
   * @param value a number; not a number or infinite gives {@link #NONE}
   * @param decimals digits after the point
   */
  public static String fixed(double value, int decimals) {
    if (!Double.isFinite(value)) {
      return NONE;
    }
    if (!isPlain(value)) {
      return text(value);
    }
    BigDecimal rounded = BigDecimal.valueOf(value).setScale(decimals, RoundingMode.HALF_EVEN);
    // No "-0".
    return (rounded.signum() == 0 ? rounded.abs() : rounded).toPlainString();
  }

  /**
   * Returns the text of a number with its whole digits in groups of three from five digits on, kept
   * apart by a narrow space that does not break, for paper and screen.
   */
  public static String grouped(String number) {
    int start = number.startsWith("-") ? 1 : 0;
    int end = start;
    while (end < number.length() && Character.isDigit(number.charAt(end))) {
      end++;
    }
    if (end - start < 5) {
      return number;
    }
    StringBuilder out = new StringBuilder(number);
    for (int i = end - 3; i > start; i -= 3) {
      out.insert(i, '\u202f');
    }
    return out.toString();
  }

  /** Returns a unit as people see it: that of a bare ratio, 1, is not shown. */
  public static String shown(String unit) {
    return unit.equals("1") ? "" : unit;
  }

  private static boolean isPlain(double value) {
    double size = Math.abs(value);
    return size == 0 || size < LARGEST_PLAIN && size >= SMALLEST_PLAIN;
  }
}
