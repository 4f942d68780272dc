package siltwright.plan;

import org.apache.commons.math3.distribution.PoissonDistribution;

/**
 * How many of a part are asked for within a lead time, as probabilities of 0, 1, 2 ...
 *
 * <p>Source: compound Poisson by the recursion of Panjer, ASTIN Bulletin 12 (1981) 22.
 */
public final class Demand {
  /** Beyond this the probability of none is too small for a double to begin with. */
  private static final double LARGEST_RATE = 500;

  private final double[] probability;

  private Demand(double[] probability) {
    this.probability = probability;
  }

  /**
   * Parts asked for one by one at random.
   *
   * @param mean expected number, at least 0
   */
  public static Demand poisson(double mean) {
    double[] p = new double[size(mean, mean)];
    p[0] = 1;
    if (mean > 0) {
      PoissonDistribution law = new PoissonDistribution(mean);
      for (int i = 0; i < p.length; i++) {
        p[i] = law.probability(i);
      }
    }
    return new Demand(p);
  }

  /**
   * Parts asked for several at a time: visits come at random, each takes a batch.
   *
   * <pre>  p_0 = e^(−λ (1 − f_0)),   p_n = λ/n Σ_{j=1..n} j f_j p_(n−j)  </pre>
   *
   * @param visits expected number of visits, λ
   * @param batch probabilities f that a visit takes 0, 1, 2 ...; not modified
   */
  public static Demand compound(double visits, double[] batch) {
    if (visits > LARGEST_RATE) {
      Demand half = compound(visits / 2, batch);
      return half.plus(half);
    }
    double mean = 0;
    double square = 0;
    for (int j = 0; j < batch.length; j++) {
      mean += visits * j * batch[j];
      square += visits * j * (double) j * batch[j];
    }
    double[] p = new double[size(mean, square) + batch.length];
    p[0] = Math.exp(-visits * (1 - (batch.length == 0 ? 1 : batch[0])));
    for (int n = 1; n < p.length; n++) {
      double sum = 0;
      for (int j = 1; j <= Math.min(n, batch.length - 1); j++) {
        sum += j * batch[j] * p[n - j];
      }
      p[n] = visits / n * sum;
    }
    return new Demand(p);
  }

  private static int size(double mean, double variance) {
    return (int) Math.ceil(mean + 12 * Math.sqrt(variance) + 20);
  }

  /** Returns the demand of both together, neither depending on the other. */
  public Demand plus(Demand other) {
    double[] sum = new double[probability.length + other.probability.length - 1];
    for (int i = 0; i < probability.length; i++) {
      for (int j = 0; j < other.probability.length; j++) {
        sum[i + j] += probability[i] * other.probability[j];
      }
    }
    return new Demand(sum);
  }

  /** Returns the probability that so many are asked for. */
  public double probability(int number) {
    return number >= 0 && number < probability.length ? probability[number] : 0;
  }

  /** Returns the probability that more are asked for than are in store. */
  public double stockOut(long stock) {
    double more = 0;
    for (int i = probability.length - 1; i > Math.max(-1, stock); i--) {
      more += probability[i];
    }
    return Math.min(1, more);
  }

  /** Returns the smallest stock that suffices with a probability. */
  public int stock(double service) {
    int n = 0;
    while (n < probability.length && stockOut(n) > 1 - service) {
      n++;
    }
    return n;
  }

  /** Returns the expected number. */
  public double mean() {
    double mean = 0;
    for (int i = 0; i < probability.length; i++) {
      mean += i * probability[i];
    }
    return mean;
  }

  /**
   * Returns the largest number that a plan asks for within any stretch of days.
   *
   * @param days day of each part, rising; not modified
   * @param stretch length of the stretch, days
   */
  public static int peak(int[] days, int stretch) {
    int peak = 0;
    int from = 0;
    for (int to = 0; to < days.length; to++) {
      while (days[to] - days[from] >= stretch) {
        from++;
      }
      peak = Math.max(peak, to - from + 1);
    }
    return peak;
  }
}
