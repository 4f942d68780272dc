package siltwright.samples.internal;

import static siltwright.analysis.Finding.Severity.CAUTION;
import static siltwright.analysis.Finding.Severity.NOTE;
import static siltwright.analysis.Finding.Severity.WARNING;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Optional;
import org.osgi.annotation.bundle.Capability;
import org.osgi.service.component.annotations.Component;
import siltwright.analysis.Analysis;
import siltwright.analysis.Axis;
import siltwright.analysis.Cell;
import siltwright.analysis.Context;
import siltwright.analysis.Description;
import siltwright.analysis.Entry;
import siltwright.analysis.Entry.Column;
import siltwright.analysis.Figure;
import siltwright.analysis.FleetFileParameter;
import siltwright.analysis.Layer;
import siltwright.analysis.NumberParameter;
import siltwright.analysis.Numbers;
import siltwright.analysis.Panel;
import siltwright.analysis.Progress;
import siltwright.analysis.RecordColumn;
import siltwright.analysis.Result;
import siltwright.analysis.Scope;
import siltwright.analysis.TextParameter;
import siltwright.analysis.Values;
import siltwright.analysis.WholeParameter;
import siltwright.cleanliness.Iso4406;
import siltwright.model.CleanlinessCode;
import siltwright.model.InputException;
import siltwright.model.Machine;
import siltwright.model.Problem;
import siltwright.samples.ChangePoints;
import siltwright.samples.ControlChart;
import siltwright.samples.CountError;
import siltwright.samples.CountErrorParameters;
import siltwright.samples.OilRecord;
import siltwright.samples.OilRecords;
import siltwright.samples.SampleCheck;
import siltwright.samples.SampleLimit;
import siltwright.samples.Trend;

/** Trends of oil samples, machine by machine. */
@Component
@Capability(namespace = "siltwright.command", name = "samples")
public final class SamplesAnalysis implements Analysis {
  private static final FleetFileParameter FLEET =
      new FleetFileParameter(
          "fleet", "fleet file with targets and sampling limits of the machines; it is only read");
  private static final TextParameter TARGET =
      TextParameter.optional(
          "target", "a code such as 18/16/13", "target code where the fleet file has none");
  private static final NumberParameter FALSE_ALARMS =
      NumberParameter.of(
          "false-alarms",
          "1",
          0.001,
          0.2,
          0.01,
          "share of machines without any change in which a change of level may be told");
  private static final WholeParameter BASE =
      new WholeParameter("base", 4, 100, 8, "first samples that the control chart holds others to");
  private static final NumberParameter EARLIEST =
      NumberParameter.of(
          "earliest-min",
          "min",
          0,
          600,
          3,
          "minutes after a restart before which oil is not mixed");
  private static final WholeParameter SEED =
      new WholeParameter("seed", 0, Long.MAX_VALUE, 1, "seed of the random orders");

  private static final Description DESCRIPTION =
      Description.of(
          "samples",
          "Oil samples",
          "Shows cleanliness, metals and water over hours, what changed, and which samples to doubt.",
          Scope.RECORDS,
          FLEET,
          TARGET,
          FALSE_ALARMS,
          BASE,
          EARLIEST,
          SEED,
          CountErrorParameters.BOTTLE,
          CountErrorParameters.SIZE);

  private static final int MOST_FIGURES = 16;
  private static final double SURE = 0.01;
  private static final double PER_H = 1000;
  private static final int LEAST_FOR_METALS = 5;

  @Override
  public Description description() {
    return DESCRIPTION;
  }

  @Override
  public List<RecordColumn> columns(Values values) {
    return OilRecords.columns();
  }

