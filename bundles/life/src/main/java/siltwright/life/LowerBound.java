package siltwright.life;

import org.apache.commons.math3.distribution.ChiSquaredDistribution;

/**
 * What few or no failures say about a Weibull life of known shape: a one-sided lower bound of the
 * scale at a stated confidence.
 *
 * <pre>  scale >= (2 sum (t^b - e^b) / chi2(C; 2 r + 2))^(1/b)  </pre>
 *
 * <p>b the shape, e the age at entry, r the failures; with none, -ln(1 - C) stands for the half of
 * the chi-square. t^b is exponential when the shape is right, so the bound is exact for removals
 * fixed beforehand; failures within an interval have no such bound and are refused.
 *
 * <p>Source: W. Nelson, Weibull analysis of reliability data with few or no failures, Journal of
 * Quality Technology 17 (1985) 140-146 (from memory).
 *
 * @param shape assumed shape b, 1
 * @param failures components failed, r
 * @param sumOfPowers sum of t^b - e^b, in h^b
 */
public record LowerBound(double shape, double failures, double sumOfPowers) {
  /**
   * Sums up records under an assumed shape.
   *
   * @throws IllegalArgumentException if the shape is not above 0 or a failure is known only within
   *     an interval
   */
  public static LowerBound of(LifeData data, double shape) {
    requireShape(shape);
    double sum = 0;
    for (int i = 0; i < data.rows(); i++) {
      if (data.failed(i) && data.lowerH(i) != data.upperH(i)) {
        throw new IllegalArgumentException(
            "row " + i + ": the bound needs failures at a known hour, not an interval");
      }
      double e = data.entryH(i);
      sum += data.countAt(i) * (Math.pow(data.lowerH(i), shape) - Math.pow(e, shape));
    }
    if (!(sum > 0)) {
      throw new IllegalArgumentException("no hours were watched");
    }
    return new LowerBound(shape, data.failures(), sum);
  }

  /** Returns the estimate of the scale, h; not a number without failures. */
  public double scaleH() {
    return failures == 0 ? Double.NaN : Math.pow(sumOfPowers / failures, 1 / shape);
  }

  /**
   * Returns the hours that the scale exceeds at a confidence.
   *
   * @param confidence one-sided, between 0 and 1
   */
  public double scaleLowerH(double confidence) {
    if (!(confidence > 0 && confidence < 1)) {
      throw new IllegalArgumentException(
          "confidence is " + confidence + ", expected between 0 and 1");
    }
    return Math.pow(sumOfPowers / halfChiSquare(confidence, failures), 1 / shape);
  }

  /** Returns the hours that the life a share does not reach exceeds at a confidence. */
  public double bLifeLowerH(double failedShare, double confidence) {
    return scaleLowerH(confidence) * Math.pow(-Math.log1p(-failedShare), 1 / shape);
  }

  /** Returns chi2(C; 2r + 2)/2, the test length in mean lives that r failures allow. */
  static double halfChiSquare(double confidence, double failures) {
    if (failures == 0) {
      return -Math.log1p(-confidence);
    }
    return 0.5
        * new ChiSquaredDistribution(null, 2 * failures + 2, 1e-13)
            .inverseCumulativeProbability(confidence);
  }

  static void requireShape(double shape) {
    if (!(shape > 0 && shape < Double.POSITIVE_INFINITY)) {
      throw new IllegalArgumentException("shape is " + shape + ", expected above 0, finite");
    }
  }
}
