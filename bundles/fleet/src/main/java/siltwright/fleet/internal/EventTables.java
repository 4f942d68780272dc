package siltwright.fleet.internal;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import siltwright.analysis.Cell;
import siltwright.analysis.Entry;
import siltwright.analysis.Entry.Column;
import siltwright.analysis.Result;
import siltwright.fleet.MachineRatio;
import siltwright.fleet.MeanCumulative;
import siltwright.fleet.PoissonRates;
import siltwright.fleet.PowerLaw;
import siltwright.life.Interval;

/** The answer of a comparison of events as values and tables. */
final class EventTables {
  private static final double THOUSAND = 1000;

  private final EventStudy study;
  private final String money;

  EventTables(EventStudy study) {
    this.study = study;
    this.money = study.settings.currency();
  }

  void addTo(Result.Builder result) {
    EventAnswer.of(study).addTo(result);
    study.intervention.ifPresent(i -> result.add(i.table()));
    result.add(groups());
    if (study.records.data().hasMarks()) {
      result.add(costs());
    }
    Entry.Table differences = differences();
    if (!differences.rows().isEmpty()) {
      result.add(differences);
    }
    result.add(rateRatios());
    study.equal.ifPresent(
        t ->
            result.add(
                new Entry.Group(
                    "equalRates",
                    "All groups alike",
                    List.of(
                        new Entry.Value("chiSquare", "Chi-square", "1", Cell.of(t.chiSquare())),
                        new Entry.Value(
                            "degreesOfFreedom",
                            "Degrees of freedom",
                            "1",
                            Cell.of(t.degreesOfFreedom())),
                        new Entry.Value("p", "p", "1", Cell.of(t.pValue()))))));
    if (!study.overlaps.isEmpty()) {
      result.add(OverlapTable.of(study.overlaps, study.records.groups().names(), "Machines"));
    }
    result.add(trends());
    result.add(trendTests());
    study.shrunkGroups.ifPresent(s -> result.add(shrunk()));
    result.add(means("mcf", "Mean number of events", false));
    if (study.records.data().hasMarks()) {
      result.add(means("costMcf", "Mean cost of events", true));
    }
    result.add(powerLaw());
    if (study.records.data().machines().size() <= EventStudy.MOST_MACHINES) {
      result.add(machines());
    }
  }

  private static Cell range(Interval i, double scale) {
    return Double.isNaN(i.lower())
        ? new Cell.None()
        : new Cell.Range(scale * i.lower(), scale * i.upper());
  }

  private Entry.Table groups() {
    List<List<Cell>> rows = new ArrayList<>();
    for (EventStudy.Group g : study.groups) {
      rows.add(
          List.of(
              Cell.of(g.name()),
              Cell.of(g.machines()),
              Cell.of(g.data().hoursH()),
              Cell.of(g.data().events()),
              Cell.of(THOUSAND * g.ratePerH()),
              range(g.rate(), THOUSAND),
              range(g.perHour().interval(), THOUSAND),
              g.alike().<Cell>map(a -> Cell.of(a.dispersion())).orElseGet(Cell.None::new)));
    }
    return new Entry.Table(
        "groups",
        "Groups",
        Entry.Use.READ,
        List.of(
            new Column("group", "Group", ""),
            new Column("machines", "Machines", "1"),
            new Column("watched_h", "Watched", "h"),
            new Column("events", "Events", "1"),
            new Column("rate_per_1000h", "Events", "per 1000 h"),
            new Column("exactInterval_per_1000h", "95 %, events by chance", "per 1000 h"),
            new Column("machineInterval_per_1000h", "95 %, machines differ", "per 1000 h"),
            new Column("dispersion", "Spread of machines over chance", "1")),
        rows);
  }

  private Entry.Table costs() {
    List<List<Cell>> rows = new ArrayList<>();
    for (EventStudy.Group g : study.groups) {
      MachineRatio.Drawn cost = g.costPerHour().orElseThrow();
      rows.add(
          List.of(
              Cell.of(g.name()),
              Cell.of(cost.value()),
              range(cost.interval(), 1),
              Cell.of(cost.value() * study.settings.hoursAYear())));
    }
    return new Entry.Table(
        "costs",
        "Cost of the events",
        Entry.Use.READ,
        List.of(
            new Column("group", "Group", ""),
            new Column("cost_money_per_h", "Cost", money + "/h"),
            new Column("interval_money_per_h", "95 %", money + "/h"),
            new Column("yearly_money", "A year, each machine", money)),
        rows);
  }

