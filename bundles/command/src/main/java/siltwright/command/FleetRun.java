package siltwright.command;

import java.util.ArrayList;
import java.util.List;
import siltwright.analysis.Analysis;
import siltwright.analysis.Context;
import siltwright.analysis.EachMachine;
import siltwright.analysis.Values;
import siltwright.model.Fleet;
import siltwright.model.Machine;
import siltwright.model.Problem;

/** Runs an analysis on every machine of a fleet, several at a time. */
final class FleetRun {
  private final Analysis analysis;
  private final Fleet fleet;
  private final String file;
  private final Values values;
  private final ProgressLine progress;

  FleetRun(Analysis analysis, Fleet fleet, String file, Values values, ProgressLine progress) {
    this.analysis = analysis;
    this.fleet = fleet;
    this.file = file;
    this.values = values;
    this.progress = progress;
  }

  /**
   * Runs the analysis.
   *
   * @param threads most threads to use
   * @param problems problems of the file, which come first
   * @return results in the fleet's order; a machine that the analysis refuses is among the problems
   */
  Outcome run(int threads, List<Problem> problems) {
    List<Outcome.Of> results = new ArrayList<>();
    List<Problem> all = new ArrayList<>(problems);
    for (EachMachine.Outcome of :
        EachMachine.run(analysis, fleet, values, progress::part, threads)) {
      Machine m = of.machine();
      of.result()
          .ifPresent(r -> results.add(new Outcome.Of(m.id(), m.name(), r, Context.of(fleet, m))));
      of.problems().forEach(p -> all.add(onMachine(m, p)));
    }
    return new Outcome(file, fleet.name(), values, results, all);
  }

  private Problem onMachine(Machine m, Problem p) {
    String source = p.source().equals(file) ? "" : p.source();
    String place = ("machine " + m.id() + " " + source + " " + p.place()).replaceAll(" +", " ");
    return new Problem(file, place.strip(), p.value(), p.expected());
  }
}
