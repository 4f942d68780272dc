package siltwright.exchange;

import java.math.BigInteger;

/**
 * Reads plain decimal numbers out of bytes: a sign, up to {@value #MOST_DIGITS} digits, one point.
 * What it reads is the double nearest to the text, as {@link Double#parseDouble} reads it; what it
 * can't read so, it leaves to that.
 *
 * <p>Digits below 2^53 over a power of ten up to 10^22 are two exact doubles, whose quotient is
 * rounded once. More digits are multiplied by the first 64 bits of the reciprocal power; where the
 * bits cut off could turn the rounding, it is left. Source: D. Lemire, Number parsing at a gigabyte
 * per second, Software: Practice and Experience 51 (2021) 1700-1727 (the idea; from memory).
 */
final class Decimal {
  static final int MOST_DIGITS = 18;
  private static final double[] POWERS = new double[MOST_DIGITS + 1];

  /** 10^-k is RECIPROCALS[k], taken as unsigned, times 2^-SHIFTS[k], and up to one bit more. */
  private static final long[] RECIPROCALS = new long[MOST_DIGITS + 1];

  private static final int[] SHIFTS = new int[MOST_DIGITS + 1];

  static {
    BigInteger power = BigInteger.ONE;
    for (int k = 0; k <= MOST_DIGITS; k++) {
      POWERS[k] = power.doubleValue();
      SHIFTS[k] = 63 + power.subtract(BigInteger.ONE).bitLength();
      RECIPROCALS[k] = BigInteger.ONE.shiftLeft(SHIFTS[k]).divide(power).longValue();
      power = power.multiply(BigInteger.TEN);
    }
  }

  private final boolean decimalComma;

  /** Behind the last number read. */
  int end;

  Decimal(boolean decimalComma) {
    this.decimalComma = decimalComma;
  }

  /**
   * Reads the number that begins at a place and ends where no digit or point follows.
   *
   * @return the number; not a number if there is none, or none that can be read so
   */
  double read(byte[] bytes, int from, int limit) {
    int i = from;
    boolean negative = i < limit && bytes[i] == '-';
    if (negative) {
      i++;
    }
    int start = i;
    int point = -1;
    long digits = 0;
    for (; i < limit; i++) {
      int b = bytes[i];
      if (b >= '0' && b <= '9') {
        digits = 10 * digits + (b - '0');
      } else if (point < 0 && (b == '.' || b == ',' && decimalComma)) {
        point = i;
      } else {
        break;
      }
    }
    end = i;
    int count = i - start - (point < 0 ? 0 : 1);
    int decimals = point < 0 ? 0 : i - 1 - point;
    if (count == 0 || count > MOST_DIGITS) {
      return Double.NaN;
    }
    if (decimals == 3 && bytes[point] == ',') {
      return Double.NaN; // it may be meant as thousands, which is to be told
    }
    double v = over(digits, decimals);
    return negative ? -v : v;
  }

  private static double over(long digits, int decimals) {
    if (digits < 1L << 53) {
      return digits / POWERS[decimals];
    }
    int zeros = Long.numberOfLeadingZeros(digits);
    long a = digits << zeros;
    long b = RECIPROCALS[decimals];
    long high = Math.multiplyHigh(a, b) + a + b; // both are negative as signed numbers
    int shift = 64 - zeros - SHIFTS[decimals];
    if (high >= 0) {
      high <<= 1;
      shift--;
    }
    // The true product is less than 4 above. Half of the last place to be kept is 1024.
    int rest = (int) high & 2047;
    if (rest > 1020 && rest <= 1024) {
      return Double.NaN;
    }
    long kept = (high >>> 11) + (rest > 1024 ? 1 : 0);
    return kept * Math.scalb(1.0, shift + 11);
  }
}
