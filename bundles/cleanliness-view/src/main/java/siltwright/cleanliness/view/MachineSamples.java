package siltwright.cleanliness.view;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.IdentityHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import siltwright.analysis.Progress;
import siltwright.model.Machine;
import siltwright.samples.ChangePoints;
import siltwright.samples.ControlChart;
import siltwright.samples.CountError;
import siltwright.samples.OilRecord;
import siltwright.samples.OilRecords;
import siltwright.samples.SampleCheck;
import siltwright.samples.SampleLimit;

/**
 * The samples of one machine, as the command {@code samples} looks at them with its defaults.
 *
 * @param id id of the machine
 * @param samples all samples in the order of hours, restart samples among them
 * @param changes hours at which the element was changed
 * @param doubts what is to doubt of a sample, by the very object
 * @param running sound samples in running with a count at the size
 * @param levels hours at which the level changed
 * @param grouped how many neighbouring samples were taken together to look for changes of level
 * @param chart control chart of ln(count), if there are enough samples
 * @param limits limits, the gravest last
 */
record MachineSamples(
    String id,
    List<OilRecord> samples,
    double[] changes,
    Map<OilRecord, List<SampleCheck>> doubts,
    List<OilRecord> running,
    double[] levels,
    int grouped,
    Optional<ControlChart> chart,
    List<SampleLimit> limits) {
  private static final double EARLIEST_MIN = 3;
  private static final double FALSE_ALARMS = 0.01;
  private static final int BASE = 8;
  private static final int LEAST_FOR_CHART = 4;

  /** Means looked through for changes of level: random orders of more take too long. */
  private static final int MOST_MEANS = 1000;

  /**
   * Looks at a machine.
   *
   * @param records all rows
   * @param id its id in them
   * @param machine the machine in the fleet, if it is there
   * @param size place of the size, from 0 for 4 µm(c)
   * @param progress told how far it is
   */
  static MachineSamples of(
      OilRecords records, String id, Optional<Machine> machine, int size, Progress progress) {
    List<OilRecord> rows = records.of(id);
    progress.check(0.2, id);
    Map<OilRecord, List<SampleCheck>> doubts = new IdentityHashMap<>();
    for (SampleCheck check : SampleCheck.of(rows, EARLIEST_MIN)) {
      doubts.computeIfAbsent(check.record(), r -> new ArrayList<>()).add(check);
    }
    progress.check(0.5, id);
    List<OilRecord> samples = rows.stream().filter(r -> r.kind() == OilRecord.Kind.SAMPLE).toList();
    List<OilRecord> running =
        samples.stream()
            .filter(r -> Double.isNaN(r.minutes()) && r.countAt(size) > 0)
            .filter(r -> doubts.getOrDefault(r, List.of()).stream().noneMatch(SampleCheck::grave))
            .toList();
    double[] logs = running.stream().mapToDouble(r -> Math.log(r.countAt(size))).toArray();
    int grouped = Math.max(1, (logs.length + MOST_MEANS - 1) / MOST_MEANS);
    double[] levels =
        ChangePoints.in(means(logs, grouped), FALSE_ALARMS, 1).stream()
            .mapToInt(c -> c.first() * grouped)
            .mapToDouble(i -> (running.get(i - 1).hours() + running.get(i).hours()) / 2)
            .toArray();
    progress.check(0.8, id);
    CountError error = CountError.STANDARD;
    return new MachineSamples(
        id,
        samples,
        rows.stream()
            .filter(r -> r.kind() == OilRecord.Kind.CHANGE)
            .mapToDouble(OilRecord::hours)
            .toArray(),
        doubts,
        running,
        levels,
        grouped,
        logs.length >= LEAST_FOR_CHART
            ? Optional.of(ControlChart.of(logs, Math.hypot(error.bottle(), error.size()), BASE))
            : Optional.empty(),
        SampleLimit.of(machine, Optional.empty()));
  }

  private static double[] means(double[] values, int grouped) {
    double[] means = new double[(values.length + grouped - 1) / grouped];
    for (int i = 0; i < means.length; i++) {
      int end = Math.min(values.length, (i + 1) * grouped);
      means[i] = Arrays.stream(values, i * grouped, end).average().orElseThrow();
    }
    return means;
  }

  /** Returns what is to doubt of a sample, a clause each. */
  List<String> doubtsOf(OilRecord sample) {
    return doubts.getOrDefault(sample, List.of()).stream().map(SampleCheck::text).toList();
  }

  /** Returns the last sound sample in running. */
  Optional<OilRecord> last() {
    return running.isEmpty() ? Optional.empty() : Optional.of(running.get(running.size() - 1));
  }
}
