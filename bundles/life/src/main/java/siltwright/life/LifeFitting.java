package siltwright.life;

/**
 * Fits a law of life by maximum likelihood.
 *
 * <p>The likelihood is that of the hours themselves: density for a failure seen, survival for a
 * removal, the difference of survivals for an interval, each divided by the survival at a late
 * entry and raised to the row's count. Method: Newton with analytic derivatives in (mu, ln sigma)
 * from a least-squares start. Source: J. F. Lawless, Statistical Models and Methods for Lifetime
 * Data, 1982 (from memory).
 */
public final class LifeFitting {
  private LifeFitting() {}

  /**
   * Fits a law.
   *
   * @return the fit, or why the records carry none
   */
  public static Estimate<LifeFit> fit(LifeData data, LifeFamily family) {
    return fit(data, family, family == LifeFamily.EXPONENTIAL, 0);
  }

  /**
   * Fits a Weibull scale with the shape given (0 failures are refused; see {@link LowerBound}).
   *
   * @param shape assumed Weibull shape, above 0
   */
  public static Estimate<LifeFit> fitWithShape(LifeData data, double shape) {
    LowerBound.requireShape(shape);
    return fit(data, LifeFamily.WEIBULL, true, -Math.log(shape));
  }

  private static Estimate<LifeFit> fit(
      LifeData data, LifeFamily family, boolean fixedSigma, double tau) {
    Refusal refusal = Existence.check(data, null, family, fixedSigma);
    if (refusal != null) {
      return new Estimate.Refused<>(refusal);
    }
    LogTimeLikelihood likelihood = LogTimeLikelihood.of(family, data, null, null, 1, 0);
    double[] start = start(data, null, family, 0);
    if (fixedSigma) {
      start = new double[] {start(data, null, LifeFamily.EXPONENTIAL, 0)[0], tau};
    }
    Maximum maximum = Maximum.climb(likelihood, start, !fixedSigma);
    if (maximum == null && !fixedSigma) {
      double mean = start(data, null, LifeFamily.EXPONENTIAL, 0)[0];
      maximum = Maximum.climb(likelihood, new double[] {mean, 0}, true);
    }
    if (maximum == null) {
      return unbounded();
    }
    return Estimate.found(new LifeFit(family, fixedSigma, data, maximum, likelihood));
  }

  static Estimate<LifeFit> unbounded() {
    return Estimate.refused(
        Reason.UNBOUNDED_LIKELIHOOD,
        "The likelihood rises towards the edge of its parameters: no maximum was found.",
        "What can be said is the survival curve without a law.");
  }

  /**
   * Returns (mu, ln sigma) to climb from: moments of ln t of the failures, moved up for removals.
   *
   * @param counts counts that replace the data's own, or null
   * @param shiftH hours taken off every time
   */
  static double[] start(LifeData data, double[] counts, LifeFamily family, double shiftH) {
    double n = 0;
    double failures = 0;
    double mean = 0;
    double square = 0;
    double total = 0;
    double reference = Double.NaN;
    for (int i = 0; i < data.rows(); i++) {
      double c = counts == null ? data.countAt(i) : counts[i];
      double lower = data.lowerH(i) - shiftH;
      if (c == 0 || !data.failed(i) && lower <= 0) {
        continue;
      }
      n += c;
      double t = data.failed(i) ? middle(lower, data.upperH(i) - shiftH) : lower;
      total += c * (t - Math.max(0, data.entryH(i) - shiftH));
      if (data.failed(i)) {
        double y = Math.log(t);
        if (Double.isNaN(reference)) {
          reference = y;
        }
        failures += c;
        mean += c * (y - reference);
        square += c * (y - reference) * (y - reference);
      }
    }
    if (family == LifeFamily.EXPONENTIAL) {
      return new double[] {Math.log(total / failures), 0};
    }
    mean /= failures;
    double variance = square / failures - mean * mean;
    if (!(variance > 1e-6)) {
      return new double[] {Math.log(total / failures), 0}; // one failure time: as if exponential
    }
    double sigma = Math.sqrt(variance);
    double mu = mean + reference;
    if (family == LifeFamily.WEIBULL) {
      sigma *= Math.sqrt(6) / Math.PI;
      mu += 0.5772 * sigma;
    }
    return new double[] {mu + sigma * Math.log(n / failures), Math.log(sigma)};
  }

  /** Returns a time to start from for an interval. */
  private static double middle(double lower, double upper) {
    return lower > 0 ? 0.5 * (lower + upper) : 0.7 * upper;
  }
}
