package siltwright.life;

import org.apache.commons.math3.analysis.solvers.BracketingNthOrderBrentSolver;

/**
 * A Weibull life that starts after a failure-free time, S(t) = exp(-((t - location)/scale)^shape).
 *
 * <p>Its likelihood grows without bound as the location nears the first failure with a shape below
 * 1; the estimate is the local maximum with a location above 0, where there is one. Method: the
 * profile over the location, whose slope is analytic. Source: J. F. Lawless, Statistical Models and
 * Methods for Lifetime Data, 1982, section 4.4 (from memory).
 *
 * <p>The arrays are handed out as they are, not copied: read them, don't write to them.
 *
 * @param locationH failure-free time, h
 * @param scaleH scale beyond it, h
 * @param shape shape
 * @param logLikelihood at the local maximum
 * @param standardErrors of location (h), ln scale and ln shape, from the observed information
 * @param covariance of location (h), ln scale, ln shape
 */
public record ThreeParameterWeibull(
    double locationH,
    double scaleH,
    double shape,
    double logLikelihood,
    double[] standardErrors,
    double[][] covariance) {
  private static final int SCAN = 80;

  /** Returns Akaike's criterion. */
  public double aic() {
    return 6 - 2 * logLikelihood;
  }

  /** Returns the share that survives an age, h. */
  public double reliability(double hoursH) {
    return hoursH <= locationH ? 1 : Math.exp(-Math.pow((hoursH - locationH) / scaleH, shape));
  }

  /** Returns the life that a share does not reach, h. */
  public double bLifeH(double failedShare) {
    return locationH + scaleH * Math.pow(-Math.log1p(-failedShare), 1 / shape);
  }

  /**
   * Fits the local maximum.
   *
   * @return the fit, or why there is none: no two-parameter fit, or no local maximum with a
   *     failure-free time above 0
   */
  public static Estimate<ThreeParameterWeibull> fit(LifeData data) {
    Estimate<LifeFit> plain = LifeFitting.fit(data, LifeFamily.WEIBULL);
    if (!plain.exists()) {
      return new Estimate.Refused<>(plain.refusal());
    }
    double first = Double.POSITIVE_INFINITY;
    for (int i = 0; i < data.rows(); i++) {
      first = data.failed(i) ? Math.min(first, data.upperH(i)) : first;
    }
    // From 0 towards the first failure, in equal steps of ln(first - location).
    double before = 0;
    double slopeBefore = slope(data, 0);
    for (int k = 1; k <= SCAN; k++) {
      double location = first * (1 - Math.pow(10, -6.0 * k / SCAN));
      double slope = slope(data, location);
      if (slopeBefore > 0 && slope < 0) {
        double root =
            new BracketingNthOrderBrentSolver(1e-14, 1e-12 * first, 5)
                .solve(200, g -> slope(data, g), before, location);
        return at(data, root);
      }
      before = location;
      slopeBefore = slope;
    }
    return Estimate.refused(
        Reason.NO_LOCAL_MAXIMUM,
        "The likelihood has no local maximum at a failure-free time above 0.",
        "Use the Weibull without a failure-free time.");
  }

  private static Maximum inner(LogTimeLikelihood likelihood, LifeData data, double location) {
    double[] start = LifeFitting.start(data, null, LifeFamily.WEIBULL, location);
    return Maximum.climb(likelihood, start, true);
  }

  /** Returns the slope of the profile likelihood; not a number where the other two have no fit. */
  private static double slope(LifeData data, double location) {
    LogTimeLikelihood likelihood =
        LogTimeLikelihood.of(LifeFamily.WEIBULL, data, null, null, 1, location);
    Maximum maximum = inner(likelihood, data, location);
    return maximum == null ? Double.NaN : locationSlope(data, location, maximum.theta());
  }

  /** Returns the derivative of the log likelihood by the location, the others held. */
  private static double locationSlope(LifeData data, double location, double[] theta) {
    double invSigma = Math.exp(-theta[1]);
    double sum = 0;
    for (int i = 0; i < data.rows(); i++) {
      double a = data.lowerH(i) - location;
      double b = data.upperH(i) - location;
      double ua = a > 0 ? power(a, theta, invSigma) : 0;
      double da = a > 0 ? -invSigma / a : 0; // dz/dlocation
      double term;
      if (b == Double.POSITIVE_INFINITY) {
        term = -ua * da;
      } else if (a == b) {
        term = (1 - ua) * da + 1 / a;
      } else {
        double ub = power(b, theta, invSigma);
        double share = -Math.expm1(ua - ub);
        double rest = Math.exp(ua - ub);
        term = (-ua * da + (rest == 0 ? 0 : ub * rest * (-invSigma / b))) / share;
      }
      double e = data.entryH(i) - location;
      if (e > 0) {
        term += power(e, theta, invSigma) * (-invSigma / e);
      }
      sum += data.countAt(i) * term;
    }
    return sum;
  }

  private static double power(double t, double[] theta, double invSigma) {
    return Math.exp((Math.log(t) - theta[0]) * invSigma);
  }

  private static Estimate<ThreeParameterWeibull> at(LifeData data, double location) {
    LogTimeLikelihood likelihood =
        LogTimeLikelihood.of(LifeFamily.WEIBULL, data, null, null, 1, location);
    Maximum maximum = inner(likelihood, data, location);
    double[] theta = maximum.theta();
    double[] g = new double[2];
    double[] h = new double[4];
    likelihood.at(theta, g, h);
    // The gradient is analytic; its change with the location is taken from both sides.
    double step = 1e-5 * Math.exp(theta[0]);
    double[][] side = new double[2][];
    for (int s = 0; s < 2; s++) {
      double to = location + (s == 0 ? step : -step);
      double[] gs = new double[2];
      LogTimeLikelihood.of(LifeFamily.WEIBULL, data, null, null, 1, to)
          .at(theta, gs, new double[4]);
      side[s] = new double[] {locationSlope(data, to, theta), gs[0], gs[1]};
    }
    double[] by = new double[3];
    for (int k = 0; k < 3; k++) {
      by[k] = (side[0][k] - side[1][k]) / (2 * step);
    }
    // In ln shape = -tau, and the location in units of the scale for a well-scaled inverse.
    double unit = Math.exp(theta[0]);
    double[] information = {
      by[0] * unit * unit, by[1] * unit, -by[2] * unit,
      by[1] * unit, h[0], -h[1],
      -by[2] * unit, -h[1], h[3]
    };
    Cholesky c = Cholesky.of(information, 3, 3, -1, 0);
    if (c == null) {
      return Estimate.refused(
          Reason.NO_LOCAL_MAXIMUM,
          "The likelihood is flat or falls away at its stationary failure-free time.",
          "Use the Weibull without a failure-free time.");
    }
    double[][] v = c.inverse();
    double[] se = new double[3];
    for (int i = 0; i < 3; i++) {
      for (int j = 0; j < 3; j++) {
        v[i][j] *= (i == 0 ? unit : 1) * (j == 0 ? unit : 1);
      }
      se[i] = Math.sqrt(v[i][i]);
    }
    return Estimate.found(
        new ThreeParameterWeibull(
            location, unit, Math.exp(-theta[1]), maximum.logLikelihood(), se, v));
  }

  /** Returns Wald's interval of the failure-free time, cut at 0, h. */
  public Interval locationInterval(double confidence) {
    double half = LifeFit.normalQuantile(confidence) * standardErrors[0];
    return new Interval(Math.max(0, locationH - half), locationH + half);
  }
}
