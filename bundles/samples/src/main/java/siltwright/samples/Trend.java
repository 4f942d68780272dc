package siltwright.samples;

import java.util.Arrays;
import java.util.stream.IntStream;
import org.apache.commons.math3.stat.correlation.KendallsCorrelation;
import org.apache.commons.math3.stat.correlation.SpearmansCorrelation;
import org.apache.commons.math3.stat.descriptive.rank.Median;
import org.apache.commons.math3.util.ResizableDoubleArray;

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
  private static final int MOST_OF_ALL_PAIRS = 2000;

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
    double slope = new Median().evaluate(slopes(hours, y));
    double s = signs(hours, y);
    double variance = n * (n - 1.0) * (2 * n + 5) / 18 - ties(y);
    double z = variance <= 0 ? 0 : (s - Math.signum(s)) / Math.sqrt(variance);
    return new Trend(slope, Normal.twoSided(z), n);
  }

  /**
   * Slopes of all pairs; of a long series, of the pairs half of it apart, which is the abridged
   * form of the same method (Theil 1950).
   */
  private static double[] slopes(double[] hours, double[] y) {
    int n = y.length;
    int apart = n > MOST_OF_ALL_PAIRS ? (n + 1) / 2 : 1;
    int furthest = n > MOST_OF_ALL_PAIRS ? apart : n - 1;
    ResizableDoubleArray slopes = new ResizableDoubleArray();
    for (int i = 0; i + apart < n; i++) {
      for (int j = i + apart; j < n && j <= i + furthest; j++) {
        if (hours[j] > hours[i]) {
          slopes.addElement((y[j] - y[i]) / (hours[j] - hours[i]));
        }
      }
    }
    return slopes.getElements();
  }

  /** Pairs that rise less those that fall: Kendall's S, out of his tau with ties. */
  private static double signs(double[] hours, double[] y) {
    double tau = new KendallsCorrelation().correlation(hours, y);
    return Double.isNaN(tau) ? 0 : Math.rint(tau * Math.sqrt(untied(hours) * untied(y)));
  }

  /** Pairs whose values differ; the values of a tie stand together once sorted. */
  private static double untied(double[] x) {
    double[] sorted = x.clone();
    Arrays.sort(sorted);
    double pairs = x.length * (x.length - 1.0) / 2;
    for (int i = 0, j; i < sorted.length; i = j) {
      j = i;
      while (j < sorted.length && sorted[j] == sorted[i]) {
        j++;
      }
      pairs -= (j - i) * (j - i - 1.0) / 2;
    }
    return pairs;
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

  /** Returns Spearman's rank correlation of the pairs of which both values are numbers. */
  public static double correlation(double[] x, double[] y) {
    int[] both =
        IntStream.range(0, x.length)
            .filter(i -> !Double.isNaN(x[i]) && !Double.isNaN(y[i]))
            .toArray();
    return both.length < 2
        ? Double.NaN
        : new SpearmansCorrelation().correlation(pick(x, both), pick(y, both));
  }

  private static double[] pick(double[] from, int[] at) {
    return Arrays.stream(at).mapToDouble(i -> from[i]).toArray();
  }
}
