package siltwright.life;

import org.apache.commons.math3.distribution.ChiSquaredDistribution;
import org.apache.commons.math3.special.Gamma;

/**
 * A chi-square test.
 *
 * @param chiSquare the statistic
 * @param degreesOfFreedom its degrees of freedom
 * @param pValue probability of a larger one by chance
 */
public record SignificanceTest(double chiSquare, int degreesOfFreedom, double pValue) {
  static SignificanceTest of(double chiSquare, int degreesOfFreedom) {
    double x = Math.max(0, chiSquare);
    double p = x == 0 ? 1 : Gamma.regularizedGammaQ(0.5 * degreesOfFreedom, 0.5 * x, 1e-15, 10000);
    return new SignificanceTest(x, degreesOfFreedom, p);
  }

  static double chiSquareQuantile(double probability, int degreesOfFreedom) {
    return new ChiSquaredDistribution(null, degreesOfFreedom)
        .inverseCumulativeProbability(probability);
  }
}
