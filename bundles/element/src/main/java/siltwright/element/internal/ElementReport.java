package siltwright.element.internal;

import static siltwright.analysis.Finding.Severity.CAUTION;
import static siltwright.analysis.Finding.Severity.NOTE;
import static siltwright.analysis.Finding.Severity.WARNING;

import java.util.ArrayList;
import java.util.List;
import java.util.OptionalDouble;
import siltwright.analysis.Axis;
import siltwright.analysis.Cell;
import siltwright.analysis.Entry;
import siltwright.analysis.Entry.Column;
import siltwright.analysis.Figure;
import siltwright.analysis.Layer;
import siltwright.analysis.Numbers;
import siltwright.analysis.Panel;
import siltwright.analysis.Result;
import siltwright.analysis.Values;
import siltwright.element.BlockingFit;
import siltwright.element.DropLog;
import siltwright.element.Incident;
import siltwright.element.LoadingRun;
import siltwright.element.Reference;
import siltwright.element.Remaining;

/** A forecast as values, table, figure and findings. */
final class ElementReport {
  private static final int MOST_MARKS = 400;
  private static final int POINTS = 121;

  private final ElementAnalysis.Forecast f;
  private final DropLog log;
  private final Reference reference;
  private final List<Incident> incidents;
  private final OptionalDouble clean;
  private final String unit;
  private final double spread;
  private final boolean futureGiven;
  private final int tables;
  private final int like;

  ElementReport(
      ElementAnalysis.Forecast forecast,
      DropLog log,
      Reference reference,
      List<Incident> incidents,
      OptionalDouble clean,
      Values values,
      int tables,
      int like) {
    f = forecast;
    this.log = log;
    this.reference = reference;
    this.incidents = incidents;
    this.clean = clean;
    unit = values.get(ElementAnalysis.UNIT);
    spread = values.get(ElementAnalysis.SPREAD);
    futureGiven = values.find(ElementAnalysis.FUTURE).isPresent();
    this.tables = tables;
    this.like = like;
  }

  void addTo(Result.Builder result) {
    Remaining r = f.remaining();
    LoadingRun run = f.run();
    int last = run.rows() - 1;
    result.value("remaining", "Left until the limit", unit, r.value());
    result.add(
        new Entry.Value("interval90", "90 % interval", unit, new Cell.Range(r.low(), r.high())));
    result.value("blockingExponent", "Blocking exponent", "1", f.fit().exponent());
    result.value("blockingExponentError", "Its standard error", "1", f.fit().exponentError());
    result.value("level_kPa", "Pressure drop now, noise taken out", "kPa", run.level(last));
    result.value("served", "Served since the element was fitted", unit, run.time(last));
    result.value("earlierRuns", "Earlier logs used", "1", f.earlier().map(e -> e.runs()).orElse(0));
    if (!Double.isNaN(reference.flowLPerMin())) {
      result.value("referenceFlow_L_per_min", "Flow told at", "L/min", reference.flowLPerMin());
    }
    if (!Double.isNaN(reference.oilDegC())) {
      result.value("reference_degC", "Oil temperature told at", "°C", reference.oilDegC());
    }
    if (!incidents.isEmpty()) {
      result.add(incidentTable());
    }
    result.add(figure());
    findings(result);
  }

  private Entry.Table incidentTable() {
    List<List<Cell>> rows = new ArrayList<>();
    for (Incident i : incidents) {
      rows.add(
          List.of(
              Cell.of(log.times()[i.row()]),
              Cell.of(word(i.kind())),
              Cell.of(i.fromKPa()),
              Cell.of(i.toKPa())));
    }
    return new Entry.Table(
        "incidents",
        "What else the log shows",
        Entry.Use.READ,
        List.of(
            new Column("time", "Time", unit),
            new Column("kind", "What", ""),
            new Column("from_kPa", "Drop before", "kPa"),
            new Column("to_kPa", "Drop behind", "kPa")),
        rows);
  }

  private static String word(Incident.Kind kind) {
    return switch (kind) {
      case CHANGE -> "element changed";
      case COLLAPSE -> "element torn or collapsed";
      case BYPASS_OPEN -> "bypass open";
      case NO_ELEMENT -> "no element, or bypass stuck open";
    };
  }

