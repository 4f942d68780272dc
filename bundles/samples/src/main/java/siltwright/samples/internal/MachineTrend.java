package siltwright.samples.internal;

import java.util.List;
import java.util.Optional;
import siltwright.samples.ChangePoints;
import siltwright.samples.ControlChart;
import siltwright.samples.CountError;
import siltwright.samples.OilRecord;
import siltwright.samples.SampleCheck;
import siltwright.samples.SampleLimit;
import siltwright.samples.Trend;

/**
 * The samples of one machine in running.
 *
 * @param machine id
 * @param samples sound samples in running that were counted, in the order of hours
 * @param checks what is suspicious
 * @param hours their hours
 * @param logs ln of the count at 6 µm(c)
 * @param trend trend of the logarithms over hours
 * @param changes changes of level
 * @param chart control chart
 * @param limits limits that the last sample is held against
 */
record MachineTrend(
    String machine,
    List<OilRecord> samples,
    List<SampleCheck> checks,
    double[] hours,
    double[] logs,
    Trend trend,
    List<ChangePoints.Change> changes,
    Optional<ControlChart> chart,
    List<SampleLimit> limits) {
  static final int AT6 = 1;
  private static final int LEAST_FOR_CHART = 4;

  static MachineTrend of(
      String machine,
      List<OilRecord> rows,
      List<SampleLimit> limits,
      CountError error,
      double earliestMin,
      int base,
      double falseAlarms,
      long seed) {
    List<SampleCheck> checks = SampleCheck.of(rows, earliestMin);
    List<OilRecord> samples =
        rows.stream()
            .filter(r -> r.kind() == OilRecord.Kind.SAMPLE && Double.isNaN(r.minutes()))
            .filter(r -> r.countAt(AT6) > 0)
            .filter(r -> !SampleCheck.doubtful(r, checks))
            .toList();
    double[] hours = samples.stream().mapToDouble(OilRecord::hours).toArray();
    double[] logs = samples.stream().mapToDouble(r -> Math.log(r.countAt(AT6))).toArray();
    double least = Math.hypot(error.bottle(), error.size());
    return new MachineTrend(
        machine,
        samples,
        checks,
        hours,
        logs,
        Trend.of(hours, logs),
        ChangePoints.in(logs, falseAlarms, seed),
        logs.length >= LEAST_FOR_CHART
            ? Optional.of(ControlChart.of(logs, least, base))
            : Optional.empty(),
        limits);
  }

  /** Returns the last sound sample. */
  Optional<OilRecord> last() {
    return samples.isEmpty() ? Optional.empty() : Optional.of(samples.get(samples.size() - 1));
  }

  /** Returns the gravest limit that the last sample exceeds in any size; empty within all. */
  Optional<SampleLimit> exceeded() {
    return last().flatMap(r -> SampleLimit.exceeded(r, limits));
  }
}
