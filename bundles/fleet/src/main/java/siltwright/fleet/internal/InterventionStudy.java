package siltwright.fleet.internal;

import static siltwright.analysis.Finding.Severity.CAUTION;
import static siltwright.analysis.Finding.Severity.NOTE;
import static siltwright.analysis.Finding.Severity.WARNING;

import java.time.LocalDate;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Optional;
import siltwright.analysis.Axis;
import siltwright.analysis.Cell;
import siltwright.analysis.Entry;
import siltwright.analysis.Entry.Column;
import siltwright.analysis.Figure;
import siltwright.analysis.Layer;
import siltwright.analysis.Panel;
import siltwright.analysis.Result;
import siltwright.fleet.BeforeAfter;
import siltwright.fleet.BeforeAfter.Term;
import siltwright.fleet.EventData;
import siltwright.fleet.PoissonRates;
import siltwright.life.Estimate;
import siltwright.life.Estimated;
import siltwright.life.Interval;
import siltwright.life.Refusal;

/** What an intervention did, each machine as its own control. */
final class InterventionStudy {
  private static final int BINS = 6;

  /** A bin in which fewer events are expected shows little but its own chance. */
  private static final double LEAST_EXPECTED = 2;

  /** Events below which step and slopes are too much to ask (common practice, no source). */
  private static final int FEW_EVENTS = 30;

  /** Difference of the shares of a season before and after from which it is told. */
  private static final double UNEVEN_SEASON = 0.15;

  private final EventRecords records;
  private final EventData data;
  private final double[] at;
  private final Optional<MachineDates> dates;
  private final List<Refusal> refusals = new ArrayList<>();

  /** The step alone, and the step with slopes; with the yearly wave where dates are known. */
  final Optional<BeforeAfter> step;

  final Optional<BeforeAfter> slopes;

  InterventionStudy(EventRecords records, double[] at) {
    this.records = records;
    this.data = records.data();
    this.at = at;
    this.dates = records.dates();
    step = fit(Term.STEP);
    slopes = fit(Term.TREND, Term.STEP, Term.BEND);
  }

  private Optional<BeforeAfter> fit(Term... own) {
    List<Term> terms = new ArrayList<>(List.of(own));
    if (dates.isPresent()) {
      terms.add(Term.SINE);
      terms.add(Term.COSINE);
    }
    Estimate<BeforeAfter> fit = BeforeAfter.fit(data, at, terms, dates.orElse(null));
    if (!fit.exists() && !refusals.contains(fit.refusal())) {
      refusals.add(fit.refusal());
    }
    return fit.exists() ? Optional.of(fit.get()) : Optional.empty();
  }

  /** Returns events and hours before and after, of machines that had the intervention. */
  private double[] sides() {
    double[] sides = new double[4];
    for (int e = 0; e < data.events(); e++) {
      int m = data.eventMachine(e);
      if (!Double.isNaN(at[m])) {
        sides[data.atH(e) > at[m] ? 1 : 0]++;
      }
    }
    for (int w = 0; w < data.windows(); w++) {
      double c = at[data.windowMachine(w)];
      if (!Double.isNaN(c)) {
        double from = data.fromH(w);
        double to = data.toH(w);
        sides[2] += Math.max(0, Math.min(to, c) - from);
        sides[3] += Math.max(0, to - Math.max(from, c));
      }
    }
    return sides;
  }

