package siltwright.life;

import org.apache.commons.math3.distribution.NormalDistribution;

/**
 * A law of life fitted by maximum likelihood, with what follows from it.
 *
 * <p>Immutable; intervals are computed when asked for.
 */
public final class LifeFit {
  private static final NormalDistribution NORMAL = new NormalDistribution(null, 0, 1);

  private final LifeFamily family;
  private final boolean fixedSigma;
  private final double components;
  private final double failures;
  private final Maximum maximum;
  private final LogTimeLikelihood likelihood;

  LifeFit(
      LifeFamily family,
      boolean fixedSigma,
      LifeData data,
      Maximum maximum,
      LogTimeLikelihood likelihood) {
    this(family, fixedSigma, data.components(), data.failures(), maximum, likelihood);
  }

  /**
   * @param likelihood null where the records are elsewhere: then there are no profiles
   */
  LifeFit(
      LifeFamily family,
      boolean fixedSigma,
      double components,
      double failures,
      Maximum maximum,
      LogTimeLikelihood likelihood) {
    this.family = family;
    this.fixedSigma = fixedSigma;
    this.components = components;
    this.failures = failures;
    this.maximum = maximum;
    this.likelihood = likelihood;
  }

  /** Returns the law. */
  public LifeFamily family() {
    return family;
  }

  /** Returns how many components the fit rests on. */
  public double components() {
    return components;
  }

  /** Returns how many of them failed. */
  public double failures() {
    return failures;
  }

  /** Returns mu, ln h. */
  public double mu() {
    return maximum.theta()[0];
  }

  /** Returns sigma, 1/shape of a Weibull. */
  public double sigma() {
    return Math.exp(maximum.theta()[1]);
  }

  /** Returns exp(mu), h: Weibull scale, exponential mean, lognormal median. */
  public double scaleH() {
    return Math.exp(mu());
  }

  /** Returns 1/sigma, the Weibull shape. */
  public double shape() {
    return Math.exp(-maximum.theta()[1]);
  }

  /** Returns the greatest log likelihood, of T in hours, no constant dropped. */
  public double logLikelihood() {
    return maximum.logLikelihood();
  }

  /** Returns the number of parameters estimated. */
  public int parameters() {
    return fixedSigma ? 1 : 2;
  }

  /** Returns Akaike's criterion, 2 parameters - 2 log likelihood; the smaller the better. */
  public double aic() {
    return 2 * parameters() - 2 * logLikelihood();
  }

  /**
   * Returns the covariance of (mu, ln sigma) from the observed information; one by one where sigma
   * is held.
   */
  public double[][] covariance() {
    return copy(maximum.covariance());
  }

  /** Returns the covariance of (ln scale, ln shape), what a draw of a Weibull's life needs. */
  public double[][] covarianceLogScaleLogShape() {
    double[][] c = copy(maximum.covariance());
    if (c.length == 2) {
      c[0][1] = -c[0][1];
      c[1][0] = -c[1][0];
    }
    return c;
  }

  /** Returns the share that survives an age, h. */
  public double reliability(double hoursH) {
    return hoursH <= 0 ? 1 : family.standardSurvival((Math.log(hoursH) - mu()) / sigma());
  }

  /** Returns failures per hour at an age, h, above 0. */
  public double hazardPerH(double hoursH) {
    double z = (Math.log(hoursH) - mu()) / sigma();
    double hazard = family == LifeFamily.LOGNORMAL ? NormalTail.hazard(z) : Math.exp(z);
    return hazard / (sigma() * hoursH);
  }

  /** Returns the life that a share does not reach, h. */
  public double bLifeH(double failedShare) {
    return Math.exp(mu() + sigma() * family.standardQuantile(failedShare));
  }

  /** Returns the mean life, h. */
  public double meanLifeH() {
    return Math.exp(mu() + family.logMean(sigma()));
  }

  /**
   * Returns a quantity with its standard error and Wald interval.
   *
   * <p>The interval is symmetric in ln of a positive quantity, in mu itself, and, for a
   * reliability, in the standardised time (ln(-ln S) for a Weibull, the probit for a lognormal).
   *
   * @param confidence such as 0.95
   */
  public Estimated estimate(Quantity quantity, double confidence) {
    Coordinate c = new Coordinate(quantity, family);
    double[] theta = maximum.theta();
    double at = c.at(theta[0], theta[1]);
    double[] d = c.gradient(theta[0], theta[1]);
    double[][] v = maximum.covariance();
    double variance = d[0] * d[0] * v[0][0];
    if (v.length == 2) {
      variance += 2 * d[0] * d[1] * v[0][1] + d[1] * d[1] * v[1][1];
    } else if (c.isTau()) {
      variance = 0;
    }
    double se = Math.sqrt(variance);
    double half = normalQuantile(confidence) * se;
    return new Estimated(
        c.value(at), Math.abs(c.slope(at)) * se, se, ordered(c, at - half, at + half));
  }

  /**
   * Returns the profile-likelihood interval of a quantity: where the greatest likelihood with the
   * quantity held has dropped by half the chi-square quantile.
   *
   * @param confidence such as 0.95, a drop of 1.9207
   * @return an end is 0 or infinite (for mu, minus or plus infinity) where the likelihood never
   *     drops that far
   */
  public Interval profileInterval(Quantity quantity, double confidence) {
    Coordinate c = new Coordinate(quantity, family);
    double[] theta = maximum.theta();
    double at = c.at(theta[0], theta[1]);
    if (fixedSigma && c.isTau()) {
      return new Interval(c.value(at), c.value(at));
    }
    double step = normalQuantile(confidence) * estimate(quantity, confidence).logStandardError();
    double drop = 0.5 * SignificanceTest.chiSquareQuantile(confidence, 1);
    Profile profile = profile(quantity, c);
    return ordered(c, profile.endpoint(-step, drop), profile.endpoint(step, drop));
  }

  /**
   * Returns the profile log likelihood of a quantity at some of its values, for a plot.
   *
   * @param values in the unit of the quantity; not modified
   */
  public double[] profileLogLikelihood(Quantity quantity, double[] values) {
    Coordinate c = new Coordinate(quantity, family);
    if (fixedSigma && c.isTau()) {
      throw new IllegalArgumentException("the shape is held, so it has no profile");
    }
    Profile profile = profile(quantity, c);
    double[] l = new double[values.length];
    for (int i = 0; i < values.length; i++) {
      l[i] = profile.at(c.of(values[i]));
    }
    return l;
  }

  private Profile profile(Quantity quantity, Coordinate c) {
    if (likelihood == null) {
      throw new IllegalStateException("the records are not here: there is no profile of them");
    }
    double unit = estimate(quantity, 0.95).logStandardError();
    return new Profile(likelihood.fork(), c, maximum.theta(), logLikelihood(), unit, fixedSigma);
  }

  private static Interval ordered(Coordinate c, double low, double high) {
    return c.falls()
        ? new Interval(c.value(high), c.value(low))
        : new Interval(c.value(low), c.value(high));
  }

  static double normalQuantile(double confidence) {
    if (!(confidence > 0 && confidence < 1)) {
      throw new IllegalArgumentException(
          "confidence is " + confidence + ", expected between 0 and 1");
    }
    return NORMAL.inverseCumulativeProbability(0.5 + 0.5 * confidence);
  }

  static double[][] copy(double[][] m) {
    double[][] c = new double[m.length][];
    for (int i = 0; i < c.length; i++) {
      c[i] = m[i].clone();
    }
    return c;
  }
}
