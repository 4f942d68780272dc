package siltwright.samples;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;

/**
 * Control chart of single values on the logarithm of counts.
 *
 * <pre>
 *   centre = mean,  sigma = mean |x_i - x_(i-1)| / 1.128,  limits = centre ± 3 sigma
 * </pre>
 *
 * <p>Source: individuals and moving range, ISO 7870-2:2013 (from memory), with d2 = 1.128 for two
 * values. The centre is that of the first values, so that later ones are held against how it was.
 * The sigma is never less than what counting and laboratory alone would give.
 *
 * @param centre centre, of the logarithm
 * @param sigma standard deviation
 * @param base values that centre and sigma are of
 * @param signals indices of values outside the limits, or of the eighth in a row on one side
 */
public record ControlChart(double centre, double sigma, int base, List<Integer> signals) {
  private static final double D2 = 1.128;
  private static final int RUN = 8;

  /**
   * Makes a chart.
   *
   * @param logs logarithms of counts in order
   * @param leastSigma what the laboratory alone gives
   * @param base values to take centre and sigma from, at least 2
   */
  public static ControlChart of(double[] logs, double leastSigma, int base) {
    int n = Math.min(base, logs.length);
    double centre = Arrays.stream(logs, 0, n).average().orElse(Double.NaN);
    double range = 0;
    for (int i = 1; i < n; i++) {
      range += Math.abs(logs[i] - logs[i - 1]) / (n - 1);
    }
    double sigma = Math.max(leastSigma, range / D2);
    List<Integer> signals = new ArrayList<>();
    int run = 0;
    double side = 0;
    for (int i = 0; i < logs.length; i++) {
      double now = Math.signum(logs[i] - centre);
      run = now == side ? run + 1 : 1;
      side = now;
      if (Math.abs(logs[i] - centre) > 3 * sigma || run == RUN) {
        signals.add(i);
      }
    }
    return new ControlChart(centre, sigma, n, List.copyOf(signals));
  }

  /** Returns the upper limit, of the logarithm. */
  public double upper() {
    return centre + 3 * sigma;
  }

  /** Returns the lower limit, of the logarithm. */
  public double lower() {
    return centre - 3 * sigma;
  }
}
