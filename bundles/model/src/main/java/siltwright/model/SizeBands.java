package siltwright.model;

/**
 * The six particle size bands of every count, balance and curve: 4–6, 6–14, 14–21, 21–38, 38–70 and
 * 70–100 µm(c).
 *
 * <p>The edges are the sizes of ISO 4406 (4, 6, 14) and of SAE AS4059 (4, 6, 14, 21, 38, 70), with
 * 100 µm(c) as the upper end. Sizes are as ISO 11171 calibrates them.
 */
public final class SizeBands {
  /** Number of bands. */
  public static final int COUNT = 6;

  /** Density of ISO 12103-1 test dust, kg/m³ (published as 2.65 g/cm³ in makers' data sheets). */
  public static final double DUST_DENSITY_KG_PER_M3 = 2650;

  private static final int[] EDGES_UM_C = {4, 6, 14, 21, 38, 70, 100};
  private static final double[] MEAN_UM_C = new double[COUNT];
  private static final double[] PARTICLE_G = new double[COUNT];

  static {
    for (int j = 0; j < COUNT; j++) {
      double d = Math.sqrt((double) EDGES_UM_C[j] * EDGES_UM_C[j + 1]);
      MEAN_UM_C[j] = d;
      double volumeM3 = Math.PI / 6 * Math.pow(d * 1e-6, 3);
      PARTICLE_G[j] = DUST_DENSITY_KG_PER_M3 * volumeM3 * 1000;
    }
  }

  private SizeBands() {}

  /** Returns edge {@code i} (0 to 6) in µm(c); band j lies between edges j and j + 1. */
  public static int edgeUmC(int i) {
    return EDGES_UM_C[i];
  }

  /** Returns the mean size of band {@code j}, the geometric mean of its edges, µm(c). */
  public static double meanUmC(int j) {
    return MEAN_UM_C[j];
  }

  /** Returns the mass of one particle of band {@code j}, a sphere of its mean size, g. */
  public static double particleG(int j) {
    return PARTICLE_G[j];
  }

  /** Returns the band that begins at an edge, or -1 if the size is not a lower edge of a band. */
  public static int bandFrom(double edgeUmC) {
    for (int j = 0; j < COUNT; j++) {
      if (EDGES_UM_C[j] == edgeUmC) {
        return j;
      }
    }
    return -1;
  }

  /** Returns the name of band {@code j}, such as {@code 6-14}. */
  public static String label(int j) {
    return EDGES_UM_C[j] + "-" + EDGES_UM_C[j + 1];
  }

  /**
   * Turns cumulative counts into band counts.
   *
   * @param cumulative counts at or above 4, 6, 14, 21, 38, 70 µm(c), length 6, not increasing; what
   *     is above 100 µm(c) counts into the last band
   * @return band counts in the same unit, length 6
   */
  public static double[] toBands(double[] cumulative) {
    double[] bands = new double[COUNT];
    for (int j = 0; j < COUNT; j++) {
      bands[j] = cumulative[j] - (j + 1 < COUNT ? cumulative[j + 1] : 0);
    }
    return bands;
  }

  /**
   * Turns band counts into cumulative counts, at or above 4, 6, 14, 21, 38 and 70 µm(c).
   *
   * @param bands band counts, length 6
   */
  public static double[] toCumulative(double[] bands) {
    double[] cumulative = new double[COUNT];
    double sum = 0;
    for (int j = COUNT - 1; j >= 0; j--) {
      sum += bands[j];
      cumulative[j] = sum;
    }
    return cumulative;
  }

  /** Returns the mass of band counts, in g for the volume that the counts are of. */
  public static double massG(double[] bands) {
    double mass = 0;
    for (int j = 0; j < COUNT; j++) {
      mass += bands[j] * PARTICLE_G[j];
    }
    return mass;
  }
}
