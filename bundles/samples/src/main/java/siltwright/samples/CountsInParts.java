package siltwright.samples;

import java.io.Serializable;
import siltwright.cleanliness.Iso4406;

/**
 * Counts of one size in many samples, by sums that add up over parts: mean and spread of their
 * logarithm to the base 2 (one is one scale number of ISO 4406), its straight line over hours, and
 * how often each scale number occurs.
 *
 * <pre>
 *   of two parts with n, mean and sums of squared and crossed deviations S:
 *   S = S1 + S2 + n1 n2/(n1 + n2) (difference of the means)²
 * </pre>
 *
 * <p>Source: T. F. Chan, G. H. Golub, R. J. LeVeque, The American Statistician 37 (1983) 242-247
 * (from memory). Counts of none have no logarithm: they count as scale numbers only.
 */
public final class CountsInParts implements Serializable {
  private static final long serialVersionUID = 1;
  private static final int SCALE = Iso4406.ABOVE_SCALE + 1;

  private final long[] numbers = new long[SCALE];
  private long n;
  private double hours;
  private double log;
  private double hoursSquares;
  private double logSquares;
  private double products;

  /**
   * Adds a count.
   *
   * @param hoursH hour meter
   * @param perMl particles per mL at or above the size, at least 0
   */
  public void add(double hoursH, double perMl) {
    numbers[Iso4406.scaleNumber(perMl)]++;
    if (perMl > 0) {
      double y = Math.log(perMl) / Math.log(2);
      n++;
      double dx = hoursH - hours;
      double dy = y - log;
      hours += dx / n;
      log += dy / n;
      hoursSquares += dx * (hoursH - hours);
      logSquares += dy * (y - log);
      products += dx * (y - log);
    }
  }

  /** Adds the counts of another part. */
  public void add(CountsInParts other) {
    for (int i = 0; i < SCALE; i++) {
      numbers[i] += other.numbers[i];
    }
    if (other.n == 0) {
      return;
    }
    double all = n + other.n;
    double weight = n * (other.n / all);
    double dx = other.hours - hours;
    double dy = other.log - log;
    hoursSquares += other.hoursSquares + weight * dx * dx;
    logSquares += other.logSquares + weight * dy * dy;
    products += other.products + weight * dx * dy;
    hours += dx * (other.n / all);
    log += dy * (other.n / all);
    n += other.n;
  }

  /** Returns how many counts there are. */
  public long counts() {
    long all = 0;
    for (long k : numbers) {
      all += k;
    }
    return all;
  }

  /** Returns the geometric mean of the counts above none, 1/mL. */
  public double geometricMeanPerMl() {
    return n == 0 ? Double.NaN : Math.exp(log * Math.log(2));
  }

  /** Returns the standard deviation of the logarithm to the base 2. */
  public double spread() {
    return Math.sqrt(logSquares / (n - 1));
  }

  /** Returns scale numbers gained per hour: the slope of least squares. */
  public double slopePerH() {
    return products / hoursSquares;
  }

  /** Returns the standard error of the slope, as if samples did not depend on each other. */
  public double slopeErrorPerH() {
    double rest = Math.max(0, logSquares - products * products / hoursSquares);
    return Math.sqrt(rest / (n - 2) / hoursSquares);
  }

  /**
   * Returns the scale number that a share of the counts does not exceed.
   *
   * @param share above 0, at most 1
   */
  public int scaleNumber(double share) {
    double wanted = share * counts();
    long before = 0;
    for (int i = 0; i < SCALE; i++) {
      before += numbers[i];
      if (before >= wanted && before > 0) {
        return i;
      }
    }
    return SCALE - 1;
  }
}
