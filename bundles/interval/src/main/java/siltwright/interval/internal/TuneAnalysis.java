package siltwright.interval.internal;

import org.osgi.annotation.bundle.Capability;
import org.osgi.service.component.annotations.Component;
import siltwright.analysis.Analysis;
import siltwright.analysis.Context;
import siltwright.analysis.Description;
import siltwright.analysis.NumberParameter;
import siltwright.analysis.Progress;
import siltwright.analysis.Result;
import siltwright.analysis.Scope;
import siltwright.analysis.Values;
import siltwright.analysis.WholeParameter;
import siltwright.interval.Tuning;
import siltwright.model.Machine;

/** The interval that costs least, for every procedure, with what it is worth. */
@Component
@Capability(namespace = "siltwright.command", name = "tune")
public final class TuneAnalysis implements Analysis {
  private static final NumberParameter HORIZON =
      NumberParameter.of(
          "horizon",
          "h",
          100,
          64_000,
          4000,
          "how far to look for an interval at first; further where the cost still falls there");
  private static final WholeParameter DRAWS =
      new WholeParameter(
          "draws", 0, 100_000, 100, "draws of the uncertain numbers; 0 leaves the band out");
  private static final WholeParameter SEED =
      new WholeParameter("seed", 0, Long.MAX_VALUE, 1, "seed of the draws: same seed, same band");
  private static final Description DESCRIPTION =
      Description.of(
          "tune",
          "Change interval",
          "Finds the interval that costs least for each way to change the element, and what it is"
              + " worth.",
          Scope.MACHINE,
          HORIZON,
          DRAWS,
          SEED);

  @Override
  public Description description() {
    return DESCRIPTION;
  }

  @Override
  public Result run(Context context, Values values, Progress progress) {
    Machine machine = context.machine();
    Tuning tuning =
        Tuning.of(
            machine,
            new Tuning.Settings(
                values.get(HORIZON), values.get(DRAWS).intValue(), values.get(SEED)),
            progress);
    Result.Builder result = Result.of(DESCRIPTION, machine, values);
    String currency = context.fleet().orElseThrow().currency();
    TuneTables tables = new TuneTables(tuning, currency);
    tables.addTo(result);
    result.figures(new TuneFigures(tuning, currency)::all);
    new TuneFindings(tuning, currency).addTo(result);
    return result.build();
  }
}
