package siltwright.fleet;

import org.apache.commons.math3.distribution.ChiSquaredDistribution;
import org.apache.commons.math3.distribution.GammaDistribution;
import org.apache.commons.math3.distribution.TDistribution;
import org.apache.commons.math3.special.Erf;
import org.apache.commons.math3.special.Gamma;
import siltwright.life.SignificanceTest;

/** Tails and quantiles of the distributions that tests refer to. */
final class Tails {
  private Tails() {}

  /** Returns the probability of a standard normal number farther from 0. */
  static double twoSided(double z) {
    return Double.isNaN(z) ? Double.NaN : Erf.erfc(Math.abs(z) / Math.sqrt(2));
  }

  /** Returns the standard normal number that leaves half of 1 - confidence above it. */
  static double normalQuantile(double confidence) {
    return Math.sqrt(2) * Erf.erfInv(confidence);
  }

  /** Returns the probability of a number of Student's law farther from 0. */
  static double twoSided(double t, double degreesOfFreedom) {
    if (Double.isNaN(t) || !(degreesOfFreedom > 0)) {
      return Double.NaN;
    }
    return 2 * new TDistribution(null, degreesOfFreedom).cumulativeProbability(-Math.abs(t));
  }

  /** Returns the number of Student's law that leaves half of 1 - confidence above it. */
  static double studentQuantile(double confidence, double degreesOfFreedom) {
    return degreesOfFreedom > 0
        ? new TDistribution(null, degreesOfFreedom)
            .inverseCumulativeProbability(0.5 * (1 + confidence))
        : Double.NaN;
  }

  /** Returns the probability of a larger chi-square. */
  static double chiSquareUpper(double x, double degreesOfFreedom) {
    return x <= 0 ? 1 : Gamma.regularizedGammaQ(0.5 * degreesOfFreedom, 0.5 * x, 1e-15, 100_000);
  }

  /** Returns the probability of a smaller chi-square. */
  static double chiSquareLower(double x, double degreesOfFreedom) {
    return x <= 0 ? 0 : Gamma.regularizedGammaP(0.5 * degreesOfFreedom, 0.5 * x, 1e-15, 100_000);
  }

  static double chiSquareQuantile(double probability, double degreesOfFreedom) {
    return new ChiSquaredDistribution(null, degreesOfFreedom, 1e-13)
        .inverseCumulativeProbability(probability);
  }

  /** Returns a quantile of a gamma distribution with a shape and a scale of 1. */
  static double gammaQuantile(double probability, double shape) {
    return new GammaDistribution(null, shape, 1, 1e-13).inverseCumulativeProbability(probability);
  }

  /** Returns a chi-square test. */
  static SignificanceTest test(double chiSquare, int degreesOfFreedom) {
    double x = Math.max(0, chiSquare);
    return new SignificanceTest(x, degreesOfFreedom, chiSquareUpper(x, degreesOfFreedom));
  }
}
