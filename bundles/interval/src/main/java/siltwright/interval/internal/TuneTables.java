package siltwright.interval.internal;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.function.Function;
import siltwright.analysis.Cell;
import siltwright.analysis.Entry;
import siltwright.analysis.Entry.Column;
import siltwright.analysis.Result;
import siltwright.cleanliness.Iso4406;
import siltwright.interval.Best;
import siltwright.interval.CostSplit;
import siltwright.interval.Option;
import siltwright.interval.Tuning;
import siltwright.interval.Tuning.OptionAnswer;
import siltwright.interval.Tuning.PolicyAnswer;
import siltwright.interval.Tuning.ProcedureAnswer;
import siltwright.interval.Tuning.Spread;
import siltwright.model.Bands;
import siltwright.model.Machine;
import siltwright.model.SizeBands;

/** The answer of a tuning as values and tables. */
final class TuneTables {
  private final Tuning tuning;
  private final Machine machine;
  private final String moneyPerH;

  TuneTables(Tuning tuning, String currency) {
    this.tuning = tuning;
    machine = tuning.machine();
    moneyPerH = currency + "/h";
  }

  void addTo(Result.Builder result) {
    result.add(recommended());
    result.add(today());
    result.add(procedures());
    result.add(split());
    result.add(cycles());
    result.add(equivalent());
    if (!limits().rows().isEmpty()) {
      result.add(limits());
    }
    result.add(policies());
    if (tuning.options().size() > 1) {
      result.add(options());
    }
    tuning.spread().ifPresent(s -> result.add(spread(s)));
  }

  private Entry.Group recommended() {
    Optional<OptionAnswer> best = tuning.recommended();
    List<Entry.Value> values = new ArrayList<>();
    Function<Function<OptionAnswer, Cell>, Cell> of =
        get -> best.map(get).orElseGet(Cell.None::new);
    values.add(value("procedure", "Procedure", "", of.apply(a -> Cell.of(a.procedure().id()))));
    values.add(value("interval_h", "Interval", "h", of.apply(a -> Cell.of(interval(a).hours()))));
    values.add(
        value("costPerHour", "Cost", moneyPerH, of.apply(a -> Cell.of(interval(a).costPerH()))));
    values.add(
        value(
            "savingPerHour",
            "Saving on today",
            moneyPerH,
            of.apply(
                a ->
                    Cell.of(
                        tuning.today().map(t -> t.split().total()).orElse(Double.NaN)
                            - interval(a).costPerH()))));
    values.add(
        value("within1pct_h", "Within 1 %", "h", of.apply(a -> range(interval(a).within1pct()))));
    values.add(
        value("within5pct_h", "Within 5 %", "h", of.apply(a -> range(interval(a).within5pct()))));
    values.add(
        value(
            "leastRegret_h",
            "Risks least",
            "h",
            tuning.spread().map(s -> Cell.of(s.leastRegretH())).orElseGet(Cell.None::new)));
    values.add(value("limitsThatBind", "Limits that bind", "", of.apply(a -> binding(a.best()))));
    values.add(
        value("element", "Element", "", of.apply(a -> Cell.of(a.option().elementId(machine)))));
    values.add(value("breather", "Breather", "", of.apply(a -> Cell.of(breather(a.option())))));
    values.add(
        value("offlineFilter", "Offline filter", "", of.apply(a -> Cell.of(offline(a.option())))));
    values.add(value("reason", "Why none", "", best.isPresent() ? new Cell.None() : noReason()));
    return new Entry.Group("recommended", "Recommended", values);
  }

  private Cell noReason() {
    return tuning.procedures().stream()
        .map(p -> p.best().reason())
        .filter(r -> !r.isEmpty())
        .findFirst()
        .map(Cell::of)
        .orElseGet(Cell.None::new);
  }

  private Entry.Group today() {
    return new Entry.Group(
        "today",
        "Today",
        List.of(
            value("procedure", "Procedure", "", Cell.of(machine.today().procedure())),
            value("interval_h", "Interval", "h", Cell.of(machine.today().intervalH())),
            value(
                "costPerHour",
                "Cost",
                moneyPerH,
                tuning.today().map(t -> Cell.of(t.split().total())).orElseGet(Cell.None::new)),
            value(
                "cleanlinessEnd",
                "Code before the change",
                "",
                tuning.today().map(t -> Cell.of(code(t.endPerMl()))).orElseGet(Cell.None::new))));
  }

