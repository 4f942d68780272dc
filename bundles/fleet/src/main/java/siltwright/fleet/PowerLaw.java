package siltwright.fleet;

import java.util.Arrays;
import siltwright.life.Estimate;
import siltwright.life.Interval;
import siltwright.life.Reason;
import siltwright.life.SignificanceTest;

/**
 * Power-law process: the events of a machine come at a rate that rises or falls with its age.
 *
 * <pre>
 *   E N(t) = lambda t^beta = (t/eta)^beta        rate lambda beta t^(beta - 1)
 *   l = n ln lambda + n ln beta + (beta - 1) sum ln t - lambda K(beta)
 *   K(beta) = sum over windows of to^beta - from^beta,   lambda = n/K(beta)
 * </pre>
 *
 * <p>Beta above 1 is wearing out, 1 is chance, below 1 improving. Machines share the law. Whether
 * watching ended at an hour or at an event makes no difference to the estimate, but to the exact
 * interval. Source: L. H. Crow, in Reliability and Biometry, SIAM 1974, 379-410; MIL-HDBK-189,
 * 1981, appendix C (from memory).
 */
public final class PowerLaw {
  private final EventData data;
  private final double shape;
  private final double unit;
  private final double k;
  private final double k1;
  private final double k2;
  private final double sumLog;

  /**
   * Sums at a shape; hours over {@code unit}, so that no power overflows.
   *
   * @param k sum of to^b - from^b
   * @param k1 its first derivative by b
   * @param k2 its second
   */
  private record Powers(double k, double k1, double k2) {
    static Powers of(EventData data, double unit, double b) {
      double k = 0;
      double k1 = 0;
      double k2 = 0;
      for (int w = 0; w < data.windows(); w++) {
        double to = Math.log(data.toH(w) / unit);
        double power = Math.exp(b * to);
        k += power;
        k1 += power * to;
        k2 += power * to * to;
        if (data.fromH(w) > 0) {
          double from = Math.log(data.fromH(w) / unit);
          double less = Math.exp(b * from);
          k -= less;
          k1 -= less * from;
          k2 -= less * from * from;
        }
      }
      return new Powers(k, k1, k2);
    }
  }

  private PowerLaw(EventData data, double shape, double unit, double sumLog) {
    this.data = data;
    this.shape = shape;
    this.unit = unit;
    this.sumLog = sumLog;
    Powers p = Powers.of(data, unit, shape);
    k = p.k();
    k1 = p.k1();
    k2 = p.k2();
  }

  /** Fits; refuses where there are fewer than two events, or all lie at the end of watching. */
  public static Estimate<PowerLaw> fit(EventData data) {
    double unit = 0;
    for (int w = 0; w < data.windows(); w++) {
      unit = Math.max(unit, data.toH(w));
    }
    double sumLog = 0;
    for (int e = 0; e < data.events(); e++) {
      sumLog += Math.log(data.atH(e) / unit);
    }
    int n = data.events();
    if (n < 2) {
      return Estimate.refused(
          Reason.TOO_FEW_FAILURES,
          n == 0 ? "There are no events." : "There is a single event.",
          "A trend needs at least two.");
    }
    double low = 1e-3;
    double high = 1;
    while (slope(data, unit, n, sumLog, high) > 0) {
      high *= 2;
      if (high > 1e4) {
        return Estimate.refused(
            Reason.UNBOUNDED_LIKELIHOOD,
            "All events lie at the end of watching.",
            "No power law fits best.");
      }
    }
    if (slope(data, unit, n, sumLog, low) < 0) {
      return Estimate.refused(
          Reason.UNBOUNDED_LIKELIHOOD,
          "All events lie at the begin of watching.",
          "No power law fits best.");
    }
    for (int i = 0; i < 200 && high / low > 1 + 1e-15; i++) {
      double middle = Math.sqrt(low * high);
      if (slope(data, unit, n, sumLog, middle) > 0) {
        low = middle;
      } else {
        high = middle;
      }
    }
    return Estimate.found(new PowerLaw(data, Math.sqrt(low * high), unit, sumLog));
  }

  private static double slope(EventData data, double unit, double n, double sumLog, double b) {
    Powers p = Powers.of(data, unit, b);
    return n / b + sumLog - n * p.k1() / p.k();
  }

  /** Returns the machines and events that it was fitted to. */
  public EventData data() {
    return data;
  }

  /** Returns beta. */
  public double shape() {
    return shape;
  }

  /** Returns eta, h: the age by which a machine has had one event on average. */
  public double scaleH() {
    return unit * Math.pow(k / data.events(), 1 / shape);
  }

  /** Returns lambda, events by 1 h. */
  public double lambda() {
    return Math.exp(logLambda());
  }

  private double logLambda() {
    return Math.log(data.events() / k) - shape * Math.log(unit);
  }

  /** Returns the events that a machine has had by an age, on average. */
  public double meanAt(double hoursH) {
    return data.events() / k * Math.pow(hoursH / unit, shape);
  }

  /** Returns the rate at an age, per h. */
  public double ratePerH(double hoursH) {
    return meanAt(hoursH) * shape / hoursH;
  }