  private String name(int group) {
    return study.groups.get(group).name();
  }

  private Entry.Table differences() {
    List<List<Cell>> rows = new ArrayList<>();
    for (EventStudy.Comparison c : study.comparisons) {
      c.means()
          .ifPresent(
              d ->
                  rows.add(
                      List.of(
                          Cell.of(name(c.pair().first())),
                          Cell.of(name(c.pair().second())),
                          Cell.of(d.atH()),
                          Cell.of(d.difference()),
                          new Cell.Range(d.interval().lower(), d.interval().upper()),
                          Cell.of(d.standardError()),
                          Cell.of(d.statistic()),
                          Cell.of(d.degreesOfFreedom()),
                          Cell.of(c.meansOfMany().orElseThrow().standardError()),
                          Cell.of(c.meansOfMany().orElseThrow().pValue()),
                          Cell.of(d.pValue()),
                          Cell.of(c.meanP()))));
    }
    return new Entry.Table(
        "differences",
        "Difference of the mean numbers of events",
        Entry.Use.READ,
        List.of(
            new Column("first", "Group", ""),
            new Column("second", "Less", ""),
            new Column("hours", "Up to", "h"),
            new Column("difference", "Events a machine", "1"),
            new Column("interval", "95 %", "1"),
            new Column("standardError", "Error", "1", Entry.Use.DATA),
            new Column("statistic", "t", "1", Entry.Use.DATA),
            new Column("degreesOfFreedom", "Degrees of freedom", "1", Entry.Use.DATA),
            new Column("robustError", "Robust error", "1", Entry.Use.DATA),
            new Column("robustP", "p by it", "1", Entry.Use.DATA),
            new Column("p", "p", "1"),
            new Column("pAdjusted", "p" + study.settings.corrected(), "1")),
        rows);
  }

  private Entry.Table rateRatios() {
    List<List<Cell>> rows = new ArrayList<>();
    String allowed =
        String.join(", ", study.adjusted.isPresent() ? study.settings.adjust() : List.of());
    for (EventStudy.Comparison c : study.comparisons) {
      PoissonRates.Ratio exact = c.exact();
      rows.add(
          List.of(
              Cell.of(name(c.pair().first())),
              Cell.of(name(c.pair().second())),
              c.ratio().<Cell>map(r -> Cell.of(r.value())).orElseGet(Cell.None::new),
              c.ratio().<Cell>map(r -> range(r.wald(), 1)).orElseGet(Cell.None::new),
              Cell.of(c.ratioP()[0]),
              Cell.of(c.ratioP()[1]),
              allowed.isEmpty() ? new Cell.None() : Cell.of(allowed),
              Cell.of(exact.ratio()),
              range(exact.interval(), 1),
              Cell.of(exact.pValue()),
              Cell.of(c.exactP())));
    }
    return new Entry.Table(
        "rateRatios",
        "Ratio of the rates of events",
        Entry.Use.READ,
        List.of(
            new Column("first", "Group", ""),
            new Column("second", "Over", ""),
            new Column("ratio", "Ratio", "1"),
            new Column("interval", "95 %", "1"),
            new Column("p", "p", "1"),
            new Column("pAdjusted", "p" + study.settings.corrected(), "1"),
            new Column("allowedFor", "Allowed for", ""),
            new Column("exactRatio", "Ratio of the plain rates", "1"),
            new Column("exactInterval", "95 %, events by chance", "1"),
            new Column("exactP", "p, events by chance", "1"),
            new Column("exactPAdjusted", "p, events by chance," + study.settings.corrected(), "1")),
        rows);
  }

  /** Returns an interval by machines, nothing of a single one. */
  private static Cell machineRange(EventStudy.Group g, Interval i) {
    return g.machines() > 1 ? range(i, 1) : new Cell.None();
  }

