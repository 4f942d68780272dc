package siltwright.restart.internal;

import static siltwright.analysis.Finding.Severity.CAUTION;
import static siltwright.analysis.Finding.Severity.NOTE;

import java.util.ArrayList;
import java.util.List;
import org.osgi.annotation.bundle.Capability;
import org.osgi.service.component.annotations.Component;
import siltwright.analysis.Analysis;
import siltwright.analysis.Axis;
import siltwright.analysis.Cell;
import siltwright.analysis.ChoiceParameter;
import siltwright.analysis.Context;
import siltwright.analysis.Description;
import siltwright.analysis.Entry;
import siltwright.analysis.Figure;
import siltwright.analysis.Layer;
import siltwright.analysis.NumberParameter;
import siltwright.analysis.Numbers;
import siltwright.analysis.Panel;
import siltwright.analysis.Progress;
import siltwright.analysis.RecordColumn;
import siltwright.analysis.Records;
import siltwright.analysis.Refusals;
import siltwright.analysis.Result;
import siltwright.analysis.Scope;
import siltwright.analysis.TextParameter;
import siltwright.analysis.Values;
import siltwright.model.Fleet;
import siltwright.model.InputException;
import siltwright.model.Machine;
import siltwright.model.Problem;
import siltwright.model.SizeBands;
import siltwright.restart.Bottle;
import siltwright.restart.CounterSeries;
import siltwright.restart.Doubt;
import siltwright.restart.Release;
import siltwright.restart.ReleaseFit;
import siltwright.restart.WashOut;
import siltwright.samples.BandCounts;
import siltwright.samples.CountError;
import siltwright.samples.OilRecords;

/** What a change let go, from the series of a counter in the line. */
@Component
@Capability(namespace = "siltwright.command", name = "counter")
public final class CounterAnalysis implements Analysis {
  private static final String TIME = "time";
  private static final TextParameter MACHINE =
      TextParameter.required("of", "the id of a machine", "machine of the fleet file");
  private static final ChoiceParameter UNIT =
      new ChoiceParameter("time-unit", List.of("s", "min", "h"), "min", "unit of the column time");
  private static final NumberParameter LAG =
      NumberParameter.of("lag-s", "s", 0, 3600, 30, "time from the tank to the reading");
  private static final NumberParameter MIXING =
      NumberParameter.of(
          "mixing-s",
          "s",
          0,
          3600,
          0,
          "time constant with which the sensor's line mixes; 0 for none");
  private static final NumberParameter COINCIDENCE =
      NumberParameter.of(
          "coincidence-nL",
          "nL",
          0,
          10_000,
          0,
          "volume in which the sensor takes two particles for one; 0 if it corrects this itself");
  private static final NumberParameter SAMPLED =
      NumberParameter.of(
          "sampled-mL-per-min", "mL/min", 0.1, 1e5, 100, "oil that passes the sensor");
  private static final NumberParameter CALIBRATION =
      NumberParameter.of(
          "calibration-error", "1", 0, 2, 0.2, "standard deviation of ln count of the instrument");

  private static final Description DESCRIPTION =
      Description.of(
          "counter",
          "Counter in the line",
          "Tells from the series of a particle counter after a restart how much dirt a change let go.",
          Scope.RECORDS,
          Grade.FLEET,
          MACHINE,
          RestartAnalysis.LIMIT,
          UNIT,
          LAG,
          MIXING,
          COINCIDENCE,
          SAMPLED,
          CALIBRATION);

  /** What the means of a series still have of their own. */
  private static final double MEAN_ERROR = 0.05;

  @Override
  public Description description() {
    return DESCRIPTION;
  }

  @Override
  public List<RecordColumn> columns(Values values) {
    List<RecordColumn> columns = new ArrayList<>();
    columns.add(
        RecordColumn.number(
            TIME, -1e7, 1e9, true, "running since the restart, rising; below 0 from before it"));
    for (int i = 0; i < SizeBands.COUNT; i++) {
      columns.add(
          RecordColumn.number(
              OilRecords.countColumn(i),
              0,
              1e9,
              i == 0,
              "particles per mL at or above " + SizeBands.edgeUmC(i) + " µm(c)"));
    }
    return columns;
  }

