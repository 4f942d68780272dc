package siltwright.life;

import java.util.Arrays;
import java.util.SplittableRandom;
import java.util.function.IntConsumer;
import java.util.stream.IntStream;
import org.apache.commons.math3.distribution.NormalDistribution;

/**
 * A fit repeated on records drawn again with replacement, component by component.
 *
 * <p>Each replicate has its own generator, seeded from the seed alone, so that the result is the
 * same however many threads share the work. Draws that carry no estimate (all failures at the last
 * time, none at all) are left out and counted: many of them say that the records are too few for a
 * bootstrap.
 *
 * <p>Source: B. Efron, R. J. Tibshirani, An Introduction to the Bootstrap, 1993, chapters 13 and 14
 * (from memory).
 */
public final class Bootstrap {
  private static final NormalDistribution NORMAL = new NormalDistribution(null, 0, 1);

  private final LifeData data;
  private final LifeFamily family;
  private final LifeFit fit;
  private final double[] mu;
  private final double[] tau;
  private final boolean parallel;

  private Bootstrap(
      LifeData data, LifeFamily family, LifeFit fit, double[] mu, double[] tau, boolean parallel) {
    this.data = data;
    this.family = family;
    this.fit = fit;
    this.mu = mu;
    this.tau = tau;
    this.parallel = parallel;
  }

  /**
   * Repeats a fit.
   *
   * @param replicates draws, such as 1000
   * @param seed the same seed gives the same result
   * @param parallel whether the common pool may share the work
   * @return the replicates, or why the records themselves carry no fit
   * @throws IllegalArgumentException if {@code replicates} is below 1 or a count is no whole number
   */
  public static Estimate<Bootstrap> of(
      LifeData data, LifeFamily family, int replicates, long seed, boolean parallel) {
    if (replicates < 1) {
      throw new IllegalArgumentException("replicates are " + replicates + ", expected at least 1");
    }
    double[] counts = new double[data.rows()];
    long[] cumulated = cumulated(data);
    Arrays.setAll(counts, data::countAt);
    Estimate<LifeFit> fit = LifeFitting.fit(data, family);
    if (!fit.exists()) {
      return new Estimate.Refused<>(fit.refusal());
    }
    double[] start = {fit.get().mu(), Math.log(fit.get().sigma())};
    long[] seeds = new SplittableRandom(seed).longs(replicates).toArray();
    double[] mu = new double[replicates];
    double[] tau = new double[replicates];
    each(
        replicates,
        parallel,
        r -> {
          double[] drawn = draw(new SplittableRandom(seeds[r]), cumulated);
          double[] theta = refit(data, family, drawn, start);
          mu[r] = theta == null ? Double.NaN : theta[0];
          tau[r] = theta == null ? Double.NaN : theta[1];
        });
    return Estimate.found(new Bootstrap(data, family, fit.get(), mu, tau, parallel));
  }

  private static void each(int n, boolean parallel, IntConsumer work) {
    IntStream range = IntStream.range(0, n);
    (parallel ? range.parallel() : range).forEach(work);
  }

  private static long[] cumulated(LifeData data) {
    long[] cumulated = new long[data.rows()];
    long sum = 0;
    for (int i = 0; i < cumulated.length; i++) {
      double c = data.countAt(i);
      if (c != Math.rint(c)) {
        throw new IllegalArgumentException(
            "row " + i + ": count is " + c + ", a bootstrap draws whole components");
      }
      sum += (long) c;
      cumulated[i] = sum;
    }
    return cumulated;
  }

  private static double[] draw(SplittableRandom random, long[] cumulated) {
    int rows = cumulated.length;
    long components = cumulated[rows - 1];
    double[] counts = new double[rows];
    for (long k = 0; k < components; k++) {
      long u = random.nextLong(components);
      int row = (int) u;
      if (components != rows) {
        int at = Arrays.binarySearch(cumulated, u + 1);
        row = at >= 0 ? at : -at - 1;
      }
      counts[row]++;
    }
    return counts;
  }

  /** Returns the parameters that fit some counts, or null if they carry no estimate. */
  private static double[] refit(LifeData data, LifeFamily family, double[] counts, double[] start) {
    if (Existence.check(data, counts, family, false) != null) {
      return null;
    }
    LogTimeLikelihood likelihood = LogTimeLikelihood.of(family, data, counts, null, 1, 0);
    boolean freeSigma = family != LifeFamily.EXPONENTIAL;
    Maximum maximum = Maximum.climb(likelihood, start, freeSigma);
    if (maximum == null) {
      maximum = Maximum.climb(likelihood, LifeFitting.start(data, counts, family, 0), freeSigma);
    }
    return maximum == null ? null : maximum.theta();
  }

