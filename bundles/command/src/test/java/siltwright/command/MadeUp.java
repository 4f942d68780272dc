package siltwright.command;

import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import siltwright.analysis.Analysis;
import siltwright.analysis.Axis;
import siltwright.analysis.Cell;
import siltwright.analysis.ChoiceParameter;
import siltwright.analysis.Context;
import siltwright.analysis.Description;
import siltwright.analysis.Entry;
import siltwright.analysis.Figure;
import siltwright.analysis.Finding.Severity;
import siltwright.analysis.FlagParameter;
import siltwright.analysis.Layer;
import siltwright.analysis.NumberParameter;
import siltwright.analysis.Panel;
import siltwright.analysis.Progress;
import siltwright.analysis.Result;
import siltwright.analysis.Scope;
import siltwright.analysis.TextParameter;
import siltwright.analysis.Values;
import siltwright.analysis.WholeParameter;

/** Analyses that compute nothing of sense but use every kind of parameter, cell and layer. */
record MadeUp(Description description, Body body) implements Analysis {
  /** What an analysis does. */
  interface Body {
    Result run(Context context, Values values, Progress progress);
  }

  @Override
  public Result run(Context context, Values values, Progress progress) {
    return body.run(context, values, progress);
  }

  static final NumberParameter HOURS =
      NumberParameter.of("hours", "h", 1, 5000, 500, "hours between changes, within 5 % of plan");
  static final WholeParameter CYCLES = new WholeParameter("cycles", 1, 100, 3, "number of cycles");
  static final ChoiceParameter WAY =
      new ChoiceParameter("way", List.of("short", "long"), "short", "way to go");
  static final FlagParameter WARM = new FlagParameter("warm", "starts with warm oil");
  static final TextParameter NAME = TextParameter.optional("name", "any text", "name to show");

  static Analysis of(String id, Scope scope, Body body) {
    return new MadeUp(
        Description.of(
            id,
            "Made-up " + id,
            "Which " + id + " is it, within 5 %?",
            scope,
            HOURS,
            CYCLES,
            WAY,
            WARM,
            NAME),
        body);
  }

  /** Returns an analysis with every kind of content. */
  static Analysis everything(String id, Scope scope) {
    Description[] self = new Description[1];
    Analysis analysis =
        of(
            id,
            scope,
            (context, values, progress) ->
                content(
                    Result.of(
                        self[0],
                        context
                            .selected()
                            .map(m -> m.id())
                            .orElse(scope == Scope.FLEET ? "Made-up fleet" : ""),
                        values)));
    self[0] = analysis.description();
    return analysis;
  }

  private static Result content(Result.Builder result) {
    Map<String, Double> states = new LinkedHashMap<>();
    states.put("cold", 12.5);
    states.put("warm", Double.NaN);
    return result
        .value("interval_h", "Interval", "h", 512.3456789)
        .value("none_h", "Interval that is not there", "h", Double.POSITIVE_INFINITY)
        .value("code", "Code", "18/16/13")
        .add(new Entry.Value("fits", "Fits", "", new Cell.Flag(true)))
        .add(new Entry.Value("within_h", "Within 1 %", "h", new Cell.Range(480, 530.25)))
        .add(
            new Entry.Value(
                "passing", "Passing, each band", "1/mL", new Cell.Numbers(1, 0.1, 1e-7)))
        .add(new Entry.Value("deltaP_kPa", "Pressure drop", "kPa", new Cell.Named(states)))
        .add(
            new Entry.Group(
                "costs",
                "Costs",
                List.of(
                    new Entry.Value("element_EUR_per_h", "Element", "EUR/h", Cell.of(0.25)),
                    new Entry.Value("wear_EUR_per_h", "Wear", "EUR/h", Cell.of(1234567.891)))))
        .add(
            new Entry.Table(
                "procedures",
                "Procedures",
                Entry.Use.READ,
                List.of(
                    new Entry.Column("id", "Procedure", ""),
                    new Entry.Column("costPerHour", "Cost per hour", "EUR/h"),
                    new Entry.Column("within_h", "Within", "h")),
                List.of(
                    List.of(Cell.of("swap, \"quick\""), Cell.of(12.5), new Cell.Range(1, 2)),
                    List.of(Cell.of("flush"), new Cell.None(), new Cell.None()))))
        .add(
            new Entry.Table(
                "series",
                "Series",
                Entry.Use.DATA,
                List.of(
                    new Entry.Column("t_h", "Time", "h"), new Entry.Column("n", "Count", "1/mL")),
                List.of(
                    List.of(Cell.of(0), new Cell.Numbers(1, 2)),
                    List.of(Cell.of(0.1), new Cell.Numbers(3, 4)))))
        .add(figure())
        .finding(Severity.NOTE, "Good to know.", "")
        .finding(Severity.WARNING, "Look out.", "limits/target")
        .build();
  }

  private static Figure figure() {
    double[] xs = {1, 2};
    double[] ys = {0.5, Double.NaN};
    return new Figure(
        "curve",
        "A curve",
        "Read it from the left.",
        Axis.linear("Time", "h"),
        List.of(
            new Panel(
                Axis.log("Count", "1/mL"),
                List.of(
                    new Layer.Line("line", xs, ys, Layer.Style.MAIN),
                    new Layer.Steps("steps", xs, ys, Layer.Style.COMPARED),
                    new Layer.Band("band", xs, ys, ys),
                    new Layer.Stack("stack", xs, List.of(new Layer.Part("part", ys))),
                    new Layer.Points("points", xs, ys, Layer.Mark.EVENT),
                    new Layer.At("at", 1, Layer.Style.LIMIT),
                    new Layer.Level("level", 2),
                    new Layer.Span("span", 1, 2)))));
  }
}
