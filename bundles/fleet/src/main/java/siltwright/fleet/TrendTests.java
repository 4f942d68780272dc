package siltwright.fleet;

import siltwright.life.SignificanceTest;

/**
 * Whether events get more or less frequent with age.
 *
 * <p>Given its number in a window (from, to], events that come by chance at a constant rate lie
 * evenly in it, whatever the rate of the machine. So u = (t - from)/(to - from) is even on 0 to 1,
 * and windows of different machines may be pooled though the machines differ. An event that ended a
 * window is left out: it had to be there.
 */
public final class TrendTests {
  private TrendTests() {}

  /**
   * Laplace's test.
   *
   * @param z above 0: more frequent with age
   * @param pValue two-sided
   * @param events events that count
   */
  public record Laplace(double z, double pValue, int events) {}

  /**
   * Laplace's test: how far events lie behind the middle of their windows.
   *
   * <pre>  z = sum (t - (from + to)/2) / sqrt(sum (to - from)²/12)  over the events that count
   * </pre>
   *
   * <p>Source: D. R. Cox, P. A. W. Lewis, The Statistical Analysis of Series of Events, 1966,
   * chapter 3 (from memory).
   */
  public static Laplace laplace(EventData data) {
    double sum = 0;
    double variance = 0;
    int n = 0;
    for (int e = 0; e < data.events(); e++) {
      int w = data.eventWindow(e);
      if (counts(data, e)) {
        double length = data.toH(w) - data.fromH(w);
        sum += data.atH(e) - 0.5 * (data.fromH(w) + data.toH(w));
        variance += length * length / 12;
        n++;
      }
    }
    double z = sum / Math.sqrt(variance);
    return new Laplace(z, Tails.twoSided(z), n);
  }

  /**
   * The military handbook's test, strongest against a power law.
   *
   * <pre>  2 sum -ln u ~ chi2 with 2 degrees of freedom an event  </pre>
   *
   * <p>Small: more frequent with age. Source: MIL-HDBK-189, 1981 (from memory).
   *
   * @return the chi-square, two-sided
   */
  public static SignificanceTest militaryHandbook(EventData data) {
    double sum = 0;
    int n = 0;
    for (int e = 0; e < data.events(); e++) {
      int w = data.eventWindow(e);
      if (counts(data, e)) {
        sum -= Math.log((data.atH(e) - data.fromH(w)) / (data.toH(w) - data.fromH(w)));
        n++;
      }
    }
    double x = 2 * sum;
    double p =
        n == 0
            ? Double.NaN
            : 2 * Math.min(Tails.chiSquareLower(x, 2.0 * n), Tails.chiSquareUpper(x, 2.0 * n));
    return new SignificanceTest(x, 2 * n, Math.min(1, p));
  }

  static boolean counts(EventData data, int event) {
    int w = data.eventWindow(event);
    return data.atH(event) < data.toH(w);
  }
}