  private Entry.Table trends() {
    List<List<Cell>> rows = new ArrayList<>();
    for (EventStudy.Group g : study.groups) {
      if (g.law().exists()) {
        PowerLaw law = g.law().get();
        rows.add(
            List.of(
                Cell.of(g.name()),
                Cell.of(law.shape()),
                range(law.shapeInterval(Settings.CONFIDENCE), 1),
                machineRange(g, law.robustShapeInterval(Settings.CONFIDENCE)),
                Cell.of(law.scaleH()),
                range(law.scaleInterval(Settings.CONFIDENCE), 1),
                g.fit().<Cell>map(f -> Cell.of(f.pValue())).orElseGet(Cell.None::new)));
      }
    }
    return new Entry.Table(
        "trends",
        "Trend with age: power law",
        Entry.Use.READ,
        List.of(
            new Column("group", "Group", ""),
            new Column("shape", "Shape", "1"),
            new Column("shapeInterval", "95 %", "1"),
            new Column("shapeMachineInterval", "95 %, machines differ", "1"),
            new Column("scale_h", "Scale", "h"),
            new Column("scaleInterval_h", "95 %", "h"),
            new Column("fitP", "p of its fit", "1")),
        rows);
  }

  private Entry.Table trendTests() {
    Map<String, List<double[]>> byTest = new LinkedHashMap<>();
    for (EventStudy.Group g : study.groups) {
      g.trendTests()
          .forEach((test, v) -> byTest.computeIfAbsent(test, t -> new ArrayList<>()).add(v));
    }
    // The groups of a test are several comparisons; several tests of a group are one question.
    Map<String, double[]> adjusted = new LinkedHashMap<>();
    byTest.forEach(
        (test, of) ->
            adjusted.put(
                test,
                study
                    .settings
                    .correction()
                    .adjusted(of.stream().mapToDouble(v -> v[2]).toArray())));
    List<List<Cell>> rows = new ArrayList<>();
    for (EventStudy.Group g : study.groups) {
      g.trendTests()
          .forEach(
              (test, v) ->
                  rows.add(
                      List.of(
                          Cell.of(g.name()),
                          Cell.of(test),
                          Cell.of(v[0]),
                          Cell.of(v[1]),
                          Cell.of(v[2]),
                          Cell.of(adjusted.get(test)[byTest.get(test).indexOf(v)]))));
    }
    return new Entry.Table(
        "trendTests",
        "Trend with age: tests",
        Entry.Use.READ,
        List.of(
            new Column("group", "Group", ""),
            new Column("test", "Test", ""),
            new Column("statistic", "Statistic", "1"),
            new Column("degreesOfFreedom", "Degrees of freedom", "1"),
            new Column("p", "p", "1"),
            new Column("pAdjusted", "p" + study.settings.corrected(), "1")),
        rows);
  }

  private Entry.Table shrunk() {
    List<List<Cell>> rows = new ArrayList<>();
    for (int k = 0; k < study.groups.size(); k++) {
      EventStudy.Group g = study.groups.get(k);
      rows.add(
          List.of(
              Cell.of(g.name()),
              Cell.of(THOUSAND * g.ratePerH()),
              Cell.of(THOUSAND * study.shrunkGroups.get().ratePerH(k)),
              range(study.shrunkGroups.get().interval(k, Settings.CONFIDENCE), THOUSAND),
              Cell.of(100 * study.shrunkGroups.get().ownShare(k))));
    }
    return new Entry.Table(
        "shrunkRates",
        "Rates drawn towards that of all, the more so the less was watched",
        Entry.Use.READ,
        List.of(
            new Column("group", "Group", ""),
            new Column("rate_per_1000h", "As counted", "per 1000 h"),
            new Column("shrunkRate_per_1000h", "Drawn in", "per 1000 h"),
            new Column("interval_per_1000h", "95 %", "per 1000 h"),
            new Column("ownShare_pct", "Share of its own", "%")),
        rows);
  }

