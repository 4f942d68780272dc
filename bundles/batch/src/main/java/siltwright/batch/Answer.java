package siltwright.batch;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.concurrent.CancellationException;
import java.util.stream.Collectors;
import siltwright.analysis.Progress;
import siltwright.interval.Best;
import siltwright.interval.Tuning;
import siltwright.model.Breather;
import siltwright.model.InputException;
import siltwright.model.Machine;
import siltwright.model.OfflineFilter;
import siltwright.model.json.FleetVariants;

/**
 * What one machine comes to, as a row.
 *
 * @param line line or row of the table that it came from, from 1
 * @param machine its id
 * @param tuning the answer, as {@code tune} gives it; empty where there is none
 * @param reason why there is no interval; empty where there is one
 */
record Answer(long line, String machine, Optional<Tuning> tuning, String reason) {
  /** Headings of the row, with units. */
  static final List<String> HEADINGS =
      List.of(
          "row",
          "machine",
          "procedure",
          "element",
          "breather",
          "offline_filter",
          "interval_h",
          "within5_low_h",
          "within5_high_h",
          "cost_per_h",
          "today_interval_h",
          "today_cost_per_h",
          "limits",
          "interval_p05_h",
          "interval_p50_h",
          "interval_p95_h",
          "cost_p05_per_h",
          "cost_p50_per_h",
          "cost_p95_per_h",
          "least_regret_h",
          "reason");

  /** The headings of texts; the others are of numbers. */
  static final Set<String> TEXTS =
      Set.of("machine", "procedure", "element", "breather", "offline_filter", "limits", "reason");

  /** Computes the answer; what is wrong with the machine is its reason. */
  static Answer of(
      MachineRows.Entry entry,
      FleetVariants variants,
      Tuning.Settings settings,
      Progress progress) {
    try {
      Machine machine = entry.machine(variants);
      Tuning tuning = Tuning.of(machine, settings, progress);
      String reason =
          tuning.recommended().isPresent()
              ? ""
              : tuning.procedures().stream()
                  .map(p -> p.procedure().name() + ": " + p.best().reason())
                  .collect(Collectors.joining("; "));
      return new Answer(entry.line(), machine.id(), Optional.of(tuning), reason);
    } catch (InputException e) {
      return new Answer(
          entry.line(),
          entry.id(),
          Optional.empty(),
          e.problems().stream().map(p -> p.toString().strip()).collect(Collectors.joining("; ")));
    } catch (CancellationException e) {
      throw e;
    } catch (RuntimeException e) { // the others go on
      return new Answer(entry.line(), entry.id(), Optional.empty(), "fault of the program: " + e);
    }
  }

  /** Returns the row's cells: {@link Double}, {@link Long} or {@link String}; null for nothing. */
  ArrayList<Object> cells() {
    ArrayList<Object> cells = new ArrayList<>();
    cells.add(line);
    cells.add(machine);
    Optional<Tuning.OptionAnswer> best = tuning.flatMap(Tuning::recommended);
    Optional<Best.Interval> interval = best.flatMap(b -> b.best().interval());
    cells.add(best.map(b -> b.procedure().id()).orElse(null));
    cells.add(best.map(b -> b.option().elementId(tuning.get().machine())).orElse(null));
    cells.add(best.flatMap(b -> b.option().breather()).map(Breather::id).orElse(null));
    cells.add(best.flatMap(b -> b.option().offlineFilter()).map(OfflineFilter::id).orElse(null));
    cells.add(interval.map(Best.Interval::hours).orElse(null));
    cells.add(interval.map(i -> i.within5pct()[0]).orElse(null));
    cells.add(interval.map(i -> i.within5pct()[1]).orElse(null));
    cells.add(interval.map(Best.Interval::costPerH).orElse(null));
    cells.add(tuning.map(t -> t.machine().today().intervalH()).orElse(null));
    cells.add(tuning.flatMap(Tuning::today).map(t -> t.split().total()).orElse(null));
    cells.add(
        best.map(
                b ->
                    b.best().limits().stream()
                        .filter(Best.Limit::binds)
                        .map(Best.Limit::name)
                        .collect(Collectors.joining("; ")))
            .orElse(null));
    Optional<Tuning.Spread> spread = tuning.flatMap(Tuning::spread);
    for (int i = 0; i < 3; i++) {
      int q = i;
      cells.add(spread.map(s -> s.bestH()[q]).orElse(null));
    }
    for (int i = 0; i < 3; i++) {
      int q = i;
      cells.add(spread.map(s -> s.costPerH()[q]).orElse(null));
    }
    cells.add(spread.map(Tuning.Spread::leastRegretH).orElse(null));
    cells.add(reason);
    return cells;
  }
}
