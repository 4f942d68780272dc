package siltwright.samples;

import siltwright.model.SizeBands;

/**
 * A count as bands between the sizes that were counted, whose errors of counting are independent.
 *
 * @param first first size band of {@link SizeBands} in each
 * @param last last size band in each
 * @param perMl particles per mL in each
 * @param volumeMl volume counted, mL
 * @param rounded whether only scale numbers were known
 */
public record BandCounts(
    int[] first, int[] last, double[] perMl, double volumeMl, boolean rounded) {
  /**
   * Makes bands of cumulative counts.
   *
   * @param cumulativePerMl counts at or above 4, 6, 14, 21, 38, 70 µm(c), not a number where not
   *     counted
   * @param volumeMl volume counted, mL
   * @param rounded whether they are the middles of scale numbers
   */
  public static BandCounts of(double[] cumulativePerMl, double volumeMl, boolean rounded) {
    int n = 0;
    for (double c : cumulativePerMl) {
      n += Double.isNaN(c) ? 0 : 1;
    }
    int[] first = new int[n];
    int[] last = new int[n];
    double[] perMl = new double[n];
    int k = 0;
    for (int i = 0; i < SizeBands.COUNT; i++) {
      if (Double.isNaN(cumulativePerMl[i])) {
        continue;
      }
      int next = i + 1;
      while (next < SizeBands.COUNT && Double.isNaN(cumulativePerMl[next])) {
        next++;
      }
      first[k] = i;
      last[k] = next - 1;
      double above = next < SizeBands.COUNT ? cumulativePerMl[next] : 0;
      perMl[k++] = Math.max(0, cumulativePerMl[i] - above);
    }
    return new BandCounts(first, last, perMl, volumeMl, rounded);
  }

  /** Returns the number of bands. */
  public int bands() {
    return perMl.length;
  }

  /** Returns the particles counted in a band. */
  public double particles(int k) {
    return perMl[k] * volumeMl;
  }

  /** Returns the variance of the logarithm of a band that the model expects so full. */
  public double variance(int k, double expectedPerMl, CountError error) {
    double round = rounded ? CountError.CODE_SPREAD * CountError.CODE_SPREAD : 0;
    return error.bandVariance(expectedPerMl * volumeMl) + round;
  }

  /** Returns the logarithm of a band, half a particle added so that none has one too. */
  public double log(int k) {
    return Math.log((particles(k) + 0.5) / volumeMl);
  }

  /** Returns the logarithm that a model's band is compared by. */
  public double log(double expectedPerMl) {
    return Math.log(expectedPerMl + 0.5 / volumeMl);
  }
}