  private Entry.Group means(String name, String label, boolean cost) {
    List<Entry.Value> values = new ArrayList<>();
    for (EventStudy.Group g : study.groups) {
      MeanCumulative m = cost ? g.cost().orElseThrow() : g.mean();
      double[][] band = m.band(Settings.CONFIDENCE);
      Map<String, Cell> parts = new LinkedHashMap<>();
      parts.put("hours", new Cell.Numbers(m.timesH()));
      parts.put("atRisk", new Cell.Numbers(m.atRisk()));
      parts.put(cost ? "costs" : "events", new Cell.Numbers(m.marks()));
      parts.put("mean", new Cell.Numbers(m.mean()));
      parts.put("variance", new Cell.Numbers(m.variance()));
      parts.put("low", new Cell.Numbers(band[0]));
      parts.put("high", new Cell.Numbers(band[1]));
      values.add(new Entry.Value(g.name(), g.name(), "1", new Cell.Parts(parts)));
    }
    return new Entry.Group(name, label, Entry.Use.DATA, values);
  }

  private Entry.Group powerLaw() {
    List<Entry.Value> values = new ArrayList<>();
    for (EventStudy.Group g : study.groups) {
      if (!g.law().exists()) {
        values.add(new Entry.Value(g.name(), g.name(), "1", new Cell.None()));
        continue;
      }
      PowerLaw law = g.law().get();
      Map<String, Cell> parts = new LinkedHashMap<>();
      parts.put("shape", Cell.of(law.shape()));
      parts.put("scale", Cell.of(law.scaleH()));
      parts.put("shapeInterval", range(law.shapeInterval(Settings.CONFIDENCE), 1));
      parts.put("scaleInterval", range(law.scaleInterval(Settings.CONFIDENCE), 1));
      parts.put(
          "shapeMachineInterval", machineRange(g, law.robustShapeInterval(Settings.CONFIDENCE)));
      parts.put(
          "scaleMachineInterval", machineRange(g, law.robustScaleInterval(Settings.CONFIDENCE)));
      parts.put("lambda", Cell.of(law.lambda()));
      parts.put("logLikelihood", Cell.of(law.logLikelihood()));
      parts.put("againstConstantP", Cell.of(law.againstConstant().pValue()));
      if (law.isSingle()) {
        parts.put("truncation", Cell.of(law.endsAtEvent() ? "event" : "hours"));
        parts.put("unbiasedShape", Cell.of(law.unbiasedShape()));
      }
      g.fit()
          .ifPresent(
              f -> {
                parts.put("cramerVonMises", Cell.of(f.statistic()));
                parts.put("cramerVonMisesP", Cell.of(f.pValue()));
              });
      values.add(new Entry.Value(g.name(), g.name(), "1", new Cell.Parts(parts)));
    }
    return new Entry.Group("powerLaw", "Power law", Entry.Use.DATA, values);
  }

  private Entry.Table machines() {
    double[] counts = study.records.data().countByMachine();
    double[] hours = study.records.data().hoursByMachine();
    List<List<Cell>> rows = new ArrayList<>();
    for (int m = 0; m < counts.length; m++) {
      Interval exact = PoissonRates.interval((long) counts[m], hours[m], Settings.CONFIDENCE);
      int machine = m;
      rows.add(
          List.of(
              Cell.of(study.records.data().machines().get(m)),
              Cell.of(name(study.records.groups().codes()[m])),
              Cell.of(hours[m]),
              Cell.of(counts[m]),
              Cell.of(THOUSAND * counts[m] / hours[m]),
              range(exact, THOUSAND),
              study
                  .shrunkMachines
                  .<Cell>map(s -> Cell.of(THOUSAND * s.ratePerH(machine)))
                  .orElseGet(Cell.None::new),
              study
                  .shrunkMachines
                  .<Cell>map(s -> range(s.interval(machine, Settings.CONFIDENCE), THOUSAND))
                  .orElseGet(Cell.None::new)));
    }
    return new Entry.Table(
        "machines",
        "Machines",
        Entry.Use.DATA,
        List.of(
            new Column("machine", "Machine", ""),
            new Column("group", "Group", ""),
            new Column("watched_h", "Watched", "h"),
            new Column("events", "Events", "1"),
            new Column("rate_per_1000h", "Events", "per 1000 h"),
            new Column("exactInterval_per_1000h", "95 %, events by chance", "per 1000 h"),
            new Column("shrunkRate_per_1000h", "Drawn in", "per 1000 h"),
            new Column("shrunkInterval_per_1000h", "95 %", "per 1000 h")),
        rows);
  }
}
