package siltwright.life;

import org.apache.commons.math3.distribution.NormalDistribution;
import org.apache.commons.math3.special.Gamma;

/**
 * The laws of life, each ln T = mu + sigma Z with its own standard Z.
 *
 * <pre>
 *   Weibull      S(t) = exp(-(t/scale)^shape)   mu = ln scale, sigma = 1/shape
 *   lognormal    ln T normal                    mu, sigma its mean and standard deviation
 *   exponential  S(t) = exp(-t/mean)            mu = ln mean, sigma = 1
 * </pre>
 */
public enum LifeFamily {
  /** Weibull, Z smallest extreme value. */
  WEIBULL,
  /** Lognormal, Z normal. */
  LOGNORMAL,
  /** Exponential, the Weibull of shape 1. */
  EXPONENTIAL;

  private static final NormalDistribution NORMAL = new NormalDistribution(null, 0, 1);

  /** Returns the number of parameters. */
  public int parameters() {
    return this == EXPONENTIAL ? 1 : 2;
  }

  /** Returns the value of Z below which a share (between 0 and 1) has failed. */
  public double standardQuantile(double share) {
    return this == LOGNORMAL
        ? NORMAL.inverseCumulativeProbability(share)
        : Math.log(-Math.log1p(-share));
  }

  /** Returns the share that survives Z = z. */
  public double standardSurvival(double z) {
    return this == LOGNORMAL ? NormalTail.upper(z) : Math.exp(-Math.exp(z));
  }

  /** Returns the density of Z at z. */
  public double standardDensity(double z) {
    return this == LOGNORMAL
        ? Math.exp(-0.5 * z * z - NormalTail.LOG_SQRT_2PI)
        : Math.exp(z - Math.exp(z));
  }

  /** Returns ln of the mean life over exp(mu), as a function of sigma. */
  double logMean(double sigma) {
    return this == LOGNORMAL ? 0.5 * sigma * sigma : Gamma.logGamma(1 + sigma);
  }

  /** Returns the derivative of {@link #logMean} by ln sigma. */
  double logMeanSlope(double sigma) {
    return this == LOGNORMAL ? sigma * sigma : sigma * Gamma.digamma(1 + sigma);
  }

  /** Returns the second derivative of {@link #logMean} by ln sigma. */
  double logMeanCurvature(double sigma) {
    return this == LOGNORMAL
        ? 2 * sigma * sigma
        : sigma * Gamma.digamma(1 + sigma) + sigma * sigma * Gamma.trigamma(1 + sigma);
  }

  boolean extremeValue() {
    return this != LOGNORMAL;
  }
}
