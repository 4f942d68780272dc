package siltwright.samples.internal;

import java.util.List;
import java.util.Optional;
import siltwright.cleanliness.Iso4406;
import siltwright.cleanliness.ParticleCounts;
import siltwright.cleanliness.ReportedCode;
import siltwright.model.CleanlinessCode;
import siltwright.samples.ChangePoints;
import siltwright.samples.ControlChart;
import siltwright.samples.CountError;
import siltwright.samples.OilRecord;
import siltwright.samples.SampleCheck;
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
    List<Limit> limits) {
  private static final int AT6 = 1;
  private static final int LEAST_FOR_CHART = 4;

  /**
   * A limit and why.
   *
   * @param kind target, caution or alarm
   * @param code code
   * @param reason why it lies there
   */
  record Limit(String kind, CleanlinessCode code, String reason) {}

  static MachineTrend of(
      String machine,
      List<OilRecord> rows,
      List<Limit> limits,
      CountError error,
      double earliestMin,
      int base,
      double falseAlarms,
      long seed) {
    List<SampleCheck> checks = SampleCheck.of(rows, earliestMin);
    List<OilRecord> samples =
        rows.stream()
            .filter(r -> r.kind() == OilRecord.Kind.SAMPLE && Double.isNaN(r.minutes()))
            .filter(r -> at6(r) > 0)
            .filter(r -> !SampleCheck.doubtful(r, checks))
            .toList();
    double[] hours = samples.stream().mapToDouble(OilRecord::hours).toArray();
    double[] logs = samples.stream().mapToDouble(r -> Math.log(at6(r))).toArray();
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

  /** Returns the count at 6 µm(c), or the middle of its scale number; not a number if neither. */
  static double at6(OilRecord r) {
    if (!Double.isNaN(r.perMl()[AT6])) {
      return r.perMl()[AT6];
    }
    return r.code()
        .flatMap(ReportedCode::code)
        .map(c -> Iso4406.cumulativePerMl(c)[AT6])
        .orElse(Double.NaN);
  }

  static String code(OilRecord r) {
    return r.counted()
        ? Iso4406.code(ParticleCounts.perMl(falling(r.perMl()))).toString()
        : r.code().map(ReportedCode::toString).orElse("");
  }

  private static double[] falling(double[] counts) {
    double[] out = counts.clone();
    double most = Double.POSITIVE_INFINITY;
    for (int i = 0; i < out.length; i++) {
      if (!Double.isNaN(out[i])) {
        out[i] = Math.min(most, out[i]);
        most = out[i];
      }
    }
    return out;
  }

  /** Returns the last sound sample. */
  Optional<OilRecord> last() {
    return samples.isEmpty() ? Optional.empty() : Optional.of(samples.get(samples.size() - 1));
  }

  /** Returns the gravest limit that the last sample exceeds in any size; empty within all. */
  Optional<Limit> exceeded() {
    Limit gravest = null;
    if (last().isPresent()) {
      for (Limit limit : limits) {
        double[] most = Iso4406.upperLimitsPerMl(limit.code());
        double[] counts = last().get().perMl();
        for (int i = 0; i < 3; i++) {
          if (counts[i] > most[i]) {
            gravest = limit;
          }
        }
      }
    }
    return Optional.ofNullable(gravest);
  }
}
