package siltwright.cleanliness;

import java.util.List;

/**
 * The viscosity index of an oil.
 *
 * <pre>
 *   VI = 100 (L − U)/(L − H)                        U ≥ H
 *   VI = (10^N − 1)/0.00715 + 100                   U ≤ H,   N = (log H − log U)/log Y
 * </pre>
 *
 * <p>U and Y are the kinematic viscosities at 40 and 100 °C; L and H those at 40 °C of the
 * reference oils of index 0 and 100 with the same Y, from the standard's quadratics, which stay
 * within 0.2 of an index of its table. Not defined for Y below 2 mm²/s. The standard reports whole
 * numbers.
 *
 * <p>Source: ASTM D2270, appendix X2, by the reprints named in {@code viscosity-index.csv}.
 */
public final class ViscosityIndex {
  private static final double LOWEST_AT_100 = 2;

  private static final List<double[]> ROWS =
      TableResource.rows("viscosity-index.csv").stream().map(ViscosityIndex::numbers).toList();

  private ViscosityIndex() {}

  /**
   * Returns the viscosity index, not rounded.
   *
   * @param at40Mm2PerS kinematic viscosity at 40 °C, mm²/s, above that at 100 °C
   * @param at100Mm2PerS kinematic viscosity at 100 °C, mm²/s, at least 2
   * @throws IllegalArgumentException if a viscosity is out of its range
   */
  public static double of(double at40Mm2PerS, double at100Mm2PerS) {
    if (!(at100Mm2PerS >= LOWEST_AT_100) || Double.isInfinite(at100Mm2PerS)) {
      throw new IllegalArgumentException(
          "the viscosity index is defined from 2 mm2/s at 100 degC, not for " + at100Mm2PerS);
    }
    if (!(at40Mm2PerS > at100Mm2PerS) || Double.isInfinite(at40Mm2PerS)) {
      throw new IllegalArgumentException(
          "the viscosity at 40 degC is above the "
              + at100Mm2PerS
              + " mm2/s at 100 degC, not "
              + at40Mm2PerS);
    }
    double y = at100Mm2PerS;
    double[] row = ROWS.stream().filter(r -> y < r[1]).findFirst().get();
    double l = (row[2] * y + row[3]) * y + row[4];
    double h = (row[5] * y + row[6]) * y + row[7];
    if (at40Mm2PerS >= h) {
      return 100 * (l - at40Mm2PerS) / (l - h);
    }
    return (Math.pow(10, Math.log(h / at40Mm2PerS) / Math.log(y)) - 1) / 0.00715 + 100;
  }

  private static double[] numbers(String[] row) {
    double[] numbers = new double[row.length];
    for (int i = 0; i < row.length; i++) {
      numbers[i] = "inf".equals(row[i]) ? Double.POSITIVE_INFINITY : Double.parseDouble(row[i]);
    }
    return numbers;
  }
}
