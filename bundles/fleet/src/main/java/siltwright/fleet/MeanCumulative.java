package siltwright.fleet;

import java.util.Arrays;
import siltwright.life.Interval;
import siltwright.life.TimeOrder;

/**
 * Mean cumulative function: the events (or marks) a machine has had by an age, on average, without
 * a law.
 *
 * <pre>
 *   M(t) = sum over event times s up to t of d(s)/r(s)
 *   Var M(t) = sum over machines i of [ sum over s up to t at which i is at risk of
 *                                       (d_i(s) - d(s)/r(s))/r(s) ]²
 * </pre>
 *
 * <p>d_i(s) marks of machine i at s, d their sum, r machines at risk: those with a window (from,
 * to] that holds s. The variance is robust: events of a machine may depend on each other and
 * machines may differ; it needs watching to end for reasons that have nothing to do with events.
 * Source: J. F. Lawless, C. Nadeau, Technometrics 37 (1995) 158-168 (from memory; checked against a
 * second program's numbers).
 *
 * <p>One pass over the events in the order of their hours: with a_i = sum d_i/r and the common
 * drift D = sum d/r² of those at risk, a machine's bracket is a_i - D, so that the sums of a_i and
 * a_i² suffice. Memory is linear in events and machines.
 */
public final class MeanCumulative {
  private final double[] timesH;
  private final double[] atRisk;
  private final double[] marks;
  private final double[] mean;
  private final double[] variance;
  private final double[] poisson;
  private final double[] unbiased;
  private final double[] small;
  private final double[] spread;
  private final double lastH;

  private MeanCumulative(
      double[] timesH,
      double[] atRisk,
      double[] marks,
      double[] mean,
      double[] variance,
      double[] poisson,
      double[] unbiased,
      double[] small,
      double[] spread,
      double lastH) {
    this.timesH = timesH;
    this.atRisk = atRisk;
    this.marks = marks;
    this.mean = mean;
    this.variance = variance;
    this.poisson = poisson;
    this.unbiased = unbiased;
    this.small = small;
    this.spread = spread;
    this.lastH = lastH;
  }

  /** Estimates. */
  public static MeanCumulative of(EventData data) {
    return new Pass(data, false).run();
  }

  /**
   * Estimates with Nelson's unbiased variance besides, which {@link #unbiasedVariance} then gives.
   *
   * @throws IllegalArgumentException if a window begins late: the estimate supposes that whoever is
   *     at risk now was at risk before
   */
  public static MeanCumulative withUnbiasedVariance(EventData data) {
    if (data.hasLateEntry()) {
      throw new IllegalArgumentException("Nelson's variance holds for machines watched from 0 h");
    }
    return new Pass(data, true).run();
  }

  /** Returns the distinct hours of events, in order. */
  public double[] timesH() {
    return timesH.clone();
  }

  /** Returns the machines at risk at each hour. */
  public double[] atRisk() {
    return atRisk.clone();
  }

  /** Returns the marks at each hour, the number of events if there are none. */
  public double[] marks() {
    return marks.clone();
  }

  /** Returns the mean after each hour. */
  public double[] mean() {
    return mean.clone();
  }

  /** Returns the robust variance of the mean after each hour. */
  public double[] variance() {
    return variance.clone();
  }

  /** Returns the variance after each hour that would hold if events came by chance alone. */
  public double[] poissonVariance() {
    return poisson.clone();
  }

  /**
   * Returns the variance of the mean after each hour that is to be used with few machines.
   *
   * <pre>  sum over machines of [ sum over s of (d_i - d/r)/sqrt(r (r - 1)) ]²  </pre>
   *
   * <p>The robust variance is too small by a factor of about 1 - 1/r, since each machine pulls the
   * mean towards itself. This one has r/(r - 1) put back at each hour; where a machine's events of
   * different hours do not depend on each other it is unbiased. With many machines they are the
   * same. Source: own derivation; it is to the robust variance what a sample's variance over n - 1
   * is to that over n.
   */
  public double[] smallFleetVariance() {
    return small.clone();
  }

