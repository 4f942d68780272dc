package siltwright.samples;

import java.util.Arrays;

/**
 * The slope of a series over hours, and whether there is one.
 *
 * <p>Slope: median of the slopes of all pairs (H. Theil 1950, P. K. Sen, J. Amer. Stat. Assoc. 63
 * (1968) 1379); test: Kendall's with ties, normal approximation (M. G. Kendall, Rank Correlation
 * Methods). Rank correlation: Spearman's.
 *
 * @param slope change of the value per hour
 * @param pValue two-sided, not a number with fewer than four values
 * @param values number of values
 */
public record Trend(double slope, double pValue, int values) {
  private static final int FEWEST = 4;

  /**
   * Finds the trend of a series.
   *
   * @param hours hours, rising
   * @param y values
   */
  public static Trend of(double[] hours, double[] y) {
    int n = y.length;
    if (n < FEWEST) {
      return new Trend(Double.NaN, Double.NaN, n);
    }
    double[] slopes = new double[n * (n - 1) / 2];
    int k = 0;
    int s = 0;
    for (int i = 0; i < n; i++) {
      for (int j = i + 1; j < n; j++) {
        if (hours[j] > hours[i]) {
          slopes[k++] = (y[j] - y[i]) / (hours[j] - hours[i]);
          s += (int) Math.signum(y[j] - y[i]);
        }
      }
    }
    double[] sorted = Arrays.copyOf(slopes, k);
    Arrays.sort(sorted);
    double slope =
        k == 0
            ? Double.NaN
            : k % 2 == 1 ? sorted[k / 2] : 0.5 * (sorted[k / 2 - 1] + sorted[k / 2]);
    double variance = n * (n - 1.0) * (2 * n + 5) / 18 - ties(y);
    double z = variance <= 0 ? 0 : (s - Math.signum(s)) / Math.sqrt(variance);
    return new Trend(slope, Normal.twoSided(z), n);
  }

  private static double ties(double[] y) {
    double[] sorted = y.clone();
    Arrays.sort(sorted);
    double sum = 0;
    for (int i = 0; i < sorted.length; ) {
      int j = i;
      while (j < sorted.length && sorted[j] == sorted[i]) {
        j++;
      }
      double t = j - i;
      sum += t * (t - 1) * (2 * t + 5) / 18;
      i = j;
    }
    return sum;
  }

  /** Returns Spearman's rank correlation. */
  public static double correlation(double[] x, double[] y) {
    double[] a = ranks(x);
    double[] b = ranks(y);
    double mean = (a.length - 1) / 2.0;
    double ab = 0;
    double aa = 0;
    double bb = 0;
    for (int i = 0; i < a.length; i++) {
      ab += (a[i] - mean) * (b[i] - mean);
      aa += (a[i] - mean) * (a[i] - mean);
      bb += (b[i] - mean) * (b[i] - mean);
    }
    return ab / Math.sqrt(aa * bb);
  }

  private static double[] ranks(double[] x) {
    double[] ranks = new double[x.length];
    for (int i = 0; i < x.length; i++) {
      for (double v : x) {
        ranks[i] += v < x[i] ? 1 : v == x[i] ? 0.5 : 0;
      }
      ranks[i] -= 0.5;
    }
    return ranks;
  }
}
