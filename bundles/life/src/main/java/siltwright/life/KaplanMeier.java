package siltwright.life;

import java.util.Arrays;

/**
 * Survival without a law: Kaplan-Meier, with Nelson-Aalen's cumulative hazard beside it.
 *
 * <pre>
 *   S(t) = product of 1 - d/n over failure times up to t       Var S = S² G,  G = sum d/(n (n - d))
 *   H(t) = sum d/n                                             Var H = sum d/n²
 * </pre>
 *
 * <p>d components failed and n were at risk, that is had entered before and not left before; a
 * removal at the hour of a failure was still at risk. Sources: E. L. Kaplan, P. Meier, JASA 53
 * (1958) 457-481; Greenwood's variance; Aalen's variance of H (from memory).
 */
public final class KaplanMeier {
  private final double[] timesH;
  private final double[] atRisk;
  private final double[] failed;
  private final double[] survival;
  private final double[] greenwood;
  private final double lastH;

  private KaplanMeier(
      double[] timesH,
      double[] atRisk,
      double[] failed,
      double[] survival,
      double[] greenwood,
      double lastH) {
    this.timesH = timesH;
    this.atRisk = atRisk;
    this.failed = failed;
    this.survival = survival;
    this.greenwood = greenwood;
    this.lastH = lastH;
  }

  /** The scale on which a confidence band is symmetric. */
  public enum Band {
    /** ln(-ln S): stays within 0 and 1, the one to use with few failures. */
    LOG_LOG,
    /** ln S, cut at 1. */
    LOG,
    /** S itself, cut at 0 and 1. */
    PLAIN
  }

  /**
   * Estimates survival.
   *
   * @throws IllegalArgumentException if a failure is known only within an interval: {@link
   *     Turnbull} is for those
   */
  public static KaplanMeier of(LifeData data) {
    int n = data.rows();
    double[] times = new double[n];
    int[] rows = new int[n];
    for (int i = 0; i < n; i++) {
      boolean failed = data.failed(i);
      if (failed && data.lowerH(i) != data.upperH(i)) {
        throw new IllegalArgumentException(
            "row " + i + ": Kaplan-Meier needs failures at a known hour, not an interval");
      }
      times[i] = data.lowerH(i);
      rows[i] = i << 1 | (failed ? 1 : 0);
    }
    TimeOrder order = TimeOrder.of(times, rows);
    TimeOrder entries = entries(data);
    int entry = entries == null ? 0 : entries.times.length - 1;
    double notYet = 0;

    // Backwards: those at risk are those who leave later, less those who enter later.
    double[] t = new double[n];
    double[] risk = new double[n];
    double[] dead = new double[n];
    double leaving = 0;
    int k = n;
    for (int i = n - 1; i >= 0; ) {
      double time = order.times[i];
      double d = 0;
      while (i >= 0 && order.times[i] == time) {
        int payload = order.payloads[i];
        double c = data.countAt(payload >>> 1);
        leaving += c;
        d += (payload & 1) * c;
        i--;
      }
      if (d > 0) {
        while (entries != null && entry >= 0 && entries.times[entry] >= time) {
          notYet += data.countAt(entries.payloads[entry--]);
        }
        k--;
        t[k] = time;
        risk[k] = leaving - notYet;
        dead[k] = d;
      }
    }
    t = Arrays.copyOfRange(t, k, n);
    risk = Arrays.copyOfRange(risk, k, n);
    dead = Arrays.copyOfRange(dead, k, n);
    double[] s = new double[t.length];
    double[] g = new double[t.length];
    double surviving = 1;
    double sum = 0;
    for (int i = 0; i < t.length; i++) {
      double rest = risk[i] - dead[i];
      surviving *= rest / risk[i];
      sum += dead[i] / (risk[i] * rest);
      s[i] = surviving;
      g[i] = sum;
    }
    return new KaplanMeier(t, risk, dead, s, g, n == 0 ? 0 : order.times[n - 1]);
  }

  private static TimeOrder entries(LifeData data) {
    if (!data.hasLateEntry()) {
      return null;
    }
    double[] times = new double[data.rows()];
    int[] rows = new int[data.rows()];
    for (int i = 0; i < rows.length; i++) {
      times[i] = data.entryH(i);
      rows[i] = i;
    }
    return TimeOrder.of(times, rows);
  }

  /** Returns the distinct failure times, h, in order. */
  public double[] timesH() {
    return timesH.clone();
  }

  /** Returns the components at risk at each failure time. */
  public double[] atRisk() {
    return atRisk.clone();
  }

  /** Returns the components that failed at each failure time. */
  public double[] failed() {
    return failed.clone();
  }

  /** Returns the share that survives each failure time. */
  public double[] survival() {
    return survival.clone();
  }

  /** Returns the share that survives an age, h. */
  public double survivalAt(double hoursH) {
    int i = Arrays.binarySearch(timesH, hoursH);
    int before = i >= 0 ? i : -i - 2;
    return before < 0 ? 1 : survival[before];
  }

  /** Returns the largest time of any row, h: beyond it nothing was seen. */
  public double lastH() {
    return lastH;
  }