  /** Returns the answer in one short sentence, with money where an event has a cost. */
  String sentence(Settings settings, double eventCost) {
    if (step.isEmpty()) {
      return "Of the intervention nothing can be told: " + refusals.get(0);
    }
    Estimated f = step.get().factor(Term.STEP, Settings.CONFIDENCE);
    double p = step.get().pValue(Term.STEP);
    double[] sides = sides();
    if (p >= Settings.LEVEL) {
      return "These data can't tell whether the intervention did anything: "
          + Words.rough(f.wald())
          + " times the events are possible after it (95 %; "
          + Words.p(p)
          + ")"
          + Answer.moreHours(
              Distances.timesTheHours(Distances.z(f)), sides[2] + sides[3], "machine-hours")
          + ".";
    }
    double yearly = settings.hoursAYear() * sides[0] / sides[2] * (eventCost > 0 ? eventCost : 1);
    double fewer = yearly * (1 - f.value());
    double low = Math.abs(yearly * (1 - f.wald().upper()));
    double high = Math.abs(yearly * (1 - f.wald().lower()));
    return "After the intervention machines have "
        + Words.rough(f.value())
        + " times the events that they had before (95 %: "
        + Words.rough(f.wald())
        + "; "
        + Words.p(p)
        + "), which "
        + (eventCost > 0
            ? (fewer > 0 ? "saves " : "costs ")
                + Words.rough(Math.abs(fewer))
                + " "
                + settings.currency()
            : "is " + Words.rough(Math.abs(fewer)) + " events " + (fewer > 0 ? "fewer" : "more"))
        + " a year for each machine (95 %: "
        + Words.rough(new Interval(Math.min(low, high), Math.max(low, high)))
        + ").";
  }

  /** Returns all there is to say of it, with money where an event has a cost. */
  String answer(Settings settings, double eventCost) {
    if (step.isEmpty()) {
      return "Of the intervention nothing can be told: " + refusals.get(0);
    }
    Estimated f = step.get().factor(Term.STEP, Settings.CONFIDENCE);
    double p = step.get().pValue(Term.STEP);
    double[] sides = sides();
    double before = sides[0] / sides[2];
    double hours = settings.hoursAYear();
    if (p < Settings.LEVEL) {
      double fewer = hours * before * (1 - f.value());
      double low = hours * before * (1 - f.wald().upper());
      double high = hours * before * (1 - f.wald().lower());
      boolean less = f.value() < 1;
      Interval range = less ? new Interval(low, high) : new Interval(-high, -low);
      String money =
          eventCost > 0
              ? ", or "
                  + Words.rough(Math.abs(fewer) * eventCost)
                  + " "
                  + settings.currency()
                  + " (95 %: "
                  + Words.rough(new Interval(range.lower() * eventCost, range.upper() * eventCost))
                  + ")"
              : "";
      return "After the intervention machines have "
          + Words.rough(f.value())
          + " times the events that they had before (95 %: "
          + Words.rough(f.wald())
          + "; "
          + Words.p(p)
          + "), each its own control: "
          + Words.rough(Math.abs(fewer))
          + " events "
          + (less ? "fewer" : "more")
          + " a year for each machine at "
          + Words.rough(hours)
          + " h a year"
          + money
          + ".";
    }
    double times = Distances.timesTheHours(Distances.z(f));
    double watched = sides[2] + sides[3];
    return "These data can't tell whether the intervention did anything: after it "
        + Words.rough(f.wald())
        + " times the events are possible (95 %; "
        + Words.p(p)
        + "). "
        + (times > Distances.MOST
            ? "No amount of hours worth waiting for would make a change this small sure."
            : "If the change is what it looks like, "
                + Words.rough((times - 1) * watched)
                + " more machine-hours would show it in 8 of 10 such cases ("
                + Words.rough(watched)
                + " were watched).");
  }

  Entry.Table table() {
    List<List<Cell>> rows = new ArrayList<>();
    step.ifPresent(s -> rows.add(row("step", "step alone", "1", s, Term.STEP)));
    slopes.ifPresent(
        s -> {
          rows.add(row("step", "step with slopes", "1", s, Term.STEP));
          rows.add(row("trend", "slope before", "per 1000 h", s, Term.TREND));
          rows.add(row("bend", "change of slope", "per 1000 h", s, Term.BEND));
        });
    double[] sides = sides();
    return new Entry.Table(
        "intervention",
        "Intervention: "
            + Words.number(sides[0])
            + " events in "
            + Words.number(sides[2])
            + " h before, "
            + Words.number(sides[1])
            + " in "
            + Words.number(sides[3])
            + " h after",
        Entry.Use.READ,
        List.of(
            new Column("term", "Term", "", Entry.Use.DATA),
            new Column("model", "Factor on the rate", ""),
            new Column("per", "Per", ""),
            new Column("factor", "Factor", "1"),
            new Column("interval", "95 %", "1"),
            new Column("p", "p", "1")),
        rows);
  }

