package siltwright.plan;

import java.util.Arrays;

/**
 * What it costs to change an element early or late: a cycle of T hours costs T·g(T), and in as many
 * hours the best interval would have cost T·g(T*).
 *
 * <pre>  C(T) = T (g(T) − g(T*)),   C(T*) = 0  </pre>
 *
 * <p>So the cost of an early change is the share of element, labour and standstill that was not
 * used up, less what cleaner oil saved; that of a late one is the wear meanwhile. Past the last
 * point C goes on along its last stretch. Where a limit sets T*, C is 0 beyond it, not negative:
 * nothing is gained by breaking a limit.
 *
 * <p>Source: renewal reward, as in Barlow and Proschan, Mathematical Theory of Reliability (1965);
 * derivation in docs/plan.md.
 */
public final class ExcessCost {
  private static final double[] NODES = {
    -2.8569700138728056, -1.3556261799742659, 0, 1.3556261799742659, 2.8569700138728056
  };
  private static final double[] WEIGHTS = {
    0.011257411327720689,
    0.2220759220056126,
    0.5333333333333333,
    0.2220759220056126,
    0.011257411327720689
  };

  private final double bestH;
  private final double lowH;
  private final double highH;
  private final double costPerH;
  private final double[] hours;
  private final double[] money;

  private ExcessCost(
      double bestH, double lowH, double highH, double costPerH, double[] hours, double[] money) {
    this.bestH = bestH;
    this.lowH = lowH;
    this.highH = highH;
    this.costPerH = costPerH;
    this.hours = hours;
    this.money = money;
  }

  /**
   * Makes it from a cost curve.
   *
   * @param bestH T*, h
   * @param lowH shortest interval of the flat range, h
   * @param highH longest interval of the flat range and of the limits, h
   * @param costPerH g(T*), money per hour
   * @param hours intervals, rising, h; not modified
   * @param perH g at each, money per hour; those from the first infinite one on are left out
   * @throws IllegalArgumentException if fewer than two finite points are left
   */
  public static ExcessCost ofCurve(
      double bestH, double lowH, double highH, double costPerH, double[] hours, double[] perH) {
    int n = 0;
    while (n < hours.length && Double.isFinite(perH[n])) {
      n++;
    }
    if (n < 2) {
      throw new IllegalArgumentException(n + " points of a cost curve, expected 2 or more");
    }
    double[] money = new double[n];
    for (int i = 0; i < n; i++) {
      money[i] = Math.max(0, hours[i] * (perH[i] - costPerH));
    }
    return new ExcessCost(bestH, lowH, highH, costPerH, Arrays.copyOf(hours, n), money);
  }

  /**
   * Makes it from the flat range alone: on each side of T* the curve is taken as one of a share
   * that falls with T and a share that rises with it,
   *
   * <pre>  g(T)/g(T*) = 1 + c ((x + 1/x)/2 − 1),   x = T/T*  </pre>
   *
   * with c so that the end of the range costs 5 % more.
   *
   * @param bestH T*, h
   * @param lowH shortest interval within 5 %, below T*, h
   * @param highH longest interval within 5 %, above T*, h
   * @param limitH longest interval allowed, h; infinite where there is none
   * @param costPerH g(T*), money per hour
   */
  public static ExcessCost ofFlatRange(
      double bestH, double lowH, double highH, double limitH, double costPerH) {
    double below = 0.05 / bend(lowH / bestH);
    double above = 0.05 / bend(highH / bestH);
    int points = 129;
    double[] hours = new double[points];
    double[] perH = new double[points];
    double start = 0.05 * lowH;
    double end = 3 * highH;
    for (int i = 0; i < points; i++) {
      hours[i] =
          i == 64
              ? bestH
              : i < 64
                  ? start * Math.pow(bestH / start, i / 64.0)
                  : bestH * Math.pow(end / bestH, (i - 64) / 64.0);
      double x = hours[i] / bestH;
      perH[i] = costPerH * (1 + (x < 1 ? below : above) * bend(x));
    }
    return ofCurve(bestH, lowH, Math.min(highH, limitH), costPerH, hours, perH);
  }

  private static double bend(double x) {
    return (x + 1 / x) / 2 - 1;
  }

  /** Returns the interval that costs least, h. */
  public double bestH() {
    return bestH;
  }

  /** Returns the shortest interval of the flat range, h. */
  public double lowH() {
    return lowH;
  }

  /** Returns the longest interval of the flat range, within the limits, h. */
  public double highH() {
    return highH;
  }

  /** Returns the cost per hour at the best interval. */
  public double costPerH() {
    return costPerH;
  }

  /** Returns what a change after so many hours costs more than the best. */
  public double at(double h) {
    int n = hours.length;
    int i = Arrays.binarySearch(hours, h);
    if (i >= 0) {
      return money[i];
    }
    int k = Math.min(Math.max(-i - 1, 1), n - 1);
    double share = (h - hours[k - 1]) / (hours[k] - hours[k - 1]);
    return Math.max(0, money[k - 1] + share * (money[k] - money[k - 1]));
  }

  /**
   * Returns the same for a cycle still open: before T* nothing is lost yet, beyond it at least what
   * a change at once would cost.
   */
  public double open(double h) {
    return h <= bestH ? 0 : at(h);
  }

  /**
   * Returns the expected excess where the hours are not known exactly, by Gauss and Hermite's rule
   * with five points.
   *
   * @param expectedH expected hours, h
   * @param variance their variance, h²
   * @param stillOpen whether the cycle stays open
   */
  public double expected(double expectedH, double variance, boolean stillOpen) {
    double sd = Math.sqrt(variance);
    double sum = 0;
    for (int i = 0; i < NODES.length; i++) {
      double h = Math.max(0, expectedH + NODES[i] * sd);
      sum += WEIGHTS[i] * (stillOpen ? open(h) : at(h));
    }
    return sum;
  }
}