  /** Returns the fit of the records themselves. */
  public LifeFit fit() {
    return fit;
  }

  /** Returns how many draws carried no estimate. */
  public int withoutMaximum() {
    int n = 0;
    for (double m : mu) {
      n += Double.isNaN(m) ? 1 : 0;
    }
    return n;
  }

  /** Returns a quantity in each draw that carried an estimate, in the order of the draws. */
  public double[] values(Quantity quantity) {
    Coordinate c = new Coordinate(quantity, family);
    return Arrays.stream(coordinates(c)).map(c::value).toArray();
  }

  private double[] coordinates(Coordinate c) {
    return IntStream.range(0, mu.length)
        .filter(r -> !Double.isNaN(mu[r]))
        .mapToDouble(r -> c.at(mu[r], tau[r]))
        .toArray();
  }

  /** Returns the standard deviation of a quantity over the draws. */
  public double standardDeviation(Quantity quantity) {
    double[] v = values(quantity);
    double mean = Arrays.stream(v).average().orElse(Double.NaN);
    double square = Arrays.stream(v).map(x -> (x - mean) * (x - mean)).sum();
    return Math.sqrt(square / (v.length - 1));
  }

  /** Returns the percentile interval of a quantity. */
  public Interval percentileInterval(Quantity quantity, double confidence) {
    Coordinate c = new Coordinate(quantity, family);
    double tail = 0.5 - 0.5 * confidence;
    return interval(c, coordinates(c), tail, 1 - tail);
  }

  /**
   * Returns the bias-corrected and accelerated interval of a quantity. The acceleration is from one
   * refit for each row with one component less.
   */
  public Interval bcaInterval(Quantity quantity, double confidence) {
    Coordinate c = new Coordinate(quantity, family);
    double[] draws = coordinates(c);
    double centre = c.at(fit.mu(), Math.log(fit.sigma()));
    double below = 0;
    for (double d : draws) {
      below += d < centre ? 1 : d == centre ? 0.5 : 0;
    }
    double share = Math.min(Math.max(below, 0.5), draws.length - 0.5) / draws.length;
    double bias = NORMAL.inverseCumulativeProbability(share);
    double a = acceleration(c, centre);
    double z = LifeFit.normalQuantile(confidence);
    return interval(c, draws, level(bias, a, -z), level(bias, a, z));
  }

  private static double level(double bias, double acceleration, double z) {
    double shifted = bias + z;
    return NormalTail.upper(-(bias + shifted / (1 - acceleration * shifted)));
  }

  private double acceleration(Coordinate c, double centre) {
    int n = data.rows();
    double[] left = new double[n];
    double[] start = {fit.mu(), Math.log(fit.sigma())};
    each(
        n,
        parallel,
        i -> {
          double[] counts = new double[n];
          Arrays.setAll(counts, data::countAt);
          counts[i]--;
          double[] theta = refit(data, family, counts, start);
          left[i] = theta == null ? centre : c.at(theta[0], theta[1]);
        });
    double mean = 0;
    for (int i = 0; i < n; i++) {
      mean += data.countAt(i) * left[i];
    }
    mean /= data.components();
    double square = 0;
    double cube = 0;
    for (int i = 0; i < n; i++) {
      double d = mean - left[i];
      square += data.countAt(i) * d * d;
      cube += data.countAt(i) * d * d * d;
    }
    return square == 0 ? 0 : cube / (6 * Math.pow(square, 1.5));
  }

  private static Interval interval(Coordinate c, double[] draws, double low, double high) {
    double[] sorted = draws.clone();
    Arrays.sort(sorted);
    double from = c.value(quantile(sorted, low));
    double to = c.value(quantile(sorted, high));
    return c.falls() ? new Interval(to, from) : new Interval(from, to);
  }

  /** Returns the value of rank (n + 1) p, interpolated. */
  private static double quantile(double[] sorted, double p) {
    double rank = p * (sorted.length + 1) - 1;
    int k = (int) Math.floor(rank);
    if (k < 0) {
      return sorted[0];
    }
    if (k >= sorted.length - 1) {
      return sorted[sorted.length - 1];
    }
    return sorted[k] + (rank - k) * (sorted[k + 1] - sorted[k]);
  }
}
