package siltwright.fleet;

import java.util.Arrays;
import java.util.SplittableRandom;

/**
 * Whether events contradict a power law: how far their hours, carried to 0 to 1 by the law, are
 * from lying evenly.
 *
 * <pre>
 *   C² = 1/(12M) + sum (v_(i) - (2i - 1)/(2M))²,   v = (t/T)^b,  b = (M - 1)/sum ln(T/t)
 * </pre>
 *
 * <p>T is the end of the event's own window, and an event that ended one is left out, so machines
 * with different rates and windows may be pooled; windows must begin at 0 h. The shape is the one
 * given the counts, without bias. Its distribution depends on M alone and is drawn. Source: L. H.
 * Crow 1974; MIL-HDBK-189, 1981, appendix C (from memory); IEC 61710.
 *
 * @param statistic C²
 * @param events M
 * @param shape the shape taken
 * @param pValue share of draws with a larger statistic, one for the data among them
 */
public record CramerVonMises(double statistic, int events, double shape, double pValue) {
  /**
   * Tests.
   *
   * @param draws number of draws; 0 leaves the p-value out
   * @throws IllegalArgumentException if a window begins late or fewer than three events count
   */
  public static CramerVonMises of(EventData data, int draws, long seed) {
    double[] logs = new double[data.events()];
    int m = 0;
    for (int e = 0; e < data.events(); e++) {
      int w = data.eventWindow(e);
      if (data.fromH(w) > 0) {
        throw new IllegalArgumentException("a window begins after 0 h");
      }
      if (TrendTests.counts(data, e)) {
        logs[m++] = Math.log(data.toH(w) / data.atH(e));
      }
    }
    if (m < 3) {
      throw new IllegalArgumentException(m + " events count, expected at least 3");
    }
    logs = Arrays.copyOf(logs, m);
    double shape = (m - 1) / Arrays.stream(logs).sum();
    double statistic = statistic(logs);
    SplittableRandom random = new SplittableRandom(seed);
    int larger = 1;
    for (int d = 0; d < draws; d++) {
      for (int i = 0; i < m; i++) {
        logs[i] = -Math.log(1 - random.nextDouble());
      }
      larger += statistic(logs) >= statistic ? 1 : 0;
    }
    return new CramerVonMises(
        statistic, m, shape, draws == 0 ? Double.NaN : larger / (draws + 1.0));
  }

  /** Returns C² of ln(T/t), which is sorted in place. */
  static double statistic(double[] logs) {
    int m = logs.length;
    double b = (m - 1) / Arrays.stream(logs).sum();
    Arrays.sort(logs);
    double sum = 1.0 / (12 * m);
    for (int i = 0; i < m; i++) {
      double off = Math.exp(-b * logs[m - 1 - i]) - (2 * i + 1) / (2.0 * m);
      sum += off * off;
    }
    return sum;
  }
}