  private Entry.Table procedures() {
    List<Column> columns =
        List.of(
            new Column("id", "Procedure", ""),
            new Column("name", "Name", ""),
            new Column("interval_h", "Interval", "h"),
            new Column("costPerHour", "Cost", moneyPerH),
            new Column("within1pct_h", "Within 1 %", "h"),
            new Column("within5pct_h", "Within 5 %", "h"),
            new Column("costPerHourToday", "At today's interval", moneyPerH),
            new Column("costPerHourMaker", "At the maker's", moneyPerH),
            new Column("unconstrained_h", "Without limits", "h"),
            new Column("unconstrainedCostPerHour", "Cost there", moneyPerH),
            new Column("limitsThatBind", "Limits that bind", ""),
            // People have tables of these.
            new Column("equivalentBeta", "Equivalent filtration ratio", "", Entry.Use.DATA),
            new Column("costSplit", "Split of the cost", moneyPerH, Entry.Use.DATA),
            new Column("reason", "Why none", ""));
    List<List<Cell>> rows = new ArrayList<>();
    for (ProcedureAnswer p : tuning.procedures()) {
      Optional<Best.Interval> i = p.best().interval();
      rows.add(
          List.of(
              Cell.of(p.procedure().id()),
              Cell.of(p.procedure().name()),
              number(i.map(Best.Interval::hours)),
              number(i.map(Best.Interval::costPerH)),
              i.map(x -> range(x.within1pct())).orElseGet(Cell.None::new),
              i.map(x -> range(x.within5pct())).orElseGet(Cell.None::new),
              number(p.atToday().map(c -> c.split().total())),
              number(p.atMaker().map(c -> c.split().total())),
              number(p.best().free().map(Best.Least::hours)),
              number(p.best().free().map(Best.Least::costPerH)),
              binding(p.best()),
              new Cell.Numbers(p.equivalentBeta().toArray()),
              p.atBest().map(c -> named(c.split())).orElseGet(Cell.None::new),
              p.best().reason().isEmpty() ? new Cell.None() : Cell.of(p.best().reason())));
    }
    return new Entry.Table(
        "procedures", "Procedures, with what is fitted today", Entry.Use.READ, columns, rows);
  }

  private Entry.Table split() {
    List<Column> columns = new ArrayList<>();
    columns.add(new Column("id", "Procedure", ""));
    columns.add(new Column("interval_h", "Interval", "h"));
    for (Map.Entry<String, Double> part : parts(new CostSplit(0, 0, 0, 0, 0, 0)).entrySet()) {
      String label = part.getKey();
      columns.add(
          new Column(
              label + "PerHour",
              Character.toUpperCase(label.charAt(0)) + label.substring(1),
              moneyPerH));
    }
    List<List<Cell>> rows = new ArrayList<>();
    for (ProcedureAnswer p : tuning.procedures()) {
      p.atBest()
          .ifPresent(
              c -> {
                List<Cell> row = new ArrayList<>();
                row.add(Cell.of(p.procedure().id()));
                row.add(Cell.of(c.intervalH()));
                parts(c.split()).values().forEach(v -> row.add(Cell.of(v)));
                rows.add(row);
              });
    }
    return new Entry.Table(
        "costs", "What the cost is made of at each best interval", Entry.Use.READ, columns, rows);
  }