  private static List<Cell> row(
      String term, String model, String per, BeforeAfter fit, Term which) {
    Estimated f = fit.factor(which, Settings.CONFIDENCE);
    return List.of(
        Cell.of(term),
        Cell.of(model),
        per.equals("1") ? new Cell.None() : Cell.of("1000 h"),
        Cell.of(f.value()),
        new Cell.Range(f.wald().lower(), f.wald().upper()),
        Cell.of(fit.pValue(which)));
  }

  /** Rates in bins of hours since the intervention, and what the fit expects there. */
  Optional<Figure> figure() {
    Optional<BeforeAfter> fit = slopes.or(() -> step);
    if (fit.isEmpty()) {
      return Optional.empty();
    }
    double before = 0;
    double after = 0;
    for (int w = 0; w < data.windows(); w++) {
      double c = at[data.windowMachine(w)];
      if (!Double.isNaN(c)) {
        before = Math.max(before, c - data.fromH(w));
        after = Math.max(after, data.toH(w) - c);
      }
    }
    double[] bounds = new double[2 * BINS + 1];
    for (int k = 0; k <= BINS; k++) {
      bounds[k] = -before * (BINS - k) / BINS;
      bounds[BINS + k] = after * k / BINS;
    }
    double[] hours = new double[2 * BINS];
    double[] counts = new double[2 * BINS];
    for (int w = 0; w < data.windows(); w++) {
      double c = at[data.windowMachine(w)];
      for (int k = 0; k < hours.length && !Double.isNaN(c); k++) {
        hours[k] +=
            Math.max(
                0,
                Math.min(data.toH(w), c + bounds[k + 1]) - Math.max(data.fromH(w), c + bounds[k]));
      }
    }
    for (int e = 0; e < data.events(); e++) {
      double since = data.atH(e) - at[data.eventMachine(e)];
      for (int k = 0; k < counts.length; k++) {
        counts[k] += since > bounds[k] && since <= bounds[k + 1] ? 1 : 0;
      }
    }
    double[] expected = fit.get().expected(bounds);
    double[] xs = new double[hours.length];
    double[] rates = new double[hours.length];
    // The line breaks at the intervention: a point without a y between the two sides.
    double[] lineXs = new double[hours.length + 1];
    double[] fitted = new double[hours.length + 1];
    fitted[BINS] = Double.NaN;
    List<Layer> layers = new ArrayList<>();
    for (int k = 0; k < xs.length; k++) {
      int place = k < BINS ? k : k + 1;
      xs[k] = 0.5 * (bounds[k] + bounds[k + 1]);
      lineXs[place] = xs[k];
      boolean shown = expected[k] >= LEAST_EXPECTED;
      rates[k] = shown ? 1000 * counts[k] / hours[k] : Double.NaN;
      fitted[place] = shown ? 1000 * expected[k] / hours[k] : Double.NaN;
      if (shown) {
        Interval i = PoissonRates.interval((long) counts[k], hours[k], Settings.CONFIDENCE);
        layers.add(
            new Layer.Line(
                layers.isEmpty() ? "95 %, events by chance" : "",
                new double[] {xs[k], xs[k]},
                new double[] {1000 * i.lower(), 1000 * i.upper()},
                Layer.Style.REFERENCE));
      }
    }
    layers.add(new Layer.Line("fit", lineXs, fitted, Layer.Style.MAIN));
    layers.add(new Layer.Points("counted", xs, rates, Layer.Mark.EVENT));
    layers.add(new Layer.At("intervention", 0, Layer.Style.MAIN));
    return Optional.of(
        new Figure(
            "intervention",
            "Events before and after the intervention",
            "Machines with the intervention, their hours counted from it. The line is the fit with"
                + " step and slopes, each machine with its own level.",
            Axis.linear("Since the intervention", "h"),
            List.of(new Panel(Axis.linear("Events", "per 1000 h"), layers))));
  }

