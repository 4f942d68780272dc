package siltwright.contamination.internal;

import java.util.stream.Collectors;
import org.osgi.annotation.bundle.Capability;
import org.osgi.service.component.annotations.Component;
import siltwright.analysis.Analysis;
import siltwright.analysis.Context;
import siltwright.analysis.Description;
import siltwright.analysis.NumberParameter;
import siltwright.analysis.Progress;
import siltwright.analysis.Result;
import siltwright.analysis.Scope;
import siltwright.analysis.TextParameter;
import siltwright.analysis.Values;
import siltwright.analysis.WholeParameter;
import siltwright.contamination.Simulation;
import siltwright.model.ChangeProcedure;
import siltwright.model.InputException;
import siltwright.model.Machine;
import siltwright.model.Problem;

/** Cleanliness, pressure drop and load of a machine from change to change. */
@Component
@Capability(namespace = "siltwright.command", name = "simulate")
public final class SimulateAnalysis implements Analysis {
  private static final TextParameter PROCEDURE =
      TextParameter.optional(
          "procedure",
          "the id of a change procedure of the file",
          "how the element is changed; today's procedure when left out");
  private static final NumberParameter INTERVAL =
      NumberParameter.optional(
          "interval",
          "h",
          0.1,
          100_000,
          "hours from change to change; today's interval when left out");
  private static final WholeParameter CYCLES =
      new WholeParameter("cycles", 1, 1000, 4, "how many cycles follow each other");
  private static final Description DESCRIPTION =
      Description.of(
          "simulate",
          "Contamination from change to change",
          "How clean is the oil, how loaded the element and what does a change release, cycle by"
              + " cycle?",
          Scope.MACHINE,
          PROCEDURE,
          INTERVAL,
          CYCLES);

  @Override
  public Description description() {
    return DESCRIPTION;
  }

  @Override
  public Result run(Context context, Values values, Progress progress) {
    Machine machine = context.machine();
    ChangeProcedure procedure =
        procedure(machine, values.find(PROCEDURE).orElse(machine.today().procedure()));
    double intervalH = values.find(INTERVAL).orElse(machine.today().intervalH());
    Simulation simulation = Simulation.of(machine, procedure);
    Simulation.Run run = simulation.run(intervalH, Math.toIntExact(values.get(CYCLES)), progress);

    Result.Builder result = Result.of(DESCRIPTION, machine, values);
    result.value("procedure", "Procedure", procedure.id());
    result.value("interval_h", "Interval", "h", intervalH);
    SimulateTables tables = new SimulateTables(machine);
    result.add(tables.cycles(run.cycles()));
    result.add(tables.series("series", "Course over all cycles", run.moments()));
    result.add(tables.series("washOut", "Minutes after the last change", run.washOut()));
    SimulateFigures figures = new SimulateFigures(machine);
    result.add(figures.course(run.moments()));
    result.add(figures.washOut(run.washOut()));
    new SimulateFindings(machine, simulation.circuit()).add(run.cycles(), result);
    return result.build();
  }

  private static ChangeProcedure procedure(Machine machine, String id) {
    return machine
        .procedure(id)
        .orElseThrow(
            () ->
                new InputException(
                    new Problem(
                        "option",
                        "--" + PROCEDURE.name(),
                        id,
                        "one that the housing of "
                            + machine.id()
                            + " ("
                            + machine.returnFilter().housing().word()
                            + ") allows: "
                            + machine.procedures().stream()
                                .map(ChangeProcedure::id)
                                .collect(Collectors.joining(", ")))));
  }
}
