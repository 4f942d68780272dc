package siltwright.life;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import org.apache.commons.math3.distribution.BetaDistribution;

/**
 * Median-rank regression, a cross-check of a fit and the points of a probability plot; not for
 * estimates, since it has no standard errors and weighs the last points most.
 *
 * <p>Ranks are adjusted for removals (L. G. Johnson, The Statistical Treatment of Fatigue
 * Experiments, 1964, from memory); the median rank of adjusted rank i of n is the median of a beta
 * distribution with i and n - i + 1. The line is fitted by least squares of ln t on the law's
 * standard quantile.
 *
 * <p>The arrays are handed out as they are, not copied: read them, don't write to them.
 *
 * @param timesH failure times, h, in order, one a component
 * @param failedShare median rank of each
 * @param mu ln h, where the line's standard quantile is 0
 * @param sigma slope of ln t; 1/shape of a Weibull
 * @param rSquared share of the variance that the line takes
 */
public record MedianRanks(
    double[] timesH, double[] failedShare, double mu, double sigma, double rSquared) {
  /**
   * Fits a line.
   *
   * @return the line, or a refusal: fewer than two failure times, or censoring other than removals
   */
  public static Estimate<MedianRanks> of(LifeData data, LifeFamily family) {
    if (data.hasIntervals() || data.hasLateEntry()) {
      return Estimate.refused(
          Reason.UNSUITABLE_CENSORING,
          "Median ranks need failures at a known hour and components watched from new.",
          "Use the maximum-likelihood fit.");
    }
    KaplanMeier km = KaplanMeier.of(data);
    double[] times = km.timesH();
    double[] atRisk = km.atRisk();
    double[] failed = km.failed();
    if (times.length < 2) {
      return Estimate.refused(
          Reason.TOO_FEW_FAILURES,
          "A line needs two failure times, there are " + times.length + ".",
          "Use a fit with an assumed shape.");
    }
    double n = data.components();
    double rank = 0;
    List<double[]> points = new ArrayList<>();
    for (int i = 0; i < times.length; i++) {
      for (int k = 0; k < failed[i]; k++) {
        rank += (n + 1 - rank) / (1 + atRisk[i] - k);
        double share =
            new BetaDistribution(null, rank, n - rank + 1, 1e-12).inverseCumulativeProbability(0.5);
        points.add(new double[] {times[i], share});
      }
    }
    double[] t = points.stream().mapToDouble(p -> p[0]).toArray();
    double[] share = points.stream().mapToDouble(p -> p[1]).toArray();
    return Estimate.found(line(t, share, family));
  }

  private static MedianRanks line(double[] t, double[] share, LifeFamily family) {
    double[] z = Arrays.stream(share).map(family::standardQuantile).toArray();
    double[] y = Arrays.stream(t).map(Math::log).toArray();
    double zMean = Arrays.stream(z).average().orElseThrow();
    double yMean = Arrays.stream(y).average().orElseThrow();
    double zz = 0;
    double zy = 0;
    double yy = 0;
    for (int i = 0; i < z.length; i++) {
      zz += (z[i] - zMean) * (z[i] - zMean);
      zy += (z[i] - zMean) * (y[i] - yMean);
      yy += (y[i] - yMean) * (y[i] - yMean);
    }
    boolean held = family == LifeFamily.EXPONENTIAL;
    double sigma = held ? 1 : zy / zz;
    return new MedianRanks(t, share, yMean - sigma * zMean, sigma, zy * zy / (zz * yy));
  }
}
