package siltwright.element.internal;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import org.osgi.annotation.bundle.Capability;
import org.osgi.service.component.annotations.Component;
import siltwright.analysis.Analysis;
import siltwright.analysis.ChoiceParameter;
import siltwright.analysis.Context;
import siltwright.analysis.Description;
import siltwright.analysis.NumberParameter;
import siltwright.analysis.Progress;
import siltwright.analysis.RecordColumn;
import siltwright.analysis.Records;
import siltwright.analysis.RecordsFolderParameter;
import siltwright.analysis.Refusals;
import siltwright.analysis.Result;
import siltwright.analysis.Scope;
import siltwright.analysis.Values;
import siltwright.cleanliness.ViscosityLine;
import siltwright.element.BlockingFit;
import siltwright.element.DropLog;
import siltwright.element.EarlierRuns;
import siltwright.element.Incident;
import siltwright.element.LoadingRun;
import siltwright.element.Reference;
import siltwright.element.Remaining;
import siltwright.model.InputException;
import siltwright.model.Problem;

/** How long an element will still do, from a log of its pressure drop. */
@Component
@Capability(namespace = "siltwright.command", name = "element")
public final class ElementAnalysis implements Analysis {
  private static final String TIME = "time";
  private static final String DROP = "deltaP_kPa";
  private static final String FLOW = "flow_L_per_min";
  private static final String TEMPERATURE = "oil_degC";
  private static final String FEED = "feed";

  static final NumberParameter LIMIT =
      new NumberParameter(
          "limit-kPa",
          "kPa",
          1e-3,
          1e5,
          Optional.empty(),
          true,
          "pressure drop at which the element is done, at the log's median flow and oil temperature");
  static final ChoiceParameter UNIT =
      new ChoiceParameter(
          "time-unit", List.of("h", "min", "s", "d"), "h", "unit of the column time");
  static final RecordsFolderParameter TRAIN =
      new RecordsFolderParameter(
          "train", "folder of logs of earlier elements of this kind that ran to the limit");
  static final NumberParameter CLEAN =
      NumberParameter.optional(
          "clean-kPa",
          "kPa",
          1e-4,
          1e5,
          "pressure drop of a clean element at the same flow and temperature; the log's first rows"
              + " or the earlier logs tell it if not given");
  static final NumberParameter FUTURE =
      NumberParameter.optional(
          "future-feed",
          "1",
          1e-9,
          1e9,
          "feed to come, in the unit of the column feed; that of the log's last quarter if not"
              + " given");
  static final NumberParameter SPREAD =
      NumberParameter.of(
          "future-factor",
          "1",
          1,
          10,
          1,
          "factor within which the duty to come is known: 95 % of the chance lies between it over"
              + " and times this; 1 takes it as certain");
  static final NumberParameter AT40 =
      NumberParameter.of(
          "viscosity-40",
          "mm²/s",
          2,
          3000,
          46,
          "viscosity of the oil at 40 °C, where oil_degC is logged");
  static final NumberParameter AT100 =
      NumberParameter.of("viscosity-100", "mm²/s", 1, 500, 6.8, "viscosity of the oil at 100 °C");

  static final Description DESCRIPTION =
      Description.of(
          "element",
          "Remaining element life",
          "Tells from a log of pressure drops when an element reaches a limit, and how sure that is.",
          Scope.RECORDS,
          LIMIT,
          UNIT,
          TRAIN,
          CLEAN,
          FUTURE,
          SPREAD,
          AT40,
          AT100);

  @Override
  public Description description() {
    return DESCRIPTION;
  }

  @Override
  public List<RecordColumn> columns(Values values) {
    return List.of(
        RecordColumn.number(TIME, -1e12, 1e12, true, "time in --time-unit, rising"),
        RecordColumn.number(DROP, -1e4, 1e5, true, "pressure drop over the filter, kPa"),
        RecordColumn.number(FLOW, 0, 1e6, false, "flow through the filter, L/min"),
        RecordColumn.number(TEMPERATURE, -60, 250, false, "oil temperature, °C"),
        RecordColumn.number(FEED, 0, 1e12, false, "dirt coming in per unit of time, any unit"));
  }