  private Figure figure() {
    LoadingRun run = f.run();
    int n = run.rows();
    int marks = Math.min(MOST_MARKS, n);
    double[] xs = new double[marks];
    double[] ys = new double[marks];
    double[] levels = new double[marks];
    for (int k = 0; k < marks; k++) {
      int i = marks == 1 ? 0 : (int) ((long) k * (n - 1) / (marks - 1));
      xs[k] = run.time(i);
      ys[k] = run.dropKPa(i);
      levels[k] = run.level(i);
    }
    List<Layer> layers = new ArrayList<>();
    double now = run.time(n - 1);
    Remaining r = f.remaining();
    if (!f.reached()) {
      layers.add(new Layer.Span("limit reached, 90 %", now + r.low(), now + r.high()));
    }
    layers.add(new Layer.Points("log", xs, ys, Layer.Mark.EVENT));
    layers.add(new Layer.Line("noise taken out", xs, levels, Layer.Style.MAIN));
    BlockingFit fit = f.fit();
    double[] tx = new double[POINTS];
    double[] ty = new double[POINTS];
    double end = now + Math.max(r.value(), 0.02 * now);
    for (int k = 0; k < POINTS; k++) {
      tx[k] = end * k / (POINTS - 1);
      double mass =
          tx[k] <= now ? tx[k] / now * run.mass(n - 1) : run.mass(n - 1) + (tx[k] - now) * f.feed();
      double p = fit.dropKPa(mass);
      ty[k] = p < 1.5 * f.limitKPa() ? p : Double.NaN;
    }
    layers.add(new Layer.Line("blocking law", tx, ty, Layer.Style.REFERENCE));
    layers.add(new Layer.Level("limit", f.limitKPa()));
    layers.add(new Layer.At("forecast", now + r.value(), Layer.Style.LIMIT));
    return new Figure(
        "forecast",
        "Pressure drop and forecast",
        "Drops at the flow and temperature told at, against the time since the element was fitted.",
        Axis.linear("Time since the element was fitted", unit),
        List.of(new Panel(Axis.linear("Pressure drop", "kPa"), layers)));
  }

  private void findings(Result.Builder result) {
    Remaining r = f.remaining();
    if (f.reached()) {
      result.finding(WARNING, "The limit is reached: change the element.", "");
    }
    for (Incident i : incidents) {
      String at = " at " + Numbers.text(log.times()[i.row()]) + " " + unit;
      String fall = " (" + Numbers.text(i.fromKPa()) + " to " + Numbers.text(i.toKPa()) + " kPa)";
      switch (i.kind()) {
        case CHANGE ->
            result.finding(
                NOTE, "A new element was fitted" + at + fall + "; the forecast begins there.", "");
        case COLLAPSE ->
            result.finding(
                WARNING,
                "The drop fell"
                    + at
                    + fall
                    + " though no clean element was fitted: a torn or"
                    + " collapsed element, or dirt that broke through. Look at it; the forecast means"
                    + " nothing until then.",
                "");
        case BYPASS_OPEN ->
            result.finding(
                WARNING,
                "The drop has stopped to rise since"
                    + at.substring(3)
                    + ": the bypass is open, or oil finds another way. The forecast counts an element"
                    + " that takes the whole flow.",
                "");
        case NO_ELEMENT ->
            result.finding(
                WARNING,
                "The drop lies far below that of a clean element"
                    + fall
                    + ": none is fitted, or the bypass is stuck open.",
                "");
      }
    }
    f.earlier()
        .filter(
            e ->
                !f.reached()
                    && f.run().mass(f.run().rows() - 1) > 0.7 * e.medianMass()
                    && f.run().level(f.run().rows() - 1) < 1.2 * e.cleanKPa())
        .ifPresent(
            e ->
                result.finding(
                    WARNING,
                    "The element has taken "
                        + Numbers.text(100 * f.run().mass(f.run().rows() - 1) / e.medianMass())
                        + " % of what earlier ones took in all and its drop is still that of"
                        + " a clean one: a bypass stuck open, or no element.",
                    ""));
    if (f.run().fed()) {
      result.finding(
          NOTE,
          "The interval takes the feed to come as "
              + Numbers.text(f.feed())
              + (futureGiven ? ", as given" : ", that of the log's last quarter")
              + (spread > 1
                  ? ", known within a factor of " + Numbers.text(spread) + "."
                  : ", and as certain: --future-factor carries its spread."),
          "");
    } else {
      result.finding(
          CAUTION,
          "No feed is known, so time stands for mass: the forecast holds while duty and dust stay as"
              + " they were"
              + (spread > 1
                  ? ", within a factor of " + Numbers.text(spread) + "."
                  : ". --future-factor carries the spread of another duty."),
          "");
    }
    if (f.earlier().isEmpty()) {
      result.finding(
          CAUTION,
          (tables > 0
                  ? "Of "
                      + tables
                      + " earlier logs too few reached the limit"
                      + (like < tables ? " or have a feed as this one" : "")
                  : "No earlier logs are given")
              + ", so the blocking law alone forecasts. No single law follows an element for long:"
              + " logs of earlier elements to the limit (--train) make it far surer.",
          "");
    }
    if (f.fit().exponentError() > 0.3) {
      result.finding(
          NOTE,
          "The run is too short to tell its blocking exponent: the one shown is mostly what other"
              + " media have.",
          "");
    }
    if (clean.isEmpty() && incidents.stream().noneMatch(i -> i.kind() == Incident.Kind.CHANGE)) {
      result.finding(
          NOTE,
          "The log is taken to begin with a clean element. --clean-kPa lets a missing element be"
              + " noticed.",
          "");
    }
    if (r.value() > 0 && r.high() > 3 * Math.max(r.low(), 1e-12)) {
      result.finding(NOTE, "The interval is wide: plan by its lower end.", "");
    }
  }
}
