package siltwright.life;

/**
 * The clock that runs with wear: hours lived at relative wear κ count κ-fold.
 *
 * <pre>  A(t) = integral of κ dt from 0 to t  </pre>
 *
 * <p>A component that lived through several procedures and intervals has a history of pieces, each
 * so many hours at one κ. Its failure, removal, entry and inspection hours, put through {@link
 * #exposureH}, make a row of {@link LifeData} on the exposure clock; a law fitted there is life in
 * hours at the reference cleanliness. Own derivation (cumulative exposure).
 */
public final class ExposureClock {
  private final double[] hoursH;
  private final double[] exposureH;

  private ExposureClock(double[] hoursH, double[] exposureH) {
    this.hoursH = hoursH;
    this.exposureH = exposureH;
  }

  /**
   * Returns the clock of a history.
   *
   * @param pieceH hours of each piece, above 0; not modified
   * @param relativeWear κ of each piece, above 0, 1 at the reference cleanliness; not modified
   * @throws IllegalArgumentException naming the piece (from 0), the value and the bound
   */
  public static ExposureClock of(double[] pieceH, double[] relativeWear) {
    int n = pieceH.length;
    if (n == 0 || relativeWear.length != n) {
      throw new IllegalArgumentException(
          "a history has as many hours as wear rates, at least one, not "
              + n
              + " and "
              + relativeWear.length);
    }
    double[] hours = new double[n + 1];
    double[] exposure = new double[n + 1];
    for (int i = 0; i < n; i++) {
      positive(i, "hours", pieceH[i]);
      positive(i, "relative wear", relativeWear[i]);
      hours[i + 1] = hours[i] + pieceH[i];
      exposure[i + 1] = exposure[i] + pieceH[i] * relativeWear[i];
    }
    return new ExposureClock(hours, exposure);
  }

  private static void positive(int piece, String name, double value) {
    if (!(value > 0 && value < Double.POSITIVE_INFINITY)) {
      throw new IllegalArgumentException(
          "piece " + piece + ": " + name + " is " + value + ", expected above 0, finite");
    }
  }

  /** Returns the hours that the history covers. */
  public double coveredH() {
    return hoursH[hoursH.length - 1];
  }

  /**
   * Returns the exposure at an age.
   *
   * @param ageH hours from new, from 0 to the end of the history; infinite stays infinite
   * @throws IllegalArgumentException if the age is outside the history
   */
  public double exposureH(double ageH) {
    return ageH == Double.POSITIVE_INFINITY ? ageH : along(hoursH, exposureH, ageH, "age");
  }

  /** Returns the age at which an exposure is reached; the inverse of {@link #exposureH}. */
  public double ageH(double exposure) {
    return along(exposureH, hoursH, exposure, "exposure");
  }

  private static double along(double[] from, double[] to, double at, String name) {
    int last = from.length - 1;
    // Sums of pieces and an hour meter's reading may differ by rounding.
    if (!(at >= 0 && at <= from[last] * (1 + 1e-12))) {
      throw new IllegalArgumentException(
          name
              + " is "
              + at
              + " h, expected from 0 to "
              + from[last]
              + " h, what the history covers");
    }
    int i = 1;
    while (i < last && from[i] < at) {
      i++;
    }
    double share = (at - from[i - 1]) / (from[i] - from[i - 1]);
    return to[i - 1] + share * (to[i] - to[i - 1]);
  }
}