  /** Returns the greatest log likelihood, hours in h. */
  public double logLikelihood() {
    double n = data.events();
    return n * (logLambda() + Math.log(shape)) + (shape - 1) * (sumLog + n * Math.log(unit)) - n;
  }

  /** Returns the test against a constant rate: the likelihood ratio, one degree of freedom. */
  public SignificanceTest againstConstant() {
    double n = data.events();
    double constant = n * Math.log(n / data.hoursH()) - n;
    return Tails.test(2 * (logLikelihood() - constant), 1);
  }

  /** Returns the information on (ln lambda', ln beta), lambda' per {@code unit}, at the maximum. */
  private double[][] information() {
    double n = data.events();
    double lambda = n / k;
    double cross = lambda * shape * k1;
    return new double[][] {{n, cross}, {cross, n + shape * shape * lambda * k2}};
  }

  private static double[][] inverse(double[][] m) {
    double det = m[0][0] * m[1][1] - m[0][1] * m[1][0];
    return new double[][] {{m[1][1] / det, -m[0][1] / det}, {-m[1][0] / det, m[0][0] / det}};
  }

  /**
   * Leaves out each machine in turn, of (ln lambda', ln beta): it holds too where machines differ
   * or events of a machine depend on each other.
   */
  private RateModel.LeaveOneOut byMachine() {
    int machines = data.machines().size();
    double lambda = data.events() / k;
    double[][] score = new double[machines][2];
    double[][] shares = new double[machines][4];
    for (int e = 0; e < data.events(); e++) {
      int m = data.eventMachine(e);
      double log = shape * Math.log(data.atH(e) / unit);
      score[m][0]++;
      score[m][1] += 1 + log;
      shares[m][3] -= log;
    }
    for (int w = 0; w < data.windows(); w++) {
      int m = data.windowMachine(w);
      add(score[m], shares[m], lambda, Math.log(data.toH(w) / unit), 1);
      if (data.fromH(w) > 0) {
        add(score[m], shares[m], lambda, Math.log(data.fromH(w) / unit), -1);
      }
    }
    return RateModel.leaveOneOut(information(), score, shares);
  }

  /** Adds what an end of a window expects: sign lambda' (t/unit)^beta, and its slopes. */
  private void add(double[] score, double[] shares, double lambda, double log, int sign) {
    double power = sign * lambda * Math.exp(shape * log);
    double slope = shape * log * power;
    score[0] -= power;
    score[1] -= slope;
    shares[0] += power;
    shares[1] += slope;
    shares[2] += slope;
    shares[3] += slope + shape * log * slope;
  }

  /** Returns the standard error of ln beta. */
  public double logShapeStandardError() {
    return Math.sqrt(inverse(information())[1][1]);
  }

  /** Returns the standard error of ln lambda, lambda by 1 h. */
  public double logLambdaStandardError() {
    double[][] v = inverse(information());
    double slope = shape * Math.log(unit); // ln lambda = ln lambda' - beta ln unit
    return Math.sqrt(v[0][0] - 2 * slope * v[0][1] + slope * slope * v[1][1]);
  }

  /** Returns whether there is one window, from 0 h, so that the exact forms hold. */
  public boolean isSingle() {
    return data.windows() == 1 && data.fromH(0) == 0;
  }

  /** Returns whether the one window ended at its last event. */
  public boolean endsAtEvent() {
    return isSingle() && data.endsAtEvent(0);
  }

  /**
   * Returns the interval of the shape, events by chance about the law: of a single machine from 0 h
   * exact, else Wald's on the log scale.
   *
   * <pre>  2 n beta/b ~ chi2 with 2n degrees of freedom, 2(n - 1) if watching ended at an event
   * </pre>
   */
  public Interval shapeInterval(double confidence) {
    if (isSingle()) {
      double n = data.events();
      double df = endsAtEvent() ? 2 * (n - 1) : 2 * n;
      double tail = 0.5 * (1 - confidence);
      return new Interval(
          shape * Tails.chiSquareQuantile(tail, df) / (2 * n),
          shape * Tails.chiSquareQuantile(1 - tail, df) / (2 * n));
    }
    return onLog(shape, logShapeStandardError(), Tails.normalQuantile(confidence));
  }

  /**
   * Returns the interval of the shape that allows for machines that differ: each is left out in
   * turn, with Student's law.
   */
  public Interval robustShapeInterval(double confidence) {
    RateModel.LeaveOneOut errors = byMachine();
    return onLog(
        shape,
        Math.sqrt(errors.covariance()[1][1]),
        Tails.studentQuantile(confidence, errors.degreesOfFreedom()[1]));
  }

  /** Returns Wald's interval of the scale, h, on the log scale. */
  public Interval scaleInterval(double confidence) {
    return onLog(scaleH(), scaleError(inverse(information())), Tails.normalQuantile(confidence));
  }