  void addFindings(Result.Builder result) {
    for (Refusal r : refusals) {
      result.finding(WARNING, r.why() + " " + r.instead(), "intervention");
    }
    long none = Arrays.stream(at).filter(Double::isNaN).count();
    if (none > 0) {
      result.finding(
          NOTE,
          Words.count(none, "machine", "machines")
              + " without the intervention: of use for slope and season only.",
          "intervention");
    } else {
      result.finding(
          CAUTION,
          "All machines had the intervention, so whatever else changed at that time counts as its"
              + " work. Machines left as they were, or other hours on each, would part the two.",
          "intervention");
    }
    result.finding(
        NOTE,
        "If the intervention came because a machine was bad just then, some of its improvement is"
            + " chance coming back to the mean.",
        "intervention");
    double[] sides = sides();
    if (sides[0] + sides[1] < FEW_EVENTS) {
      result.finding(
          CAUTION,
          "With few events step and slopes are hardly told apart: look at the step alone.",
          "intervention");
    }
    slopes.ifPresent(
        s -> {
          if (s.pValue(Term.TREND) < Settings.LEVEL || s.pValue(Term.BEND) < Settings.LEVEL) {
            result.finding(
                CAUTION,
                "The rate has a slope of its own, so the step with slopes is the fairer one.",
                "intervention");
          }
        });
    season(result);
  }

  private void season(Result.Builder result) {
    if (dates.isEmpty()) {
      result.finding(
          NOTE,
          "Seasons are not allowed for: compare whole years, or give a column date with the date of"
              + " each row.",
          "intervention");
      return;
    }
    double[][] shares = new double[2][4];
    for (int w = 0; w < data.windows(); w++) {
      int m = data.windowMachine(w);
      double length = data.toH(w) - data.fromH(w);
      int parts = 200;
      for (int k = 0; k < parts && !Double.isNaN(at[m]); k++) {
        double h = data.fromH(w) + length * (k + 0.5) / parts;
        int month = LocalDate.ofEpochDay((long) dates.get().day(m, h)).getMonthValue();
        shares[h > at[m] ? 1 : 0][(month - 1) / 3] += length / parts;
      }
    }
    double worst = 0;
    int quarter = 0;
    for (int q = 0; q < 4; q++) {
      double difference =
          shares[1][q] / Arrays.stream(shares[1]).sum()
              - shares[0][q] / Arrays.stream(shares[0]).sum();
      if (Math.abs(difference) > Math.abs(worst)) {
        worst = difference;
        quarter = q;
      }
    }
    String[] quarters = {
      "January to March", "April to June", "July to September", "October to December"
    };
    Optional<BeforeAfter> fit = step.or(() -> slopes);
    String wave =
        fit.map(f -> " A yearly wave is allowed for (" + Words.p(f.waveTest().pValue()) + ").")
            .orElse("");
    if (Math.abs(worst) > UNEVEN_SEASON) {
      result.finding(
          CAUTION,
          "The hours after the intervention hold "
              + Words.rough(100 * Math.abs(worst))
              + " points "
              + (worst > 0 ? "more" : "less")
              + " of "
              + quarters[quarter]
              + " than those before: season and intervention are hard to part."
              + wave,
          "intervention");
    } else {
      result.finding(
          NOTE,
          "The seasons are spread alike before and after the intervention." + wave,
          "intervention");
    }
  }
}
