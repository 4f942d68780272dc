package siltwright.restart;

import java.util.Arrays;

/**
 * Grams released, as a distribution.
 *
 * <p>Probability density of ln G at rising points, straight between them.
 */
public final class Release {
  private final double[] logG;
  private final double[] share;
  private final double misfit;

  /**
   * Makes a distribution.
   *
   * @param logG points, rising
   * @param logDensity logarithm of the density, up to a constant
   * @param misfit mean squared residual of the samples at the best point, in their own variances
   */
  Release(double[] logG, double[] logDensity, double misfit) {
    this.logG = logG;
    this.misfit = misfit;
    double most = Arrays.stream(logDensity).max().orElse(0);
    share = new double[logG.length];
    for (int i = 1; i < logG.length; i++) {
      double a = Math.exp(logDensity[i - 1] - most);
      double b = Math.exp(logDensity[i] - most);
      share[i] = share[i - 1] + 0.5 * (a + b) * (logG[i] - logG[i - 1]);
    }
    double all = share[logG.length - 1];
    for (int i = 0; i < share.length; i++) {
      share[i] /= all;
    }
  }

  /** Returns the grams that a share of the probability lies below, g. */
  public double quantileG(double below) {
    int i = 1;
    while (i < share.length - 1 && share[i] < below) {
      i++;
    }
    double width = share[i] - share[i - 1];
    double t = width > 0 ? (below - share[i - 1]) / width : 0.5;
    return Math.exp(logG[i - 1] + Math.min(1, Math.max(0, t)) * (logG[i] - logG[i - 1]));
  }

  /** Returns the median, g. */
  public double medianG() {
    return quantileG(0.5);
  }

  /** Returns the probability that more than so much was released. */
  public double probabilityAbove(double grams) {
    double x = Math.log(grams);
    if (x <= logG[0]) {
      return 1;
    }
    for (int i = 1; i < logG.length; i++) {
      if (x <= logG[i]) {
        double t = (x - logG[i - 1]) / (logG[i] - logG[i - 1]);
        return 1 - (share[i - 1] + t * (share[i] - share[i - 1]));
      }
    }
    return 0;
  }

  /** Returns the standard deviation of ln G that half the central 68 % interval is. */
  public double logSd() {
    return 0.5 * Math.log(quantileG(0.841) / quantileG(0.159));
  }

  /** Returns the mean squared residual; far above 1 the samples contradict the wash-out law. */
  public double misfit() {
    return misfit;
  }
}
