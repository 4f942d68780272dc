package siltwright.report.internal;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import siltwright.analysis.Axis;
import siltwright.analysis.Cell;
import siltwright.analysis.Description;
import siltwright.analysis.Entry;
import siltwright.analysis.Figure;
import siltwright.analysis.Finding.Severity;
import siltwright.analysis.Layer;
import siltwright.analysis.NumberParameter;
import siltwright.analysis.Panel;
import siltwright.analysis.Result;
import siltwright.analysis.Scope;
import siltwright.analysis.Values;
import siltwright.analysis.WholeParameter;

/** Results from invented numbers. */
final class Samples {
  static final Description TUNE =
      Description.of(
          "tune",
          "Change interval",
          "When an element is changed so that the machine costs least per hour.",
          Scope.MACHINE,
          NumberParameter.of("longest", "h", 100, 20_000, 4000, "longest interval looked at"),
          new WholeParameter("draws", 0, 10_000, 200, "draws of the uncertain parameters"));

  private Samples() {}

  static Result machine(String id, double intervalH, Severity... severities) {
    Result.Builder result = Result.of(TUNE, id, Values.standard(TUNE));
    for (Severity s : severities) {
      result.finding(
          s,
          switch (s) {
            case NOTE -> "The bottom of the cost is flat: a change up to 200 h late costs 1 %.";
            case CAUTION -> "Today's interval is 40 % longer than the one that costs least.";
            case WARNING -> "The bypass is open for 12 % of the time before the change.";
          },
          s == Severity.WARNING ? "/machines/0/returnFilter/bypass" : "");
    }
    result
        .value("class", "Class", "wheel loader")
        .value("hourMeter_h", "Hour meter", "h", 12_480)
        .add(new Entry.Value("today_h", "Interval today", "h", Cell.of(Double.NaN)))
        .add(
            new Entry.Group(
                "recommended",
                "Recommended",
                List.of(
                    new Entry.Value("procedure", "Procedure", "", Cell.of("bowl drained first")),
                    new Entry.Value("interval_h", "Interval", "h", Cell.of(intervalH)),
                    new Entry.Value(
                        "within1pct_h",
                        "Within 1 %",
                        "h",
                        new Cell.Range(0.86 * intervalH, 1.13 * intervalH)),
                    new Entry.Value("cost", "Cost", "EUR/h", Cell.of(1800 / intervalH)),
                    new Entry.Value("saved", "Saved a year", "EUR", Cell.of(3.1 * intervalH)),
                    new Entry.Value("binds", "A limit binds", "", new Cell.Flag(intervalH > 1000)),
                    new Entry.Value(
                        "equivalentBeta",
                        "Equivalent filtration ratio, ≥ 4, 6, 14, 21, 38, 70 µm(c)",
                        "",
                        new Cell.Numbers(1.62, 3.4, 21.5, 48, 49.9, 50)))))
        .add(
            new Entry.Value(
                "state", "Pressure drop at the change", "kPa", new Cell.Named(named(intervalH))))
        .add(procedures(intervalH))
        .add(split(intervalH))
        .add(
            new Entry.Table(
                "curve",
                "Cost curve, for programs",
                Entry.Use.DATA,
                List.of(new Entry.Column("t_h", "Interval", "h")),
                List.of(List.of(Cell.of(777_777)))))
        .add(figure(intervalH));
    return result.build();
  }

  private static Map<String, Double> named(double intervalH) {
    Map<String, Double> byState = new LinkedHashMap<>();
    byState.put("cold start", intervalH / 5);
    byState.put("idle", 21.37);
    byState.put("work", intervalH / 12);
    return byState;
  }

  private static Entry procedures(double intervalH) {
    List<List<Cell>> rows = new ArrayList<>();
    String[] names = {"element pulled out in the housing", "ports capped", "bowl drained first"};
    for (int k = 0; k < names.length; k++) {
      rows.add(
          List.of(
              Cell.of(names[k]),
              k == 0 ? new Cell.None() : Cell.of(intervalH * (0.8 + 0.1 * k)),
              k == 0 ? new Cell.None() : new Cell.Range(intervalH * 0.7, intervalH * (1 + 0.1 * k)),
              Cell.of(2.4 / (k + 1)),
              Cell.of(new double[] {1.08, 2.5, 47.25}[k]),
              new Cell.Flag(k == 2)));
    }
    return new Entry.Table(
        "procedures",
        "Procedures side by side",
        Entry.Use.READ,
        List.of(
            new Entry.Column("id", "Procedure", ""),
            new Entry.Column("interval_h", "Interval", "h"),
            new Entry.Column("within5pct_h", "Within 5 %", "h"),
            new Entry.Column("cost", "Cost", "EUR/h"),
            new Entry.Column("beta", "Equivalent β at 6 µm(c)", ""),
            new Entry.Column("best", "Costs least", "")),
        rows);
  }

  private static Entry split(double intervalH) {
    List<Entry.Column> columns = new ArrayList<>();
    columns.add(new Entry.Column("t_h", "Interval", "h"));
    for (String c :
        List.of("Element", "Seals", "Labour", "Downtime", "Oil lost", "Wear", "Acute", "Bypass")) {
      columns.add(new Entry.Column(c, c, "EUR/h"));
    }
    List<List<Cell>> rows = new ArrayList<>();
    for (int r = 1; r <= 14; r++) {
      List<Cell> row = new ArrayList<>();
      double t = intervalH * r / 7;
      row.add(Cell.of(Math.rint(t)));
      for (int c = 1; c <= 8; c++) {
        row.add(Cell.of(c * 40 / t + c * t * 1e-5));
      }
      rows.add(row);
    }
    return new Entry.Table("split", "What the cost is made of", Entry.Use.READ, columns, rows);
  }

  static Figure figure(double intervalH) {
    double[] xs = new double[200];
    double[] ys = new double[200];
    double[] lows = new double[200];
    double[] highs = new double[200];
    for (int i = 0; i < xs.length; i++) {
      xs[i] = intervalH * (0.3 + i / 70.0);
      ys[i] = 900 / xs[i] + 900 * xs[i] / intervalH / intervalH;
      lows[i] = 0.9 * ys[i];
      highs[i] = 1.15 * ys[i];
    }
    return new Figure(
        "cost",
        "Cost per hour against the change interval",
        "The bottom is flat: any interval in the shaded range costs nearly the same.",
        Axis.linear("Change interval", "h"),
        List.of(
            new Panel(
                Axis.linear("Cost per hour", "EUR/h"),
                List.of(
                    new Layer.Span("within 5 %", 0.75 * intervalH, 1.35 * intervalH),
                    new Layer.Band("80 % of the draws", xs, lows, highs),
                    new Layer.Line("expected", xs, ys, Layer.Style.MAIN),
                    new Layer.At("least cost", intervalH, Layer.Style.MAIN),
                    new Layer.At("today", 1.4 * intervalH, Layer.Style.REFERENCE),
                    new Layer.At("maker's limit", 2 * intervalH, Layer.Style.LIMIT)))));
  }
}
