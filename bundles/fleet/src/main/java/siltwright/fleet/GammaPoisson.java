package siltwright.fleet;

import java.util.Arrays;
import org.apache.commons.math3.special.Gamma;
import siltwright.life.Interval;

/**
 * Rates of units drawn towards those of all, the more so the less a unit was watched, so that three
 * quiet weeks do not crown a fleet nor three bad ones condemn it.
 *
 * <pre>
 *   rate_i ~ gamma(shape a, rate b);  events ~ Poisson(rate_i H_i)
 *   rate_i given k_i events ~ gamma(a + k_i, b + H_i);  shrunk rate (a + k_i)/(b + H_i)
 * </pre>
 *
 * <p>a and b by maximum likelihood of the counts (negative binomial). Where the counts vary no more
 * than chance lets them, a is infinite and all units have the common rate. The intervals take a and
 * b as known, so that of few units (fewer than about ten) they are too narrow. Source: D. P. Gaver,
 * I. G. O'Muircheartaigh, Technometrics 29 (1987) 1-15 (from memory).
 */
public final class GammaPoisson {
  private static final double FLAT = 1e-7;
  private final double[] counts;
  private final double[] hoursH;
  private final double mean;
  private final double shape;

  private GammaPoisson(double[] counts, double[] hoursH, double mean, double shape) {
    this.counts = counts;
    this.hoursH = hoursH;
    this.mean = mean;
    this.shape = shape;
  }

  /**
   * Fits.
   *
   * @param counts events of each unit; copied
   * @param hoursH hours of each unit, above 0; copied
   * @throws IllegalArgumentException if there are fewer than two units or no events
   */
  public static GammaPoisson of(double[] counts, double[] hoursH) {
    double k = Arrays.stream(counts).sum();
    if (counts.length < 2 || k == 0) {
      throw new IllegalArgumentException("needs two units and an event");
    }
    GammaPoisson common =
        new GammaPoisson(
            counts.clone(),
            hoursH.clone(),
            k / Arrays.stream(hoursH).sum(),
            Double.POSITIVE_INFINITY);
    // Climb in 1/shape, the variance of the rates over their mean's square, and the mean for each.
    double low = 0;
    double high = 1;
    while (common.slope(high) > 0 && high < 1e6) {
      low = high;
      high *= 4;
    }
    if (low == 0 && common.slope(FLAT) <= 0) {
      return common;
    }
    low = Math.max(low, FLAT);
    for (int i = 0; i < 200 && high / low > 1 + 1e-15; i++) {
      double middle = Math.sqrt(low * high);
      if (common.slope(middle) > 0) {
        low = middle;
      } else {
        high = middle;
      }
    }
    double spread = Math.sqrt(low * high);
    return new GammaPoisson(common.counts, common.hoursH, common.meanAt(spread), 1 / spread);
  }

  /** Returns the mean of greatest likelihood for a spread 1/a: sum (k - mH)/(1 + sHm) = 0. */
  private double meanAt(double spread) {
    double low = 0;
    double high = 0;
    for (int i = 0; i < counts.length; i++) {
      high = Math.max(high, counts[i] / hoursH[i]);
    }
    for (int step = 0; step < 200 && high - low > 1e-16 * high; step++) {
      double m = 0.5 * (low + high);
      double sum = 0;
      for (int i = 0; i < counts.length; i++) {
        sum += (counts[i] - m * hoursH[i]) / (1 + spread * hoursH[i] * m);
      }
      if (sum > 0) {
        low = m;
      } else {
        high = m;
      }
    }
    return 0.5 * (low + high);
  }

  /** Returns the slope of the likelihood against the spread s, at the mean that is best there. */
  private double slope(double s) {
    double m = meanAt(s);
    // l = sum over j < k of ln(1 + s j) + k ln m - (k + 1/s) ln(1 + s m H)
    double slope = 0;
    for (int i = 0; i < counts.length; i++) {
      double k = counts[i];
      double x = m * hoursH[i];
      if (k > 0) {
        slope +=
            k <= 64 ? risen(k, s) : (k - (Gamma.digamma(k + 1 / s) - Gamma.digamma(1 / s)) / s) / s;
      }
      double y = s * x;
      double log = Math.log1p(y);
      double tail = y < 1e-4 ? x * x * (0.5 - 2 * y / 3) : (log - y / (1 + y)) / (s * s);
      slope += tail - k * x / (1 + y);
    }
    return slope;
  }

  private static double risen(double k, double s) {
    double sum = 0;
    for (int j = 1; j < k; j++) {
      sum += j / (1 + s * j);
    }
    return sum;
  }

  /** Returns the log likelihood of the counts. */
  public double logLikelihood() {
    double l = 0;
    for (int i = 0; i < counts.length; i++) {
      double k = counts[i];
      double x = mean * hoursH[i];
      l -= Gamma.logGamma(k + 1);
      if (Double.isInfinite(shape)) {
        l += k * Math.log(x) - x;
      } else {
        l += Gamma.logGamma(shape + k) - Gamma.logGamma(shape);
        l += k * Math.log(x / (shape + x)) - shape * Math.log1p(x / shape);
      }
    }
    return l;
  }

  /** Returns the mean rate of the units, per h. */
  public double meanPerH() {
    return mean;
  }

  /** Returns a; infinite where the units differ by chance only. */
  public double shape() {
    return shape;
  }

  /** Returns b, h. */
  public double rateH() {
    return shape / mean;
  }

  /** Returns whether the units differ more than chance lets them. */
  public boolean differ() {
    return Double.isFinite(shape);
  }

  /** Returns the shrunk rate of a unit, per h. */
  public double ratePerH(int unit) {
    return differ() ? (shape + counts[unit]) / (rateH() + hoursH[unit]) : mean;
  }

  /** Returns the share of a unit's own rate in its shrunk one; the rest is that of all. */
  public double ownShare(int unit) {
    return differ() ? hoursH[unit] / (rateH() + hoursH[unit]) : 0;
  }

  /**
   * Returns the interval that holds a unit's rate with a probability, per h; that of the common
   * rate where units do not differ.
   */
  public Interval interval(int unit, double confidence) {
    if (!differ()) {
      double hours = Arrays.stream(hoursH).sum();
      return PoissonRates.interval(Math.round(mean * hours), hours, confidence);
    }
    double tail = 0.5 * (1 - confidence);
    double k = shape + counts[unit];
    double h = rateH() + hoursH[unit];
    return new Interval(Tails.gammaQuantile(tail, k) / h, Tails.gammaQuantile(1 - tail, k) / h);
  }
}
