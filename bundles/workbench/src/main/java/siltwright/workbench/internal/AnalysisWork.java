package siltwright.workbench.internal;

import java.nio.file.Path;
import java.util.List;
import java.util.Optional;
import java.util.concurrent.atomic.AtomicIntegerArray;
import java.util.function.Function;
import java.util.stream.IntStream;
import siltwright.analysis.Analysis;
import siltwright.analysis.Context;
import siltwright.analysis.Description;
import siltwright.analysis.EachMachine;
import siltwright.analysis.EachMachine.Outcome;
import siltwright.analysis.FleetFileParameter;
import siltwright.analysis.Progress;
import siltwright.analysis.Result;
import siltwright.analysis.Values;
import siltwright.exchange.FurtherTables;
import siltwright.exchange.RecordsReader;
import siltwright.model.Fleet;
import siltwright.model.Machine;
import siltwright.workbench.Scenario;

/** The long work of a pane of an analysis; knows nothing of Swing. */
final class AnalysisWork {
  private AnalysisWork() {}

  /**
   * What came of a run.
   *
   * @param outcomes results and refusals
   * @param ranOn what it ran on with success, in order
   */
  record Answer(List<Outcome> outcomes, List<Context> ranOn) {}

  /**
   * Returns the work that gives one result.
   *
   * @param now what the window is about; has what the scope of the analysis asks for
   * @param records the table, where the analysis is one of records
   */
  static Function<Progress, Answer> of(
      Analysis analysis, Scenario now, Optional<Path> records, Values values) {
    Description description = analysis.description();
    Machine machine = now.machine().orElse(null);
    Path table = records.orElse(null);
    boolean withFleet =
        description.parameters().stream()
            .anyMatch(p -> p instanceof FleetFileParameter && values.find(p).isPresent());
    return progress -> {
      Context context =
          switch (description.scope()) {
            case NONE -> Context.NONE;
            case MACHINE -> Context.of(now.fleet().orElseThrow(), machine);
            case FLEET ->
                Context.of(now.fleet().orElseThrow(), FurtherTables.named(description, values));
            case HISTORY -> throw new IllegalStateException("no stores here");
            case RECORDS ->
                Context.of(
                    RecordsReader.read(table, analysis.columns(values)),
                    now.fleet().filter(f -> withFleet),
                    FurtherTables.named(description, values),
                    FurtherTables.inFolder(description, values, records, analysis.columns(values)));
          };
      Result result = analysis.run(context, values, progress);
      result.figures(); // drawn here, not in the window's own thread
      return new Answer(
          List.of(new Outcome(machine, Optional.of(result), List.of())), List.of(context));
    };
  }

  /** Returns the work that gives a result, or a refusal, of each machine of a fleet. */
  static Function<Progress, Answer> ofEvery(Analysis analysis, Fleet fleet, Values values) {
    int n = fleet.machines().size();
    return progress -> {
      AtomicIntegerArray thousandths = new AtomicIntegerArray(n);
      List<Outcome> outcomes =
          EachMachine.run(
              analysis,
              fleet,
              values,
              i ->
                  (share, doing) -> {
                    thousandths.set(i, (int) (1000 * share));
                    double all =
                        IntStream.range(0, n).mapToDouble(thousandths::get).sum() / (1000.0 * n);
                    return progress.report(all, doing);
                  },
              Runtime.getRuntime().availableProcessors());
      return new Answer(
          outcomes,
          outcomes.stream()
              .filter(o -> o.result().isPresent())
              .map(o -> Context.of(fleet, o.machine()))
              .toList());
    };
  }
}
