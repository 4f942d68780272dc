package siltwright.fleet;

import org.apache.commons.math3.distribution.BetaDistribution;
import org.apache.commons.math3.distribution.BinomialDistribution;
import siltwright.life.Interval;
import siltwright.life.SignificanceTest;

/**
 * Rates of events that come by chance: exact intervals and tests, which also hold for few events.
 *
 * <p>They hold where the machines of a fleet are alike and their events independent; {@link #alike}
 * asks whether they are.
 */
public final class PoissonRates {
  private PoissonRates() {}

  /**
   * Returns the exact interval of a rate.
   *
   * <pre>  chi2(a/2; 2k)/(2H) to chi2(1 - a/2; 2k + 2)/(2H),  a = 1 - confidence  </pre>
   *
   * <p>Source: F. Garwood, Biometrika 28 (1936) 437-442 (from memory).
   *
   * @param count events, at least 0
   * @param hoursH hours in which they came, above 0
   */
  public static Interval interval(long count, double hoursH, double confidence) {
    double tail = 0.5 * (1 - confidence);
    double low = count == 0 ? 0 : Tails.gammaQuantile(tail, count);
    double high = Tails.gammaQuantile(1 - tail, count + 1);
    return new Interval(low / hoursH, high / hoursH);
  }

  /**
   * The ratio of two rates.
   *
   * @param ratio first over second; infinite if only the second has no events
   * @param interval exact
   * @param pValue twice the smaller tail, at most 1
   */
  public record Ratio(double ratio, Interval interval, double pValue) {}

  /**
   * Compares two rates given their total count: the first's share of it is binomial.
   *
   * <p>Source: J. Przyborowski, H. Wilenski, Biometrika 31 (1940) 313-323, with Clopper's and
   * Pearson's interval of the share (from memory).
   */
  public static Ratio ratio(
      long first, double firstH, long second, double secondH, double confidence) {
    long total = first + second;
    if (total == 0) {
      return new Ratio(Double.NaN, new Interval(0, Double.POSITIVE_INFINITY), 1);
    }
    double tail = 0.5 * (1 - confidence);
    double low =
        first == 0
            ? 0
            : new BetaDistribution(null, first, second + 1.0, 1e-13)
                .inverseCumulativeProbability(tail);
    double high =
        second == 0
            ? 1
            : new BetaDistribution(null, first + 1.0, second, 1e-13)
                .inverseCumulativeProbability(1 - tail);
    double scale = secondH / firstH;
    BinomialDistribution shared =
        new BinomialDistribution(null, Math.toIntExact(total), firstH / (firstH + secondH));
    int seen = (int) first;
    double below = shared.cumulativeProbability(seen);
    double above = 1 - shared.cumulativeProbability(seen - 1);
    return new Ratio(
        second == 0 ? Double.POSITIVE_INFINITY : first * scale / second,
        new Interval(
            low / (1 - low) * scale,
            high == 1 ? Double.POSITIVE_INFINITY : high / (1 - high) * scale),
        Math.min(1, 2 * Math.min(below, above)));
  }

  /**
   * Returns the p-value of equal rates as the probability of all counts that are no likelier than
   * the one seen; somewhat smaller than that of {@link #ratio} where the rates' hours differ.
   */
  public static double leastLikelyPValue(long first, double firstH, long second, double secondH) {
    int total = Math.toIntExact(first + second);
    BinomialDistribution shared =
        new BinomialDistribution(null, total, firstH / (firstH + secondH));
    double likelihood = shared.probability((int) first) * (1 + 1e-7);
    double sum = 0;
    for (int k = 0; k <= total; k++) {
      double p = shared.probability(k);
      sum += p <= likelihood ? p : 0;
    }
    return Math.min(1, sum);
  }

  /**
   * Whether units share one rate: Pearson's chi-square, and the likelihood ratio's.
   *
   * @param pearson Pearson's; its statistic over its degrees of freedom is the dispersion, 1 where
   *     units differ by chance only
   * @param likelihoodRatio the likelihood ratio's
   */
  public record Alike(SignificanceTest pearson, SignificanceTest likelihoodRatio) {
    /** Returns how much more units vary than chance lets them; 1 if they do not. */
    public double dispersion() {
      return pearson.chiSquare() / pearson.degreesOfFreedom();
    }
  }

  /**
   * Tests whether units share one rate. The approximation is good from about 3 events expected of
   * each unit on.
   *
   * @param counts events of each unit, at least two units
   * @param hoursH hours of each unit
   */
  public static Alike alike(double[] counts, double[] hoursH) {
    double k = 0;
    double h = 0;
    for (int i = 0; i < counts.length; i++) {
      k += counts[i];
      h += hoursH[i];
    }
    double pearson = 0;
    double ratio = 0;
    for (int i = 0; i < counts.length; i++) {
      double expected = k / h * hoursH[i];
      if (expected > 0) {
        double d = counts[i] - expected;
        pearson += d * d / expected;
        ratio += counts[i] == 0 ? 0 : 2 * counts[i] * Math.log(counts[i] / expected);
      }
    }
    int df = counts.length - 1;
    return new Alike(Tails.test(pearson, df), Tails.test(ratio, df));
  }
}