  /** Returns the variance for few machines at an hour. */
  double smallFleetVarianceAt(double hoursH) {
    int i = before(hoursH);
    return i < 0 ? 0 : small[i];
  }

  /**
   * Returns the machines at risk up to an hour, on average over the events.
   *
   * <pre>  M / sum of d/r²  </pre>
   */
  double machinesAt(double hoursH) {
    int i = before(hoursH);
    return i < 0 ? 0 : mean[i] / spread[i];
  }

  /**
   * Returns Nelson's unbiased variance after each hour, not a number from where fewer than two
   * machines are at risk.
   *
   * <pre>
   *   sum over s of s²(s)/r(s) + 2 sum over u &lt; s of cov(u, s)/r(u)
   *   cov(u, s) = sum over i at risk at s of d_i(s) (d_i(u) - d(u)/r(u)) / (r(s) - 1)
   * </pre>
   *
   * <p>Source: W. Nelson, Technometrics 37 (1995) 147-157 (from memory).
   *
   * @throws IllegalStateException if it was not asked for
   */
  public double[] unbiasedVariance() {
    if (unbiased == null) {
      throw new IllegalStateException("not asked for");
    }
    return unbiased.clone();
  }

  /** Returns the latest hour at which any machine was watched. */
  public double lastH() {
    return lastH;
  }

  /** Returns the mean at an hour. */
  public double meanAt(double hoursH) {
    int i = before(hoursH);
    return i < 0 ? 0 : mean[i];
  }

  /** Returns the robust variance at an hour. */
  public double varianceAt(double hoursH) {
    int i = before(hoursH);
    return i < 0 ? 0 : variance[i];
  }

  private int before(double hoursH) {
    int i = Arrays.binarySearch(timesH, hoursH);
    return i >= 0 ? i : -i - 2;
  }

  /**
   * Returns the lower and upper end of a pointwise band after each hour, symmetric on the log scale
   * so that it stays above 0; of marks that may be negative, on their own scale.
   *
   * @param confidence such as 0.95
   */
  public double[][] band(double confidence) {
    double z = Tails.normalQuantile(confidence);
    double[] low = new double[mean.length];
    double[] high = new double[mean.length];
    for (int i = 0; i < mean.length; i++) {
      Interval interval = interval(mean[i], variance[i], z);
      low[i] = interval.lower();
      high[i] = interval.upper();
    }
    return new double[][] {low, high};
  }

  private static Interval interval(double mean, double variance, double z) {
    double se = Math.sqrt(variance);
    if (mean > 0) {
      double factor = Math.exp(z * se / mean);
      return new Interval(mean / factor, mean * factor);
    }
    return new Interval(mean - z * se, mean + z * se);
  }

  /** The sums over machines that one variance needs. */
  private static final class Brackets {
    /** Marks over machines at risk, plus the drift at the begin of the window. */
    private final double[] a;

    /** Bracket of a machine whose window has ended. */
    private final double[] rest;

    private double drift;
    private double sum;
    private double squares;
    private double ended;

    Brackets(int machines) {
      a = new double[machines];
      rest = new double[machines];
    }

    void enter(int m) {
      ended -= rest[m] * rest[m];
      a[m] = rest[m] + drift;
      sum += a[m];
      squares += a[m] * a[m];
    }

    void leave(int m) {
      rest[m] = a[m] - drift;
      ended += rest[m] * rest[m];
      sum -= a[m];
      squares -= a[m] * a[m];
    }

    void add(int m, double more) {
      double before = a[m];
      double after = before + more;
      a[m] = after;
      sum += more;
      squares += more * (before + after);
    }

    double variance(double risk) {
      return Math.max(0, squares - 2 * drift * sum + risk * drift * drift + ended);
    }
  }

  /** The pass over the events. */
  private static final class Pass {
    private final EventData data;
    private final int machines;
    private final Brackets robust;
    private final Brackets fewer;

    /** Marks over machines at risk, for Nelson's variance; null if it is not wanted. */
    private final double[] plain;

    private int risk;

    Pass(EventData data, boolean nelson) {
      this.data = data;
      this.machines = data.machines().size();
      robust = new Brackets(machines);
      fewer = new Brackets(machines);
      plain = nelson ? new double[machines] : null;
    }