  @Override
  public Result run(Context context, Values values, Progress progress) {
    progress.check(0.05, "the log");
    ViscosityLine oil = oil(values);
    Sound sound = Sound.of(context.records().orElseThrow());
    Reference reference = Reference.medianOf(sound.log(), oil);
    double limit = values.get(LIMIT);
    List<LoadingRun> runs = new ArrayList<>();
    List<Records> others = context.others();
    for (int i = 0; i < others.size(); i++) {
      progress.check(0.1 + 0.5 * i / others.size(), "earlier logs");
      DropLog log = Sound.of(others.get(i)).log();
      if (log.feed().length > 0 == sound.log().feed().length > 0) {
        runs.add(LoadingRun.of(log, reference));
      }
    }
    progress.check(0.6, "what earlier logs say");
    Optional<EarlierRuns> earlier =
        runs.isEmpty() ? Optional.empty() : Optional.of(EarlierRuns.of(runs, limit));
    OptionalDouble clean =
        values
            .find(CLEAN)
            .map(OptionalDouble::of)
            .orElseGet(
                () ->
                    earlier.isPresent() && earlier.get().enough()
                        ? OptionalDouble.of(earlier.get().cleanKPa())
                        : OptionalDouble.empty());
    progress.check(0.8, "incidents");
    List<Incident> incidents = Incident.in(sound.log(), reference, clean);
    int from =
        incidents.stream()
            .filter(i -> i.kind() == Incident.Kind.CHANGE)
            .mapToInt(Incident::row)
            .max()
            .orElse(0);
    DropLog log = sound.log().from(from);
    double start = from == 0 ? 0 : log.times()[0];
    LoadingRun run =
        LoadingRun.of(
            new DropLog(
                log.name(),
                Arrays.stream(log.times()).map(t -> t - start).toArray(),
                log.dropKPa(),
                log.flowLPerMin(),
                log.oilDegC(),
                log.feed()),
            reference);
    if (run.rows() < 3) {
      throw new InputException(
          new Problem(
              sound.kept().source(),
              "",
              run.rows() + " rows with flow since the element was fitted",
              "at least 3"));
    }
    Forecast forecast =
        Forecast.of(run, earlier, limit, values.find(FUTURE), values.get(SPREAD), start);
    progress.check(0.95, "tables");
    Result.Builder result = Result.of(DESCRIPTION, sound.kept().source(), values);
    result.records(sound.kept());
    new ElementReport(
            forecast, sound.log(), reference, incidents, clean, values, others.size(), runs.size())
        .addTo(result);
    return result.build();
  }

  private static ViscosityLine oil(Values values) {
    double at40 = values.get(AT40);
    double at100 = values.get(AT100);
    if (!(at100 < at40)) {
      throw new InputException(
          new Problem(
              "option",
              "--viscosity-100",
              values.asTexts().get("viscosity-100"),
              "less than --viscosity-40"));
    }
    return ViscosityLine.through(40, at40, 100, at100);
  }

  /** The sound rows of a table and the log they make. */
  private record Sound(Records kept, DropLog log) {
    static Sound of(Records table) {
      Refusals refusals = table.refusals();
      double[] time = table.numbers(TIME).orElseThrow();
      double[] drop = table.numbers(DROP).orElseThrow();
      double before = Double.NEGATIVE_INFINITY;
      for (int i = 0; i < table.rows(); i++) {
        if (Double.isNaN(time[i])) {
          refusals.refuse(table.line(i), TIME, "", "a number");
        } else if (time[i] <= before) {
          refusals.refuse(
              table.line(i),
              TIME,
              table.find(TIME).orElseThrow().text(i),
              "more than in the row before, " + before);
        } else if (Double.isNaN(drop[i])) {
          refusals.refuse(table.line(i), DROP, "", "a number");
        } else {
          before = time[i];
        }
      }
      Records kept = table.where(i -> !refusals.refused(table.line(i)), refusals);
      if (kept.rows() < 3) {
        List<Problem> problems = new ArrayList<>(refusals.listed());
        problems.add(
            new Problem(table.source(), "", kept.rows() + " sound rows", "at least three"));
        throw new InputException(problems);
      }
      return new Sound(
          kept,
          new DropLog(
              kept.source(),
              kept.numbers(TIME).orElseThrow(),
              kept.numbers(DROP).orElseThrow(),
              column(kept, FLOW),
              column(kept, TEMPERATURE),
              column(kept, FEED)));
    }

    private static double[] column(Records kept, String name) {
      double[] none = {};
      return kept.numbers(name)
          .filter(v -> Arrays.stream(v).anyMatch(x -> !Double.isNaN(x)))
          .orElse(none);
    }
  }

  /**
   * What is to come.
   *
   * @param run the element's run so far
   * @param limitKPa limit
   * @param fit the blocking law through it
   * @param earlier earlier runs, where there are enough
   * @param remaining time left, in the log's unit
   * @param feed feed to come
   * @param startTime time at which the element was fitted, in the log's own count
   * @param reached whether the limit is reached
   */
  record Forecast(
      LoadingRun run,
      double limitKPa,
      BlockingFit fit,
      Optional<EarlierRuns> earlier,
      Remaining remaining,
      double feed,
      double startTime,
      boolean reached) {
    static Forecast of(
        LoadingRun run,
        Optional<EarlierRuns> all,
        double limitKPa,
        Optional<Double> future,
        double spread,
        double startTime) {
      int last = run.rows() - 1;
      Optional<EarlierRuns> earlier = all.filter(EarlierRuns::enough);
      BlockingFit fit =
          earlier
              .map(e -> BlockingFit.of(run, last, e.exponent(), e.exponentSd()))
              .orElseGet(() -> BlockingFit.of(run));
      boolean reached = run.level(last) >= limitKPa;
      Remaining mass =
          reached
              ? Remaining.NONE
              : earlier
                  .map(e -> e.remaining(run, last))
                  .orElseGet(() -> fit.between(run.level(last), limitKPa));
      double feed = future.filter(f -> run.fed()).orElse(run.feed());
      return new Forecast(
          run,
          limitKPa,
          fit,
          earlier,
          mass.atFeed(feed).withFeedSpread(spread),
          feed,
          startTime,
          reached);
    }
  }
}