  @Override
  public Result run(Context context, Values values, Progress progress) {
    progress.check(0.02, "the table");
    Optional<CleanlinessCode> target = values.find(TARGET).map(SamplesAnalysis::target);
    OilRecords records = OilRecords.of(context.records().orElseThrow());
    CountError error =
        new CountError(
            0,
            values.get(CountErrorParameters.BOTTLE),
            values.get(CountErrorParameters.SIZE),
            CountError.STANDARD.volumeMl());
    List<MachineTrend> all = new ArrayList<>();
    for (String id : records.machines()) {
      progress.check(0.05 + 0.8 * all.size() / records.machines().size(), "machine " + id);
      Optional<Machine> machine = context.fleet().flatMap(f -> f.machine(id));
      all.add(
          MachineTrend.of(
              id,
              records.of(id),
              SampleLimit.of(machine, target),
              error,
              values.get(EARLIEST),
              values.get(BASE).intValue(),
              values.get(FALSE_ALARMS),
              values.get(SEED)));
    }
    Result.Builder result = Result.of(DESCRIPTION, records.kept().source(), values);
    result.records(records.kept());
    result.add(machines(all));
    limits(all).ifPresent(result::add);
    suspicious(all).ifPresent(result::add);
    changes(all).ifPresent(result::add);
    signals(all).ifPresent(result::add);
    measures(all).ifPresent(result::add);
    result.add(series(all));
    result.figures(
        () ->
            all.stream()
                .filter(m -> m.logs().length > 1)
                .limit(MOST_FIGURES)
                .map(SamplesAnalysis::figure)
                .toList());
    findings(result, all, values);
    return result.build();
  }

  private static CleanlinessCode target(String text) {
    try {
      return CleanlinessCode.parse(text);
    } catch (IllegalArgumentException e) {
      throw new InputException(new Problem("option", "--target", text, "a code such as 18/16/13"));
    }
  }

  private static Cell date(OilRecord r) {
    return r.word("date").isEmpty() ? new Cell.None() : Cell.of(r.word("date"));
  }

  /** Change of a logarithm over 1000 h in percent. */
  private static double percent(Trend trend) {
    return 100 * Math.expm1(trend.slope() * PER_H);
  }

  private static Entry.Table machines(List<MachineTrend> all) {
    List<List<Cell>> rows = new ArrayList<>();
    for (MachineTrend m : all) {
      rows.add(
          List.of(
              Cell.of(m.machine()),
              Cell.of(m.samples().size()),
              m.last().map(r -> Cell.of(r.hours())).orElseGet(Cell.None::new),
              m.last().map(SamplesAnalysis::date).orElseGet(Cell.None::new),
              m.last().map(r -> Cell.of(r.codeText())).orElseGet(Cell.None::new),
              Cell.of(
                  m.last().isEmpty() || m.limits().isEmpty()
                      ? "no limit"
                      : m.exceeded().map(l -> "over " + l.kind()).orElse("within")),
              Cell.of(percent(m.trend())),
              Cell.of(m.trend().pValue()),
              Cell.of(m.changes().size()),
              Cell.of(m.chart().map(c -> (double) c.signals().size()).orElse(Double.NaN)),
              Cell.of(m.checks().size())));
    }
    return new Entry.Table(
        "machines",
        "Samples in running",
        Entry.Use.READ,
        List.of(
            new Column("machine", "Machine", ""),
            new Column("samples", "Samples", "1"),
            new Column("last_h", "Last at", "h"),
            new Column("lastDate", "Date", ""),
            new Column("lastCode", "Last code", ""),
            new Column("state", "State", ""),
            new Column("trend_percent", "Count at 6 µm(c), in 1000 h", "%"),
            new Column("pValue", "p", "1"),
            new Column("changes", "Changes of level", "1"),
            new Column("signals", "Signals of chart", "1"),
            new Column("suspicious", "Suspicious", "1")),
        rows);
  }