    MeanCumulative run() {
      int events = data.events();
      TimeOrder order = TimeOrder.of(data.times(), identity(events));
      TimeOrder starts = TimeOrder.of(data.starts(), identity(data.windows()));
      TimeOrder ends = TimeOrder.of(data.ends(), identity(data.windows()));
      double[] times = new double[events];
      double[] atRisk = new double[events];
      double[] marks = new double[events];
      double[] mean = new double[events];
      double[] variance = new double[events];
      double[] poisson = new double[events];
      double[] spread = new double[events];
      double[] small = new double[events];
      double[] unbiased = plain == null ? null : new double[events];
      double[] now = plain == null ? null : new double[machines];
      int start = 0;
      int end = 0;
      int n = 0;
      double total = 0;
      double byChance = 0;
      double chance = 0;
      double nelson = 0;
      for (int e = 0; e < events; n++) {
        double t = order.times[e];
        while (start < starts.times.length && starts.times[start] < t) {
          // Of equal hours the end first: the machine may go straight on in another window.
          if (ends.times[end] <= starts.times[start]) {
            leave(data.windowMachine(ends.payloads[end++]));
          } else {
            enter(data.windowMachine(starts.payloads[start++]));
          }
        }
        while (ends.times[end] < t) {
          leave(data.windowMachine(ends.payloads[end++]));
        }
        double r = risk;
        double d = 0;
        double square = 0;
        int from = e;
        for (; e < events && order.times[e] == t; e++) {
          int event = order.payloads[e];
          int m = data.eventMachine(event);
          double mark = data.mark(event);
          d += mark;
          square += mark * mark;
          robust.add(m, mark / r);
          if (r > 1) {
            fewer.add(m, mark / Math.sqrt(r * (r - 1)));
          }
        }
        if (plain != null) {
          nelson += nelson(order, from, e, r, d, now);
          unbiased[n] = r > 1 ? nelson : Double.NaN;
          nelson = unbiased[n];
        }
        total += d / r;
        byChance += square / (r * r);
        chance += d / (r * r);
        robust.drift += d / (r * r);
        fewer.drift += r > 1 ? d / (r * Math.sqrt(r * (r - 1))) : 0;
        times[n] = t;
        atRisk[n] = r;
        marks[n] = d;
        mean[n] = total;
        poisson[n] = byChance;
        spread[n] = chance;
        variance[n] = robust.variance(r);
        small[n] = fewer.variance(r);
      }
      double last = ends.times.length == 0 ? 0 : ends.times[ends.times.length - 1];
      return new MeanCumulative(
          Arrays.copyOf(times, n),
          Arrays.copyOf(atRisk, n),
          Arrays.copyOf(marks, n),
          Arrays.copyOf(mean, n),
          Arrays.copyOf(variance, n),
          Arrays.copyOf(poisson, n),
          unbiased == null ? null : Arrays.copyOf(unbiased, n),
          Arrays.copyOf(small, n),
          Arrays.copyOf(spread, n),
          last);
    }

    private static int[] identity(int n) {
      int[] all = new int[n];
      Arrays.setAll(all, i -> i);
      return all;
    }

    private void enter(int m) {
      robust.enter(m);
      fewer.enter(m);
      risk++;
    }

    private void leave(int m) {
      robust.leave(m);
      fewer.leave(m);
      risk--;
    }

    /** Returns what the events of one hour add to Nelson's variance; the drift is still before. */
    private double nelson(TimeOrder order, int from, int to, double r, double d, double[] now) {
      double crossed = 0;
      for (int e = from; e < to; e++) {
        int event = order.payloads[e];
        int m = data.eventMachine(event);
        now[m] += data.mark(event);
        crossed += data.mark(event) * plain[m];
      }
      double square = 0;
      for (int e = from; e < to; e++) {
        int m = data.eventMachine(order.payloads[e]);
        square += now[m] * now[m];
        plain[m] += now[m] / r;
        now[m] = 0;
      }
      double spread = (square - d * d / r) / (r - 1);
      return spread / r + 2 * (crossed - d * robust.drift) / (r - 1);
    }
  }
}
