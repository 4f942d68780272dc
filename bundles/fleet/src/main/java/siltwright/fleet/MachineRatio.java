package siltwright.fleet;

import java.util.Arrays;
import java.util.SplittableRandom;
import siltwright.life.Interval;

/**
 * A sum over a sum, such as cost over hours or hours within target over hours sampled, with the
 * machine as the unit that varies.
 *
 * <pre>
 *   R = sum y/sum x      Var R = n/(n - 1) sum (y_i - R x_i)² / (sum x)²
 * </pre>
 *
 * <p>Intervals and tests draw machines with replacement and refer (R* - R)/se* to them:
 * studentised, which holds for skewed costs where a symmetric interval does not. Source: W. G.
 * Cochran, Sampling Techniques, 1977, chapter 6; B. Efron, R. J. Tibshirani, An Introduction to the
 * Bootstrap, 1993, chapter 12 (both from memory).
 */
public final class MachineRatio {
  private final double[] y;
  private final double[] x;
  private final double value;
  private final double error;

  private MachineRatio(double[] y, double[] x) {
    this.y = y;
    this.x = x;
    double[] both = ratio(y, x, null);
    value = both[0];
    error = both[1];
  }

  /**
   * Returns the ratio.
   *
   * @param y upper value of each machine; copied
   * @param x lower value of each machine, at least 0, not all 0; copied
   */
  public static MachineRatio of(double[] y, double[] x) {
    return new MachineRatio(y.clone(), x.clone());
  }

  /** Returns ratio and error of the machines chosen, of all if none are. */
  private static double[] ratio(double[] y, double[] x, int[] chosen) {
    int n = chosen == null ? y.length : chosen.length;
    double sy = 0;
    double sx = 0;
    double yy = 0;
    double xy = 0;
    double xx = 0;
    for (int i = 0; i < n; i++) {
      int m = chosen == null ? i : chosen[i];
      sy += y[m];
      sx += x[m];
      yy += y[m] * y[m];
      xy += x[m] * y[m];
      xx += x[m] * x[m];
    }
    double r = sy / sx;
    double square = Math.max(0, yy - 2 * r * xy + r * r * xx);
    return new double[] {r, Math.sqrt(n / (n - 1.0) * square) / sx};
  }

  /** Returns the ratio. */
  public double value() {
    return value;
  }

  /** Returns its standard error; not a number of a single machine. */
  public double standardError() {
    return y.length < 2 ? Double.NaN : error;
  }

  /** Returns the number of machines. */
  public int machines() {
    return y.length;
  }

  /**
   * An estimate with what draws say of it.
   *
   * @param value the estimate
   * @param standardError its standard error
   * @param interval its interval; not a number where there are too few machines
   * @param pValue two-sided against 0
   */
  public record Drawn(double value, double standardError, Interval interval, double pValue) {}

  /**
   * Returns the ratio with its interval.
   *
   * @param draws draws of machines, at least 99
   */
  public Drawn drawn(int draws, long seed, double confidence) {
    return drawn(this, null, draws, seed, confidence);
  }

  /** Returns this ratio less another of other machines, with its interval and test. */
  public Drawn less(MachineRatio other, int draws, long seed, double confidence) {
    return drawn(this, other, draws, seed, confidence);
  }

  /** Least machines whose draws say something (common practice, no source). */
  public static final int FEWEST = 5;

  /** From so many machines on draws tell what the normal law does. */
  private static final int LARGE = 5000;

  private static Drawn drawn(
      MachineRatio a, MachineRatio b, int draws, long seed, double confidence) {
    double value = b == null ? a.value : a.value - b.value;
    double error = b == null ? a.error : Math.hypot(a.error, b.error);
    if (a.y.length < FEWEST || b != null && b.y.length < FEWEST || !(error > 0)) {
      Interval none = new Interval(Double.NaN, Double.NaN);
      return new Drawn(value, error > 0 ? error : Double.NaN, none, Double.NaN);
    }
    if (Math.min(a.y.length, b == null ? a.y.length : b.y.length) > LARGE) {
      double half = Tails.normalQuantile(confidence) * error;
      return new Drawn(
          value, error, new Interval(value - half, value + half), Tails.twoSided(value / error));
    }
    SplittableRandom random = new SplittableRandom(seed);
    double[] t = new double[draws];
    int n = 0;
    for (int d = 0; d < draws; d++) {
      double[] first = a.draw(random);
      double[] second = b == null ? new double[2] : b.draw(random);
      double se = Math.hypot(first[1], second[1]);
      if (se > 0) {
        t[n++] = (first[0] - second[0] - value) / se;
      }
    }
    t = Arrays.copyOf(t, n);
    Arrays.sort(t);
    double tail = 0.5 * (1 - confidence);
    double seen = value / error;
    long above = Arrays.stream(t).filter(v -> v >= seen).count();
    long below = Arrays.stream(t).filter(v -> v <= seen).count();
    return new Drawn(
        value,
        error,
        new Interval(value - quantile(t, 1 - tail) * error, value - quantile(t, tail) * error),
        Math.min(1, 2 * (Math.min(above, below) + 1) / (n + 1.0)));
  }

  private double[] draw(SplittableRandom random) {
    int[] chosen = new int[y.length];
    for (int i = 0; i < chosen.length; i++) {
      chosen[i] = random.nextInt(y.length);
    }
    return ratio(y, x, chosen);
  }

  private static double quantile(double[] sorted, double probability) {
    double at = probability * (sorted.length + 1) - 1;
    int i = (int) Math.floor(Math.max(0, Math.min(at, sorted.length - 1)));
    double next = sorted[Math.min(i + 1, sorted.length - 1)];
    return sorted[i] + Math.max(0, Math.min(1, at - i)) * (next - sorted[i]);
  }
}