  @Override
  public Result run(Context context, Values values, Progress progress) {
    progress.check(0.05, "the series");
    Fleet fleet = Grade.fleet(context.fleet());
    String id = values.get(MACHINE);
    Machine machine =
        fleet
            .machine(id)
            .orElseThrow(
                () ->
                    new InputException(
                        new Problem(
                            "option",
                            "--of",
                            id,
                            "one of "
                                + String.join(
                                    ", ", fleet.machines().stream().map(Machine::id).toList()))));
    Records kept = sound(context.records().orElseThrow());
    double perUnit =
        values.get(UNIT).equals("s") ? 1 / 60.0 : values.get(UNIT).equals("h") ? 60 : 1;
    double[] time = kept.numbers(TIME).orElseThrow();
    double[] minutes = new double[time.length];
    double[][] perMl = new double[time.length][SizeBands.COUNT];
    for (int r = 0; r < time.length; r++) {
      minutes[r] = time[r] * perUnit;
      for (int i = 0; i < SizeBands.COUNT; i++) {
        double[] column = kept.numbers(OilRecords.countColumn(i)).orElse(null);
        perMl[r][i] = column == null ? Double.NaN : column[r];
      }
    }
    CounterSeries.Instrument instrument =
        new CounterSeries.Instrument(
            values.get(LAG) / 60,
            values.get(MIXING) / 60,
            values.get(COINCIDENCE) * 1e-6,
            values.get(SAMPLED));
    List<Bottle> bottles = CounterSeries.bottles(minutes, perMl, instrument);
    if (bottles.size() < 3) {
      throw new InputException(
          new Problem(
              kept.source(),
              "",
              bottles.size() + " means after the restart",
              "a series that goes on for more than the lag"));
    }
    progress.check(0.3, "fit");
    WashOut wash = WashOut.of(machine);
    CountError error =
        new CountError(values.get(CALIBRATION), MEAN_ERROR, MEAN_ERROR, values.get(SAMPLED));
    Release release = new ReleaseFit(wash, Doubt.of(machine), error).of(bottles);
    double limit = values.get(RestartAnalysis.LIMIT);
    Result.Builder result = Result.of(DESCRIPTION, id, values);
    result.records(kept);
    result.value("released_g", "Released", "g", release.medianG());
    result.add(
        new Entry.Value(
            "interval90_g",
            "90 % interval",
            "g",
            new Cell.Range(release.quantileG(0.05), release.quantileG(0.95))));
    result.value(
        "probability",
        "Probability of more than " + Numbers.text(limit) + " g",
        "1",
        release.probabilityAbove(limit));
    result.value("verdict", "Verdict", RestartAnalysis.verdict(release, limit));
    result.value("means", "Means that the series became", "1", bottles.size());
    result.value("misfit", "Mean squared residual", "1", release.misfit());
    result.add(figure(bottles));
    if (release.misfit() > 4) {
      result.finding(
          CAUTION,
          "The series does not follow a wash-out: air, a cold start past the bypass, or a lag or"
              + " volume other than said.",
          "");
    }
    if (bottles.get(bottles.size() - 1).minute() < wash.tauMin(0)) {
      result.finding(
          CAUTION,
          "The series ends after "
              + Numbers.text(bottles.get(bottles.size() - 1).minute())
              + " min, before the fine particles have washed out ("
              + Numbers.text(wash.tauMin(0))
              + " min): what the oil settles at is then the model's.",
          "");
    }
    result.finding(
        NOTE,
        "Values side by side are wrong together, so the series counts as "
            + bottles.size()
            + " means; the instrument's calibration is what limits it.",
        "");
    return result.build();
  }

  private static Records sound(Records table) {
    Refusals refusals = table.refusals();
    double[] time = table.numbers(TIME).orElseThrow();
    double[] least = table.numbers(OilRecords.countColumn(0)).orElseThrow();
    double before = Double.NEGATIVE_INFINITY;
    for (int i = 0; i < table.rows(); i++) {
      if (Double.isNaN(time[i])) {
        refusals.refuse(table.line(i), TIME, "", "a number");
      } else if (time[i] <= before) {
        refusals.refuse(
            table.line(i), TIME, table.find(TIME).orElseThrow().text(i), "more than before");
      } else if (Double.isNaN(least[i])) {
        refusals.refuse(table.line(i), OilRecords.countColumn(0), "", "a number");
      } else {
        before = time[i];
      }
    }
    Records kept = table.where(i -> !refusals.refused(table.line(i)), refusals);
    if (kept.rows() == 0) {
      List<Problem> problems = new ArrayList<>(refusals.listed());
      problems.add(new Problem(table.source(), "", "no sound row", "at least one"));
      throw new InputException(problems);
    }
    return kept;
  }

  private static Figure figure(List<Bottle> bottles) {
    List<Layer> layers = new ArrayList<>();
    BandCounts shape = bottles.get(0).counts();
    double[] t = bottles.stream().mapToDouble(Bottle::minute).toArray();
    for (int k = 0; k < Math.min(3, shape.bands()); k++) {
      int band = k;
      layers.add(
          new Layer.Line(
              SizeBands.edgeUmC(shape.first()[k])
                  + " to "
                  + SizeBands.edgeUmC(shape.last()[k] + 1)
                  + " µm(c)",
              t,
              bottles.stream().mapToDouble(b -> Math.max(b.counts().perMl()[band], 1e-3)).toArray(),
              Layer.Style.COMPARED));
    }
    return new Figure(
        "series",
        "Means of the series, put right",
        "Lag, mixing and coincidence are taken out.",
        Axis.log("Running since the restart", "min"),
        List.of(new Panel(Axis.log("Particles", "1/mL"), layers)));
  }
}