  private Entry.Table cycles() {
    List<Column> columns =
        List.of(
            new Column("id", "Procedure", ""),
            new Column("interval_h", "Interval", "h"),
            new Column("cleanlinessAfterChange", "Code just after the change", ""),
            new Column("cleanlinessRunning", "Code once washed out", ""),
            new Column("cleanlinessMean", "Mean code", ""),
            new Column("cleanlinessEnd", "Code before the change", ""),
            new Column("retained_g", "In the element", "g"),
            new Column("retainedShare", "Of its capacity", "1"),
            new Column("released_g", "Shed by the change", "g"),
            new Column("deltaP_kPa", "Pressure drop before the change", "kPa"),
            new Column("bypassShare", "Share through the bypass", "1"));
    List<List<Cell>> rows = new ArrayList<>();
    for (ProcedureAnswer p : tuning.procedures()) {
      p.atBest()
          .ifPresent(
              c ->
                  rows.add(
                      List.of(
                          Cell.of(p.procedure().id()),
                          Cell.of(c.intervalH()),
                          Cell.of(code(c.startPerMl())),
                          Cell.of(code(c.runningPerMl())),
                          Cell.of(code(c.meanPerMl())),
                          Cell.of(code(c.endPerMl())),
                          Cell.of(c.retainedG()),
                          Cell.of(c.retainedG() / machine.returnFilter().element().capacityG()),
                          Cell.of(c.releasedG()),
                          byState(c.dropKPa()),
                          byState(c.bypassShare()))));
    }
    return new Entry.Table(
        "cycles",
        "Oil and element over the cycle (mass: 4–100 µm(c), and fines where the element has a share)",
        Entry.Use.READ,
        columns,
        rows);
  }

  private Entry.Table equivalent() {
    List<Column> columns = new ArrayList<>();
    columns.add(new Column("id", "Procedure", ""));
    columns.add(new Column("backFlushShare", "Shed share", "1"));
    for (int j = 0; j < SizeBands.COUNT; j++) {
      columns.add(
          new Column(
              "beta" + SizeBands.edgeUmC(j), SizeBands.label(j).replace('-', '–') + " µm(c)", ""));
    }
    List<List<Cell>> rows = new ArrayList<>();
    for (ProcedureAnswer p : tuning.procedures()) {
      List<Cell> row = new ArrayList<>();
      row.add(Cell.of(p.procedure().id()));
      row.add(Cell.of(p.procedure().backFlushShare()));
      for (double beta : p.equivalentBeta().toArray()) {
        row.add(Cell.of(beta));
      }
      rows.add(row);
    }
    return new Entry.Table(
        "equivalentFiltrationRatio",
        "Equivalent filtration ratio: the element that would protect the pump as well",
        Entry.Use.READ,
        columns,
        rows);
  }

  private Entry.Table limits() {
    List<List<Cell>> rows = new ArrayList<>();
    for (ProcedureAnswer p : tuning.procedures()) {
      for (Best.Limit limit : p.best().limits()) {
        rows.add(
            List.of(
                Cell.of(p.procedure().id()),
                Cell.of(limit.name()),
                Cell.of(limit.longestH()),
                new Cell.Flag(limit.binds())));
      }
    }
    return new Entry.Table(
        "limits",
        "Limits",
        Entry.Use.READ,
        List.of(
            new Column("procedure", "Procedure", ""),
            new Column("limit", "Limit", ""),
            new Column("longest_h", "Longest interval it allows", "h"),
            new Column("binds", "Binds", "")),
        rows);
  }

  private Entry.Table policies() {
    List<List<Cell>> rows = new ArrayList<>();
    for (PolicyAnswer p : tuning.policies()) {
      rows.add(
          List.of(
              Cell.of(p.policy().words()),
              Cell.of(p.intervalH()),
              Cell.of(p.costPerH()),
              Cell.of(p.expectedPerH()),
              p.reason().isEmpty() ? new Cell.None() : Cell.of(p.reason())));
    }
    return new Entry.Table(
        "policies",
        "Ways to decide when, with the recommended procedure",
        Entry.Use.READ,
        List.of(
            new Column("policy", "Policy", ""),
            new Column("interval_h", "Leads to a change after", "h"),
            new Column("costPerHour", "Cost", moneyPerH),
            new Column("expectedCostPerHour", "Expected under uncertainty", moneyPerH),
            new Column("reason", "Why not", "")),
        rows);
  }

