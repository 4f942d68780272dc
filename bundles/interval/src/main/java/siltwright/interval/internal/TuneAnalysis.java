package siltwright.interval.internal;

import org.osgi.annotation.bundle.Capability;
import org.osgi.service.component.annotations.Component;
import siltwright.analysis.Analysis;
import siltwright.analysis.Context;
import siltwright.analysis.Description;
import siltwright.analysis.Progress;
import siltwright.analysis.Result;
import siltwright.analysis.Scope;
import siltwright.analysis.Values;
import siltwright.interval.Tuning;
import siltwright.interval.TuningParameters;
import siltwright.model.Machine;

/** The interval that costs least, for every procedure, with what it is worth. */
@Component
@Capability(namespace = "siltwright.command", name = "tune")
public final class TuneAnalysis implements Analysis {
  private static final Description DESCRIPTION =
      Description.of(
          "tune",
          "Change interval",
          "Finds the interval that costs least for each way to change the element, and what it is"
              + " worth.",
          Scope.MACHINE,
          TuningParameters.HORIZON,
          TuningParameters.DRAWS,
          TuningParameters.SEED);

  @Override
  public Description description() {
    return DESCRIPTION;
  }

  @Override
  public Result run(Context context, Values values, Progress progress) {
    Machine machine = context.machine();
    Tuning tuning = Tuning.of(machine, TuningParameters.of(values), progress);
    Result.Builder result = Result.of(DESCRIPTION, machine, values);
    String currency = context.fleet().orElseThrow().currency();
    TuneTables tables = new TuneTables(tuning, currency);
    tables.addTo(result);
    result.figures(new TuneFigures(tuning, currency)::all);
    new TuneFindings(tuning, currency).addTo(result);
    return result.build();
  }
}
