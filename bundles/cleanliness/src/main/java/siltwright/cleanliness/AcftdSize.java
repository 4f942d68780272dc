package siltwright.cleanliness;

import java.util.List;

/**
 * Particle sizes of counters calibrated with ACFTD (ISO 4402, µm) and by ISO 11171 (µm(c)).
 *
 * <p>Linear between the points of the published table, from 0.8 µm (4 µm(c)) to 50 µm (38.2 µm(c));
 * left out one at a time, the points come back within 0.2 µm(c), no better in logarithms. Outside
 * the table nothing is known and sizes are refused. The pairs 5/6, 15/14 and 25/21 of AS4059 are
 * conventions beside this table, not points of it.
 *
 * <p>Source: Donaldson hydraulic filter catalogue, p. 31 ({@code acftd.csv}).
 */
public final class AcftdSize {
  private static final List<String[]> ROWS = TableResource.rows("acftd.csv");
  private static final double[] ACFTD_UM = TableResource.column(ROWS, 0);
  private static final double[] UM_C = TableResource.column(ROWS, 1);

  private AcftdSize() {}

  /**
   * Returns the size by ISO 11171 of a size by ISO 4402.
   *
   * @param acftdUm size by ISO 4402, 0.8 to 50 µm
   * @return size in µm(c)
   * @throws IllegalArgumentException if the size is outside the table
   */
  public static double toUmC(double acftdUm) {
    return interpolate(acftdUm, ACFTD_UM, UM_C, "um (ISO 4402)");
  }

  /**
   * Returns the size by ISO 4402 of a size by ISO 11171.
   *
   * @param sizeUmC size by ISO 11171, 4 to 38.2 µm(c)
   * @return size in µm
   * @throws IllegalArgumentException if the size is outside the table
   */
  public static double fromUmC(double sizeUmC) {
    return interpolate(sizeUmC, UM_C, ACFTD_UM, "um(c)");
  }

  private static double interpolate(double size, double[] from, double[] to, String unit) {
    int last = from.length - 1;
    if (!(size >= from[0] && size <= from[last])) {
      throw new IllegalArgumentException(
          "sizes convert from " + from[0] + " to " + from[last] + " " + unit + ", not " + size);
    }
    int i = 1;
    while (size > from[i]) {
      i++;
    }
    double share = (size - from[i - 1]) / (from[i] - from[i - 1]);
    return to[i - 1] * (1 - share) + to[i] * share;
  }
}