  private static Optional<Entry.Table> limits(List<MachineTrend> all) {
    List<List<Cell>> rows = new ArrayList<>();
    for (MachineTrend m : all) {
      for (SampleLimit l : m.limits()) {
        rows.add(
            List.of(
                Cell.of(m.machine()),
                Cell.of(l.kind()),
                Cell.of(l.code().toString()),
                Cell.of(l.reason())));
      }
    }
    return rows.isEmpty()
        ? Optional.empty()
        : Optional.of(
            new Entry.Table(
                "limits",
                "Limits and why",
                Entry.Use.READ,
                List.of(
                    new Column("machine", "Machine", ""),
                    new Column("kind", "Limit", ""),
                    new Column("code", "Code", ""),
                    new Column("reason", "Reason", "")),
                rows));
  }

  private static Optional<Entry.Table> suspicious(List<MachineTrend> all) {
    List<List<Cell>> rows = new ArrayList<>();
    for (MachineTrend m : all) {
      for (SampleCheck c : m.checks()) {
        rows.add(
            List.of(
                Cell.of(c.record().line()),
                Cell.of(m.machine()),
                Cell.of(c.record().hours()),
                date(c.record()),
                Cell.of(word(c.kind())),
                Cell.of(c.text()),
                Cell.of(SampleCheck.doubtful(c.record(), m.checks()) ? "left out" : "kept")));
      }
    }
    return rows.isEmpty()
        ? Optional.empty()
        : Optional.of(
            new Entry.Table(
                "suspicious",
                "Samples to doubt",
                Entry.Use.READ,
                List.of(
                    new Column("row", "Row", "1"),
                    new Column("machine", "Machine", ""),
                    new Column("at_h", "At", "h"),
                    new Column("date", "Date", ""),
                    new Column("kind", "What", ""),
                    new Column("found", "Found", ""),
                    new Column("used", "In the trends", "")),
                rows));
  }

  private static String word(SampleCheck.Kind kind) {
    return switch (kind) {
      case ORDER -> "order of counts";
      case UNIT -> "unit";
      case CODE -> "code against counts";
      case EARLY -> "too early";
      case SHAPE -> "sizes";
    };
  }

  private static Optional<Entry.Table> changes(List<MachineTrend> all) {
    List<List<Cell>> rows = new ArrayList<>();
    for (MachineTrend m : all) {
      for (ChangePoints.Change c : m.changes()) {
        rows.add(
            List.of(
                Cell.of(m.machine()),
                Cell.of(m.hours()[c.first() - 1]),
                Cell.of(m.hours()[c.first()]),
                date(m.samples().get(c.first() - 1)),
                date(m.samples().get(c.first())),
                Cell.of(Math.exp(c.before())),
                Cell.of(Math.exp(c.behind())),
                Cell.of(c.pValue())));
      }
    }
    return rows.isEmpty()
        ? Optional.empty()
        : Optional.of(
            new Entry.Table(
                "changes",
                "Changes of level of the count at 6 µm(c)",
                Entry.Use.READ,
                List.of(
                    new Column("machine", "Machine", ""),
                    new Column("from_h", "Between", "h"),
                    new Column("to_h", "and", "h"),
                    new Column("fromDate", "That is", ""),
                    new Column("toDate", "and", ""),
                    new Column("before_per_mL", "Before", "1/mL"),
                    new Column("behind_per_mL", "Behind", "1/mL"),
                    new Column("pValue", "p", "1")),
                rows));
  }

  private static Optional<Entry.Table> signals(List<MachineTrend> all) {
    List<List<Cell>> rows = new ArrayList<>();
    for (MachineTrend m : all) {
      ControlChart chart = m.chart().orElse(null);
      if (chart == null) {
        continue;
      }
      for (int i : chart.signals()) {
        boolean beyond = Math.abs(m.logs()[i] - chart.centre()) > 3 * chart.sigma();
        rows.add(
            List.of(
                Cell.of(m.machine()),
                Cell.of(m.hours()[i]),
                date(m.samples().get(i)),
                Cell.of(Math.exp(m.logs()[i])),
                new Cell.Range(Math.exp(chart.lower()), Math.exp(chart.upper())),
                Cell.of(beyond ? "outside" : "eighth in a row on one side")));
      }
    }
    return rows.isEmpty()
        ? Optional.empty()
        : Optional.of(
            new Entry.Table(
                "signals",
                "Signals of the control charts",
                Entry.Use.READ,
                List.of(
                    new Column("machine", "Machine", ""),
                    new Column("at_h", "At", "h"),
                    new Column("date", "Date", ""),
                    new Column("count_per_mL", "Count at 6 µm(c)", "1/mL"),
                    new Column("limits_per_mL", "Limits", "1/mL"),
                    new Column("signal", "Signal", "")),
                rows));
  }