  private Entry.Table options() {
    List<List<Cell>> rows = new ArrayList<>();
    for (OptionAnswer a : tuning.options()) {
      rows.add(
          List.of(
              Cell.of(a.option().elementId(machine)),
              Cell.of(breather(a.option())),
              Cell.of(offline(a.option())),
              Cell.of(a.procedure().id()),
              number(a.best().interval().map(Best.Interval::hours)),
              number(a.best().interval().map(Best.Interval::costPerH)),
              a.best().reason().isEmpty() ? new Cell.None() : Cell.of(a.best().reason())));
    }
    return new Entry.Table(
        "options",
        "What could be fitted, each with its best procedure",
        Entry.Use.READ,
        List.of(
            new Column("element", "Element", ""),
            new Column("breather", "Breather", ""),
            new Column("offlineFilter", "Offline filter", ""),
            new Column("procedure", "Procedure", ""),
            new Column("interval_h", "Interval", "h"),
            new Column("costPerHour", "Cost", moneyPerH),
            new Column("reason", "Why none", "")),
        rows);
  }

  private Entry.Group spread(Spread s) {
    Map<String, Double> cheapest = new LinkedHashMap<>();
    for (int p = 0; p < s.shareCheapest().length; p++) {
      cheapest.put(machine.procedures().get(p).id(), s.shareCheapest()[p]);
    }
    return new Entry.Group(
        "uncertainty",
        "What the uncertain numbers make of it",
        List.of(
            value("draws", "Draws", "", Cell.of(s.draws())),
            value(
                "interval90_h",
                "Best interval, 90 % of draws",
                "h",
                new Cell.Range(s.bestH()[0], s.bestH()[2])),
            value("intervalMedian_h", "Best interval, median", "h", Cell.of(s.bestH()[1])),
            value(
                "costPerHour90",
                "Cost at the recommended interval, 90 %",
                moneyPerH,
                new Cell.Range(s.costPerH()[0], s.costPerH()[2])),
            value("leastRegret_h", "Interval of least regret", "h", Cell.of(s.leastRegretH())),
            value("regretPerHour", "Expected regret there", moneyPerH, Cell.of(s.regretPerH())),
            value(
                "regretOfRecommendedPerHour",
                "Expected regret at the recommended interval",
                moneyPerH,
                Cell.of(s.regretOfRecommendedPerH())),
            value(
                "shareCheapest",
                "Share of draws in which it is cheapest",
                "1",
                new Cell.Named(cheapest))));
  }

  private static Entry.Value value(String name, String label, String unit, Cell cell) {
    return new Entry.Value(name, label, unit, cell);
  }

  private static Best.Interval interval(OptionAnswer a) {
    return a.best().interval().orElseThrow();
  }

  private static Cell number(Optional<Double> value) {
    return value.map(v -> Cell.of(v.doubleValue())).orElseGet(Cell.None::new);
  }

  private static Cell range(double[] lowHigh) {
    return new Cell.Range(lowHigh[0], lowHigh[1]);
  }

  /** The limits that bind; nothing where none does. */
  private static Cell binding(Best best) {
    List<String> names =
        best.limits().stream().filter(Best.Limit::binds).map(Best.Limit::name).toList();
    return names.isEmpty() ? new Cell.None() : Cell.of(String.join(", ", names));
  }

  private static Cell named(CostSplit split) {
    return new Cell.Named(parts(split));
  }

  static Map<String, Double> parts(CostSplit split) {
    Map<String, Double> parts = new LinkedHashMap<>();
    parts.put("element", split.element());
    parts.put("service", split.service());
    parts.put("equipment", split.equipment());
    parts.put("wear", split.wear());
    parts.put("acute", split.acute());
    parts.put("bypass", split.bypass());
    return parts;
  }

  private Cell byState(double[] values) {
    Map<String, Double> named = new LinkedHashMap<>();
    for (int k = 0; k < values.length; k++) {
      named.put(machine.duty().get(k).id(), values[k]);
    }
    return new Cell.Named(named);
  }

  private static String breather(Option option) {
    return option.breather().map(b -> b.id()).orElse("as today");
  }

  private static String offline(Option option) {
    return option.offlineFilter().map(o -> o.id()).orElse("as today");
  }

  static String code(Bands perMl) {
    return Iso4406.code(perMl).toString();
  }
}
