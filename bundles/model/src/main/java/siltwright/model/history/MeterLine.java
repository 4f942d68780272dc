package siltwright.model.history;

import java.time.Instant;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import siltwright.model.history.MeterMend.Taken;

/**
 * Hours of a machine from the readings of its hour meter, of which some do not go on as a meter
 * must.
 *
 * <p>A reading fits the one before if it is not lower by more than {@value #SLOP_H} h and not
 * higher by more than the hours that passed and a day. One that does not fit is judged by the
 * reading after it: if that fits the sound one before, this one was misread; otherwise the meter is
 * another one from here on. A new meter that shows no more than can have passed is taken to have
 * begun at 0 then; of any other it is not known what passed, and no hours are counted in between.
 *
 * <p>Source: own rules; a meter runs in real time and never backwards.
 */
public final class MeterLine {
  /** How far a reading may lie below the one before, h: a rounded or hasty reading. */
  public static final double SLOP_H = 1;

  private static final double MS_PER_H = 3_600_000;
  private static final double DAY_H = 24;

  private final long[] atMs;
  private final double[] hours;
  private final double[] added;
  private final List<MeterMend> mends;
  private final Map<Long, Double> leftOut = new HashMap<>();

  private MeterLine(long[] atMs, double[] hours, double[] added, List<MeterMend> mends) {
    this.atMs = atMs;
    this.hours = hours;
    this.added = added;
    this.mends = mends;
    for (MeterMend m : mends) {
      if (m.taken() == Taken.MISREAD || m.taken() == Taken.UNCONFIRMED) {
        leftOut.put(m.at().toEpochMilli(), m.shownH());
      }
    }
  }

  /**
   * Draws the line.
   *
   * @param machine id of the machine
   * @param atMs instants of the readings, rising, ms since 1970 in UTC
   * @param meterH readings, h, of the same length, rising where instants are the same
   */
  public static MeterLine of(String machine, long[] atMs, double[] meterH) {
    int n = atMs.length;
    long[] at = new long[n];
    double[] hours = new double[n];
    double[] added = new double[n];
    List<MeterMend> mends = new ArrayList<>();
    int kept = 0;
    double shift = 0;
    double before = 0;
    for (int i = 0; i < n; i++) {
      if (kept > 0 && !fits(at[kept - 1], before, atMs[i], meterH[i])) {
        Instant when = Instant.ofEpochMilli(atMs[i]);
        boolean last = i == n - 1;
        if (last || fits(at[kept - 1], before, atMs[i + 1], meterH[i + 1])) {
          Taken taken = last ? Taken.UNCONFIRMED : Taken.MISREAD;
          mends.add(new MeterMend(machine, when, taken, before, meterH[i], shift));
          continue;
        }
        boolean lower = meterH[i] < before;
        boolean fromZero = lower && meterH[i] <= most(at[kept - 1], atMs[i]);
        shift = hours[kept - 1] + (fromZero ? meterH[i] : 0) - meterH[i];
        Taken taken = lower ? Taken.REPLACED : Taken.JUMP;
        mends.add(new MeterMend(machine, when, taken, before, meterH[i], shift));
      }
      double now = meterH[i] + shift;
      at[kept] = atMs[i];
      hours[kept] = kept > 0 ? Math.max(now, hours[kept - 1]) : now;
      added[kept] = shift;
      before = meterH[i];
      kept++;
    }
    return new MeterLine(
        Arrays.copyOf(at, kept),
        Arrays.copyOf(hours, kept),
        Arrays.copyOf(added, kept),
        List.copyOf(mends));
  }

  private static double most(long fromMs, long toMs) {
    return (toMs - fromMs) / MS_PER_H + DAY_H;
  }

  private static boolean fits(long fromMs, double fromH, long toMs, double toH) {
    return toH >= fromH - SLOP_H && toH - fromH <= most(fromMs, toMs);
  }

  /** Returns where the meter did not go on as it must. */
  public List<MeterMend> mends() {
    return mends;
  }

  /**
   * Returns the hours of the machine at an instant, h.
   *
   * @param whenMs instant, ms since 1970 in UTC
   * @return hours; between two readings in proportion to time; not a number before the first and
   *     after the last
   */
  public double hoursAt(long whenMs) {
    int i = Arrays.binarySearch(atMs, whenMs);
    if (i >= 0) {
      return hours[i];
    }
    int next = -i - 1;
    if (next == 0 || next == atMs.length) {
      return Double.NaN;
    }
    double share = (whenMs - atMs[next - 1]) / (double) (atMs[next] - atMs[next - 1]);
    return hours[next - 1] + share * (hours[next] - hours[next - 1]);
  }

  /**
   * Returns the hours of the machine where its meter was read, h.
   *
   * @param whenMs instant of one of the readings that the line was drawn from
   * @param meterH what the meter showed, h
   * @return the reading with what is added there; where it was left out, as {@link #hoursAt(long)}
   */
  public double hoursAt(long whenMs, double meterH) {
    Double wrong = leftOut.get(whenMs);
    if (Double.isNaN(meterH) || (wrong != null && wrong == meterH)) {
      return hoursAt(whenMs);
    }
    int i = Arrays.binarySearch(atMs, whenMs);
    return i < 0 ? hoursAt(whenMs) : meterH + added[i];
  }
}