  /** Metals and water: last value, trend, and whether they go with the counts. */
  private static Optional<Entry.Table> measures(List<MachineTrend> all) {
    List<List<Cell>> rows = new ArrayList<>();
    for (MachineTrend m : all) {
      for (String name : OilRecords.measures()) {
        List<OilRecord> with =
            m.samples().stream().filter(r -> r.numbers().containsKey(name)).toList();
        if (with.size() < LEAST_FOR_METALS) {
          continue;
        }
        double[] hours = with.stream().mapToDouble(OilRecord::hours).toArray();
        double[] y = with.stream().mapToDouble(r -> r.numbers().get(name)).toArray();
        double[] logs =
            with.stream().mapToDouble(r -> Math.log(r.countAt(MachineTrend.AT6))).toArray();
        Trend t = Trend.of(hours, y);
        rows.add(
            List.of(
                Cell.of(m.machine()),
                Cell.of(name.replace("_ppm", "")),
                Cell.of(y[y.length - 1]),
                Cell.of(t.slope() * PER_H),
                Cell.of(t.pValue()),
                Cell.of(Trend.correlation(logs, y))));
      }
    }
    return rows.isEmpty()
        ? Optional.empty()
        : Optional.of(
            new Entry.Table(
                "measures",
                "Metals and water",
                Entry.Use.READ,
                List.of(
                    new Column("machine", "Machine", ""),
                    new Column("measure", "Measure", ""),
                    new Column("last_ppm", "Last", "ppm"),
                    new Column("trend_ppm", "In 1000 h", "ppm"),
                    new Column("pValue", "p", "1"),
                    new Column("withCounts", "Rank correlation with counts", "1")),
                rows));
  }

  private static Entry.Table series(List<MachineTrend> all) {
    List<List<Cell>> rows = new ArrayList<>();
    for (MachineTrend m : all) {
      for (OilRecord r : m.samples()) {
        rows.add(
            List.of(
                Cell.of(m.machine()),
                Cell.of(r.hours()),
                Cell.of(r.word("date")),
                Cell.of(r.codeText()),
                Cell.of(r.countAt(MachineTrend.AT6))));
      }
    }
    return new Entry.Table(
        "series",
        "Sound samples in running",
        Entry.Use.DATA,
        List.of(
            new Column("machine", "Machine", ""),
            new Column("at_h", "At", "h"),
            new Column("date", "Date", ""),
            new Column("code", "Code", ""),
            new Column("count6_per_mL", "Count at 6 µm(c)", "1/mL")),
        rows);
  }

