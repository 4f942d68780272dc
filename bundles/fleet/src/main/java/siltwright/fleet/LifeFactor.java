package siltwright.fleet;

import siltwright.life.AftFit;
import siltwright.life.Estimated;
import siltwright.life.Interval;

/**
 * How many times as long components of one group last as those of another, by a regression of life.
 *
 * <p>Wald's test on the log scale, referred to Student's law with as many degrees of freedom as
 * there are failures beyond the parameters: the normal law says "differs" too often with few
 * failures. How well it holds its level stands in docs/compare-level.md; the degrees of freedom are
 * an own choice, as in linear regression.
 *
 * @param estimate the factor, its error and interval
 * @param pValue two-sided, against 1
 */
public record LifeFactor(Estimated estimate, double pValue) {
  /**
   * Compares two levels of a covariate of a regression.
   *
   * @param failures failures that the regression is of
   */
  public static LifeFactor of(
      AftFit fit,
      String covariate,
      String level,
      String against,
      double failures,
      double confidence) {
    double[] b = fit.coefficients();
    double[][] v = fit.covariance();
    int a = fit.names().indexOf(covariate + "=" + level);
    int c = fit.names().indexOf(covariate + "=" + against);
    double log = (a < 0 ? 0 : b[a]) - (c < 0 ? 0 : b[c]);
    double variance = (a < 0 ? 0 : v[a][a]) + (c < 0 ? 0 : v[c][c]);
    if (a >= 0 && c >= 0) {
      variance -= 2 * v[a][c];
    }
    double error = Math.sqrt(variance);
    double df = Math.max(1, failures - v.length);
    double half = Tails.studentQuantile(confidence, df) * error;
    double value = Math.exp(log);
    return new LifeFactor(
        new Estimated(
            value, value * error, error, new Interval(Math.exp(log - half), Math.exp(log + half))),
        Tails.twoSided(log / error, df));
  }
}
