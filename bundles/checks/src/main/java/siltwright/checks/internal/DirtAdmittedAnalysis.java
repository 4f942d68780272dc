package siltwright.checks.internal;

import static siltwright.analysis.Finding.Severity.CAUTION;
import static siltwright.analysis.Finding.Severity.NOTE;

import java.util.List;
import java.util.Optional;
import org.osgi.annotation.bundle.Capability;
import org.osgi.service.component.annotations.Component;
import siltwright.analysis.Analysis;
import siltwright.analysis.Cell;
import siltwright.analysis.Context;
import siltwright.analysis.Description;
import siltwright.analysis.Entry;
import siltwright.analysis.NumberParameter;
import siltwright.analysis.Progress;
import siltwright.analysis.Result;
import siltwright.analysis.Scope;
import siltwright.analysis.Values;
import siltwright.checks.OpenTank;
import siltwright.cleanliness.Iso4406;
import siltwright.contamination.Circuit;
import siltwright.model.Bands;
import siltwright.model.IngressSource;
import siltwright.model.InputException;
import siltwright.model.Machine;
import siltwright.model.Problem;

/** The dirt that an opening left uncovered lets in, and what it makes of the oil. */
@Component
@Capability(namespace = "siltwright.command", name = "dirt-admitted")
public final class DirtAdmittedAnalysis implements Analysis {
  private static final NumberParameter AREA =
      NumberParameter.of("opening", "cm²", 1, 10_000, 180, "area left uncovered");
  private static final NumberParameter TIME =
      NumberParameter.of("time", "min", 0.5, 1440, 20, "time uncovered");
  private static final NumberParameter LEAST_DUST =
      NumberParameter.of("least-dust", "mg/m³", 0.01, 1000, 0.3, "dust in the air, at least");
  private static final NumberParameter MOST_DUST =
      NumberParameter.of("most-dust", "mg/m³", 0.01, 1000, 10, "dust in the air, at most");
  private static final NumberParameter LEAST_SIZE =
      NumberParameter.of("least-size", "µm", 4, 100, 10, "size of that dust by mass, at least");
  private static final NumberParameter MOST_SIZE =
      NumberParameter.of("most-size", "µm", 4, 100, 50, "size of that dust by mass, at most");

  private static final Description DESCRIPTION =
      Description.of(
          "dirt-admitted",
          "Open tank: dirt let in",
          "Tells how much dust settles into an opening left uncovered, as a range, and what code it"
              + " gives the oil.",
          Scope.MACHINE,
          AREA,
          TIME,
          LEAST_DUST,
          MOST_DUST,
          LEAST_SIZE,
          MOST_SIZE);

  @Override
  public Description description() {
    return DESCRIPTION;
  }

  @Override
  public Result run(Context context, Values values, Progress progress) {
    below(LEAST_DUST, MOST_DUST, values);
    below(LEAST_SIZE, MOST_SIZE, values);
    Machine machine = context.machine();
    progress.check(0, machine.id());
    double least = mg(values, LEAST_DUST, LEAST_SIZE);
    double most = mg(values, MOST_DUST, MOST_SIZE);
    Bands clean = Circuit.of(machine).steadyPerMl(0);
    Result.Builder result =
        Result.of(DESCRIPTION, machine, values)
            .add(new Entry.Value("admitted_mg", "Dust let in", "mg", new Cell.Range(least, most)))
            .value(
                "codeBefore", "Oil before, with a clean element", Iso4406.code(clean).toString());
    Optional<Bands> dust = dust(machine);
    dust.ifPresent(
        perG -> {
          result.value("codeLeast", "Oil afterwards, at least", code(machine, clean, perG, least));
          result.value("codeMost", "Oil afterwards, at most", code(machine, clean, perG, most));
        });
    if (dust.isEmpty()) {
      result.finding(
          CAUTION,
          "The machine's file names no ingress into the tank, so the dust's sizes are not known and"
              + " no code is told.",
          "ingress");
    }
    result
        .finding(
            CAUTION,
            "Poorly known: the two ends differ by a factor of "
                + Math.round(most / least)
                + ". Wind, work overhead and what falls from gloves, rags and the rim are not in"
                + " it.",
            "admitted_mg")
        .finding(
            NOTE,
            "It goes through the pump before any filter sees it. Cover the opening; it costs"
                + " nothing.",
            "opening")
        .finding(NOTE, Cautions.MANUAL, "");
    return result.build();
  }

  private static double mg(Values values, NumberParameter dust, NumberParameter size) {
    return new OpenTank(values.get(dust), values.get(AREA), values.get(TIME))
        .admittedMg(values.get(size));
  }

  private static void below(NumberParameter low, NumberParameter high, Values values) {
    if (values.get(low) > values.get(high)) {
      throw new InputException(
          new Problem(
              "option",
              "--" + low.name(),
              values.get(low).toString(),
              "at most --" + high.name() + ", " + values.get(high)));
    }
  }

  /** Particles in a gram of the dust that gets into the tank by itself. */
  private static Optional<Bands> dust(Machine machine) {
    List<IngressSource> sources = machine.ingress().reservoir();
    return sources.stream().findFirst().map(s -> s.distribution().particlesPerG());
  }

  private static String code(Machine machine, Bands clean, Bands perG, double mg) {
    double perMl = mg / 1000 / (machine.reservoir().volumeL() * 1000);
    return Iso4406.code(clean.plus(perG.times(perMl))).toString();
  }
}
