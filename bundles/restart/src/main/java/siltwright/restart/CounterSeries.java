package siltwright.restart;

import java.util.ArrayList;
import java.util.List;
import siltwright.model.SizeBands;
import siltwright.samples.BandCounts;

/**
 * The series of a counter in the line, made into bottles.
 *
 * <pre>
 *   true = seen/(1 - seen q)          q the volume in which two particles count as one, mL
 *   n(t) = seen(t + lag)              oil reaches the sensor late
 *   n_out' = (n_in - n_out)/mixing    a sensor line that mixes, undone on the means
 * </pre>
 *
 * <p>Neighbouring values are wrong together (one instrument, one flow), so thousands of them become
 * at most {@value #MOST} means, evenly in the logarithm of the minute. Coincidence: the usual
 * dead-time correction of counters (non-paralysable), own derivation.
 */
public final class CounterSeries {
  static final int MOST = 30;
  private static final double LARGEST_COINCIDENCE = 0.9;

  private CounterSeries() {}

  /**
   * What is known of the instrument.
   *
   * @param lagMin minutes from the tank to the reading
   * @param mixingMin time constant of the line, min; 0 for none
   * @param coincidenceMl volume in which two particles count as one, mL; 0 for none
   * @param sampledMlPerMin oil that passes the sensor, mL/min
   */
  public record Instrument(
      double lagMin, double mixingMin, double coincidenceMl, double sampledMlPerMin) {}

  /**
   * Returns the means as bottles.
   *
   * @param minutes minutes of running since the restart, rising
   * @param perMl cumulative counts at 4, 6, 14, 21, 38, 70 µm(c) at each, 1/mL, not a number where
   *     not counted
   * @param instrument the instrument
   */
  public static List<Bottle> bottles(double[] minutes, double[][] perMl, Instrument instrument) {
    double first = Double.NaN;
    double last = minutes[minutes.length - 1] - instrument.lagMin();
    for (double m : minutes) {
      if (m - instrument.lagMin() > 0.05) {
        first = m - instrument.lagMin();
        break;
      }
    }
    List<Bottle> bottles = new ArrayList<>();
    if (Double.isNaN(first) || last <= first) {
      return bottles;
    }
    double before = Double.NaN;
    double[] meanBefore = new double[SizeBands.COUNT];
    int row = 0;
    for (int b = 0; b < MOST; b++) {
      double to = first * Math.pow(last / first, (b + 1.0) / MOST) * (1 + 1e-12);
      double[] sum = new double[SizeBands.COUNT];
      double time = 0;
      int n = 0;
      double from = Double.NaN;
      double end = 0;
      while (row < minutes.length && minutes[row] - instrument.lagMin() <= to) {
        double t = minutes[row] - instrument.lagMin();
        if (t >= first) {
          from = Double.isNaN(from) ? t : from;
          end = t;
          time += t;
          for (int i = 0; i < sum.length; i++) {
            sum[i] += single(perMl[row][i], perMl[row][0], instrument.coincidenceMl());
          }
          n++;
        }
        row++;
      }
      if (n == 0) {
        continue;
      }
      double at = time / n;
      double[] mean = new double[SizeBands.COUNT];
      double[] drawn = new double[SizeBands.COUNT];
      for (int i = 0; i < mean.length; i++) {
        mean[i] = sum[i] / n;
        drawn[i] =
            Double.isNaN(before)
                ? mean[i]
                : mean[i] + instrument.mixingMin() * (mean[i] - meanBefore[i]) / (at - before);
      }
      if (!Double.isNaN(before) || instrument.mixingMin() == 0) {
        double span = Math.max(end - from, (last - first) / minutes.length);
        bottles.add(
            new Bottle(
                at,
                BandCounts.of(
                    falling(drawn), Math.max(0.1, instrument.sampledMlPerMin() * span), false)));
      }
      before = at;
      meanBefore = mean;
    }
    return bottles;
  }

  /** A count without coincidence: the share lost is that of all particles, at the least size. */
  private static double single(double seen, double all, double coincidenceMl) {
    double lost = Double.isNaN(all) ? 0 : Math.min(LARGEST_COINCIDENCE, all * coincidenceMl);
    return seen / (1 - lost);
  }

  private static double[] falling(double[] counts) {
    double most = Double.POSITIVE_INFINITY;
    for (int i = 0; i < counts.length; i++) {
      if (!Double.isNaN(counts[i])) {
        counts[i] = Math.max(0, Math.min(most, counts[i]));
        most = counts[i];
      }
    }
    return counts;
  }
}