  private static Figure figure(MachineTrend m) {
    List<Layer> layers = new ArrayList<>();
    double[] counts = Arrays.stream(m.logs()).map(Math::exp).toArray();
    m.chart()
        .ifPresent(
            c -> {
              double[] ends = {m.hours()[0], m.hours()[m.hours().length - 1]};
              double low = Math.exp(c.lower());
              double high = Math.exp(c.upper());
              layers.add(
                  new Layer.Band(
                      "control limits", ends, new double[] {low, low}, new double[] {high, high}));
            });
    layers.add(new Layer.Line("", m.hours(), counts, Layer.Style.MAIN));
    layers.add(new Layer.Points("samples", m.hours(), counts, Layer.Mark.EVENT));
    for (SampleLimit l : m.limits()) {
      layers.add(new Layer.Level(l.kind() + " " + l.code(), Iso4406.upperLimitsPerMl(l.code())[1]));
    }
    for (int i = 0; i < m.changes().size(); i++) {
      int first = m.changes().get(i).first();
      layers.add(
          new Layer.At(
              i == 0 ? "change of level" : "",
              0.5 * (m.hours()[first - 1] + m.hours()[first]),
              Layer.Style.REFERENCE));
    }
    List<Panel> panels = new ArrayList<>();
    panels.add(new Panel(Axis.log("Count at 6 µm(c)", "1/mL"), layers));
    List<Layer> metals = new ArrayList<>();
    for (String name : OilRecords.measures()) {
      List<OilRecord> with =
          m.samples().stream().filter(r -> r.numbers().containsKey(name)).toList();
      if (with.size() >= LEAST_FOR_METALS && !name.startsWith("water")) {
        metals.add(
            new Layer.Line(
                name.replace("_ppm", ""),
                with.stream().mapToDouble(OilRecord::hours).toArray(),
                with.stream().mapToDouble(r -> r.numbers().get(name)).toArray(),
                Layer.Style.COMPARED));
      }
    }
    if (!metals.isEmpty()) {
      panels.add(new Panel(Axis.linear("Metals", "ppm"), metals));
    }
    return new Figure(
        "trend_" + m.machine().replaceAll("[^A-Za-z0-9]", "_"),
        "Samples of " + m.machine(),
        "Sound samples in running. The band is the control chart's, from the first samples.",
        Axis.linear("Hour meter", "h"),
        panels);
  }

  private static void findings(Result.Builder result, List<MachineTrend> all, Values values) {
    for (MachineTrend m : all) {
      m.exceeded()
          .filter(l -> !l.kind().equals("target"))
          .ifPresent(
              l ->
                  result.finding(
                      l.kind().equals("alarm") ? WARNING : CAUTION,
                      "The last sample, "
                          + m.last().orElseThrow().codeText()
                          + ", is over the "
                          + l.kind()
                          + " limit "
                          + l.code()
                          + ": "
                          + l.reason()
                          + ".",
                      m.machine()));
      for (ChangePoints.Change c : m.changes()) {
        double factor = Math.exp(c.behind() - c.before());
        result.finding(
            factor > 1 ? CAUTION : NOTE,
            "Counts at 6 µm(c) are "
                + Numbers.text(factor > 1 ? factor : 1 / factor)
                + (factor > 1 ? " times higher" : " times lower")
                + " since about "
                + Numbers.text(m.hours()[c.first()])
                + " h"
                + (factor > 1 ? ": what was opened, changed or lost then?" : "."),
            m.machine());
      }
      if (m.changes().isEmpty() && m.trend().pValue() < SURE) {
        result.finding(
            m.trend().slope() > 0 ? CAUTION : NOTE,
            "Counts at 6 µm(c) "
                + (m.trend().slope() > 0 ? "rise" : "fall")
                + " by "
                + Numbers.text(Math.abs(percent(m.trend())))
                + " % in 1000 h.",
            m.machine());
      }
      long doubtful = m.checks().stream().map(SampleCheck::record).distinct().count();
      if (doubtful > 0) {
        result.finding(
            NOTE,
            doubtful
                + (doubtful == 1 ? " sample" : " samples")
                + " to doubt: ask the laboratory before acting on "
                + (doubtful == 1 ? "it." : "them."),
            m.machine());
      }
    }
    result.finding(
        NOTE,
        "In at most "
            + Numbers.text(100 * values.get(FALSE_ALARMS))
            + " % of machines whose level never changed a change is told; of "
            + all.size()
            + " machines that is "
            + Numbers.text(values.get(FALSE_ALARMS) * all.size())
            + " on average. Metals are told one by one, without a correction for their number.",
        "");
  }
}