  /** Returns the interval of the scale, h, that allows for machines that differ. */
  public Interval robustScaleInterval(double confidence) {
    RateModel.LeaveOneOut errors = byMachine();
    double[] df = errors.degreesOfFreedom();
    return onLog(
        scaleH(),
        scaleError(errors.covariance()),
        Tails.studentQuantile(confidence, Math.min(df[0], df[1])));
  }

  /** Returns the error of ln(eta/unit) = -ln lambda'/beta. */
  private double scaleError(double[][] v) {
    double a = -1 / shape;
    double c = Math.log(data.events() / k) / shape;
    return Math.sqrt(a * a * v[0][0] + 2 * a * c * v[0][1] + c * c * v[1][1]);
  }

  private static Interval onLog(double value, double error, double quantile) {
    double factor = Math.exp(quantile * error);
    return new Interval(value / factor, value * factor);
  }

  /**
   * Returns the shape without bias, of a single machine from 0 h.
   *
   * <pre>  (n - 1)/sum ln(T/t), or (n - 2)/sum where watching ended at an event  </pre>
   */
  public double unbiasedShape() {
    needsSingle();
    double n = data.events();
    return shape * (endsAtEvent() ? n - 2 : n - 1) / n;
  }

  /** Returns n/T^shape at the shape without bias. */
  public double unbiasedLambda() {
    return data.events() / Math.pow(unit, unbiasedShape());
  }

  /** Returns the mean hours between events at the end of watching, at the shape without bias. */
  public double hoursBetweenAtEndH() {
    return unit / (data.events() * unbiasedShape());
  }

  /**
   * Returns an approximate interval of {@link #hoursBetweenAtEndH}, of a single machine watched to
   * a given hour.
   *
   * <pre>
   *   M n(n-1)/(n + z²/4 + sqrt(n z²/2 + z⁴/16))²  to  M n(n-1)/(n - z sqrt(n/2))²
   * </pre>
   *
   * <p>Source: NIST/SEMATECH e-Handbook of Statistical Methods, 8.4.5.2.
   */
  public Interval hoursBetweenInterval(double confidence) {
    needsSingle();
    double n = data.events();
    double z = Tails.normalQuantile(confidence);
    double m = hoursBetweenAtEndH() * n * (n - 1);
    double low = n + z * z / 4 + Math.sqrt(n * z * z / 2 + Math.pow(z, 4) / 16);
    double high = n - z * Math.sqrt(n / 2);
    return new Interval(m / (low * low), high > 0 ? m / (high * high) : Double.POSITIVE_INFINITY);
  }

  private void needsSingle() {
    if (!isSingle()) {
      throw new IllegalStateException("holds for one machine watched from 0 h");
    }
  }

  /**
   * The law from counts in intervals.
   *
   * @param shape beta
   * @param lambda events by 1 h
   * @param expected events expected in each interval
   * @param test chi-square of the counts against them, two parameters fitted
   */
  public record Grouped(double shape, double lambda, double[] expected, SignificanceTest test) {
    /** Returns eta, h. */
    public double scaleH() {
      return Math.pow(lambda, -1 / shape);
    }

    /** Returns the rate at an age, per h. */
    public double ratePerH(double hoursH) {
      return lambda * shape * Math.pow(hoursH, shape - 1);
    }
  }

  /**
   * Fits the law to counts of one machine in intervals.
   *
   * <pre>  sum n_i [ (b_i^s ln b_i - a_i^s ln a_i)/(b_i^s - a_i^s) - ln T ] = 0  </pre>
   *
   * <p>Source: MIL-HDBK-189, 1981, appendix C (from memory).
   *
   * @param boundsH ends of the intervals, h, the first 0, rising, one more than counts
   * @param counts events in each interval
   */
  public static Grouped grouped(double[] boundsH, long[] counts) {
    double total = boundsH[boundsH.length - 1];
    double low = 1e-3;
    double high = 1e3;
    for (int i = 0; i < 200 && high / low > 1 + 1e-15; i++) {
      double middle = Math.sqrt(low * high);
      if (groupedSlope(boundsH, counts, total, middle) > 0) {
        low = middle;
      } else {
        high = middle;
      }
    }
    double b = Math.sqrt(low * high);
    double n = Arrays.stream(counts).sum();
    double[] expected = new double[counts.length];
    double chiSquare = 0;
    for (int i = 0; i < counts.length; i++) {
      expected[i] = n * (Math.pow(boundsH[i + 1] / total, b) - Math.pow(boundsH[i] / total, b));
      chiSquare += (counts[i] - expected[i]) * (counts[i] - expected[i]) / expected[i];
    }
    return new Grouped(
        b, n / Math.pow(total, b), expected, Tails.test(chiSquare, counts.length - 2));
  }

  private static double groupedSlope(double[] bounds, long[] counts, double total, double b) {
    double sum = 0;
    for (int i = 0; i < counts.length; i++) {
      double to = Math.log(bounds[i + 1] / total);
      double power = Math.exp(b * to);
      double above = power * to;
      double below = power;
      if (bounds[i] > 0) {
        double from = Math.log(bounds[i] / total);
        double less = Math.exp(b * from);
        above -= less * from;
        below -= less;
      }
      sum += counts[i] * above / below;
    }
    return sum;
  }
}