  /** Returns Greenwood's standard error at each failure time; not a number where S is 0. */
  public double[] standardErrors() {
    double[] se = new double[survival.length];
    for (int i = 0; i < se.length; i++) {
      se[i] = survival[i] == 0 ? Double.NaN : survival[i] * Math.sqrt(greenwood[i]);
    }
    return se;
  }

  /** Returns Nelson-Aalen's cumulative hazard at each failure time. */
  public double[] cumulativeHazard() {
    return cumulated(1);
  }

  /** Returns Aalen's standard error of the cumulative hazard. */
  public double[] cumulativeHazardStandardErrors() {
    double[] se = cumulated(2);
    for (int i = 0; i < se.length; i++) {
      se[i] = Math.sqrt(se[i]);
    }
    return se;
  }

  private double[] cumulated(int power) {
    double[] h = new double[timesH.length];
    double sum = 0;
    for (int i = 0; i < h.length; i++) {
      sum += failed[i] / (power == 1 ? atRisk[i] : atRisk[i] * atRisk[i]);
      h[i] = sum;
    }
    return h;
  }

  /**
   * Returns Fleming and Harrington's survival: exp(-H) with tied failures taken one after another,
   * 1/n + 1/(n-1) + ...; counts that are no whole numbers are taken at once.
   */
  public double[] flemingHarringtonSurvival() {
    double[] s = new double[timesH.length];
    double sum = 0;
    for (int i = 0; i < s.length; i++) {
      if (failed[i] == Math.rint(failed[i])) {
        for (int j = 0; j < failed[i]; j++) {
          sum += 1 / (atRisk[i] - j);
        }
      } else {
        sum += failed[i] / atRisk[i];
      }
      s[i] = Math.exp(-sum);
    }
    return s;
  }

  /**
   * Returns the lower and upper end of a pointwise confidence band at each failure time.
   *
   * @param confidence such as 0.95
   * @return two rows, not a number where S is 0
   */
  public double[][] band(Band scale, double confidence) {
    double z = LifeFit.normalQuantile(confidence);
    int n = survival.length;
    double[] low = new double[n];
    double[] high = new double[n];
    for (int i = 0; i < n; i++) {
      double s = survival[i];
      double half = z * Math.sqrt(greenwood[i]);
      if (s == 0) {
        low[i] = Double.NaN;
        high[i] = Double.NaN;
      } else if (scale == Band.LOG_LOG) {
        double logS = Math.log(s);
        double factor = Math.exp(half / logS);
        low[i] = Math.exp(logS / factor);
        high[i] = Math.exp(logS * factor);
      } else if (scale == Band.LOG) {
        double factor = Math.exp(half);
        low[i] = s / factor;
        high[i] = Math.min(1, s * factor);
      } else {
        low[i] = Math.max(0, s - s * half);
        high[i] = Math.min(1, s + s * half);
      }
    }
    return new double[][] {low, high};
  }

  /**
   * Returns the life that a share does not reach, h: the first time at which survival is below 1 -
   * share, or the middle of the stretch on which it equals it.
   *
   * @return infinite if survival never falls so far
   */
  public double quantileH(double failedShare) {
    return crossing(survival, 1 - failedShare);
  }

  /**
   * Returns the times at which a band crosses 1 - share, h; infinite where it never does.
   *
   * @param confidence such as 0.95
   */
  public Interval quantileInterval(double failedShare, Band scale, double confidence) {
    return quantileInterval(failedShare, band(scale, confidence));
  }

  /**
   * Returns the times at which a band crosses 1 - share, h; infinite where it never does.
   *
   * @param band lower and upper end, as {@link #band} returns them
   */
  public Interval quantileInterval(double failedShare, double[][] band) {
    return new Interval(crossing(band[0], 1 - failedShare), crossing(band[1], 1 - failedShare));
  }

  private double crossing(double[] curve, double level) {
    double tolerance = 1.5e-8; // rounding must not hide a stretch at exactly the level
    for (int i = 0; i < curve.length; i++) {
      if (Math.abs(curve[i] - level) < tolerance) {
        int next = i + 1;
        while (next < curve.length && Math.abs(curve[next] - level) < tolerance) {
          next++;
        }
        return 0.5 * (timesH[i] + (next < curve.length ? timesH[next] : lastH));
      }
      if (curve[i] < level) {
        return timesH[i];
      }
    }
    return Double.POSITIVE_INFINITY;
  }

  /**
   * Returns the mean life lived up to an age: the area under the curve, with its standard error.
   *
   * @param toH age, h, at most {@link #lastH}
   * @return the mean and its standard error, h
   */
  public double[] restrictedMean(double toH) {
    if (!(toH > 0 && toH <= lastH)) {
      throw new IllegalArgumentException(
          "the age is " + toH + " h, expected above 0 h and at most " + lastH + " h");
    }
    int n = Arrays.binarySearch(timesH, toH);
    n = n >= 0 ? n : -n - 1;
    double area = 0;
    double variance = 0;
    double end = toH;
    for (int i = n - 1; i >= 0; i--) {
      area += survival[i] * (end - timesH[i]);
      end = timesH[i];
      double rest = atRisk[i] - failed[i];
      variance += rest == 0 ? 0 : area * area * failed[i] / (atRisk[i] * rest);
    }
    return new double[] {area + end, Math.sqrt(variance)};
  }
}
