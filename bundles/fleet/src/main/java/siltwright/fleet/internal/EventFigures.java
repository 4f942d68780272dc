package siltwright.fleet.internal;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;
import siltwright.analysis.Axis;
import siltwright.analysis.Figure;
import siltwright.analysis.Layer;
import siltwright.analysis.Panel;
import siltwright.fleet.MeanCumulative;
import siltwright.fleet.MeanDifference;
import siltwright.life.Interval;

/** The pictures of a comparison of events. */
final class EventFigures {
  /** Most groups that lines can tell apart. */
  private static final int MOST_LINES = 6;

  private static final int MOST_POINTS = 400;

  private final EventStudy study;

  EventFigures(EventStudy study) {
    this.study = study;
  }

  List<Figure> all() {
    List<Figure> figures = new ArrayList<>();
    if (study.groups.size() <= MOST_LINES) {
      figures.add(means());
      figures.add(apart());
    }
    study.intervention.flatMap(InterventionStudy::figure).ifPresent(figures::add);
    differences().ifPresent(figures::add);
    forest().ifPresent(figures::add);
    figures.add(ranked());
    if (study.records.data().machines().size() <= EventStudy.MOST_MACHINES) {
      figures.add(funnel());
    }
    if (study.records.data().hasMarks()) {
      costs().ifPresent(figures::add);
    }
    return figures;
  }

  private String name(int group) {
    return study.groups.get(group).name();
  }

  private String by() {
    return study.settings.by();
  }

  /** Small multiples: each group with its band, the others behind it for the eye. */
  private Figure apart() {
    List<Panel> panels = new ArrayList<>();
    double highest = 0;
    for (EventStudy.Group g : study.groups) {
      highest = Math.max(highest, Arrays.stream(Curve.of(g.mean()).highs).max().orElse(0));
    }
    for (EventStudy.Group g : study.groups) {
      List<Layer> layers = new ArrayList<>();
      for (EventStudy.Group other : study.groups) {
        if (other != g) {
          Curve c = Curve.of(other.mean());
          layers.add(new Layer.Steps("", c.xs, c.ys, Layer.Style.REFERENCE));
        }
      }
      Curve c = Curve.of(g.mean());
      Curve band = c.stepped();
      layers.add(new Layer.Band("95 %", band.xs, band.lows, band.highs));
      layers.add(new Layer.Steps(g.name(), c.xs, c.ys, Layer.Style.MAIN));
      // A line of one point shows nothing, but gives all panels the same scale.
      layers.add(
          new Layer.Line(
              "", new double[] {c.xs[0]}, new double[] {highest}, Layer.Style.REFERENCE));
      panels.add(new Panel(Axis.linear("Events a machine", "1"), layers));
    }
    return new Figure(
        "mcf_groups",
        "Each group with what it is sure of",
        "The band holds the mean of such machines at any one age 95 times in 100; machines, not"
            + " events, are what varies. Dashed: the other groups.",
        Axis.linear("Age", "h"),
        panels);
  }

  private Optional<Figure> differences() {
    List<Panel> panels = new ArrayList<>();
    for (EventStudy.Comparison c : study.comparisons) {
      if (c.means().isEmpty() || panels.size() == MOST_PANELS) {
        continue;
      }
      EventStudy.Group a = study.groups.get(c.pair().first());
      EventStudy.Group b = study.groups.get(c.pair().second());
      double end = Math.min(a.mean().lastH(), b.mean().lastH());
      double[] xs = new double[GRID];
      double[] ys = new double[GRID];
      double[] lows = new double[GRID];
      double[] highs = new double[GRID];
      for (int i = 0; i < GRID; i++) {
        xs[i] = end * i / (GRID - 1);
        MeanDifference d = MeanDifference.of(a.mean(), b.mean(), xs[i], Settings.CONFIDENCE);
        ys[i] = d.difference();
        lows[i] = d.interval().lower();
        highs[i] = d.interval().upper();
      }
      panels.add(
          new Panel(
              Axis.linear(a.name() + " less " + b.name(), "events a machine"),
              List.of(
                  new Layer.Band("95 %", xs, lows, highs),
                  new Layer.Level("no difference", 0),
                  new Layer.Line("difference", xs, ys, Layer.Style.MAIN),
                  new Layer.At("compared here", study.atH, Layer.Style.REFERENCE))));
    }
    return panels.isEmpty()
        ? Optional.empty()
        : Optional.of(
            new Figure(
                "mcf_difference",
                "Difference of the mean numbers of events",
                "Where the band lies off the line, the groups differ at that age, taken by itself.",
                Axis.linear("Age", "h"),
                panels));
  }

  private Optional<Figure> forest() {
    Rows rows = new Rows(true);
    for (EventStudy.Comparison c : study.comparisons) {
      c.ratio()
          .ifPresent(
              r ->
                  rows.add(
                      name(c.pair().first()) + " : " + name(c.pair().second()),
                      r.value(),
                      r.wald()));
    }
    if (rows.isEmpty()) {
      return Optional.empty();
    }
    boolean adjusted = study.adjusted.isPresent();
    return Optional.of(
        rows.figure(
            "forest",
            "Ratio of the rates of events",
            "An interval that does not reach the line says that the groups differ. "
                + (adjusted
                    ? "Allowed for: " + Words.list(study.settings.adjust()) + "."
                    : "Nothing but age is allowed for."),
            Axis.log("Rate of the first over that of the second", "1"),
            "Groups",
            new Layer.At("no difference", 1, Layer.Style.REFERENCE)));
  }

  /** Groups in the order of their rates, with intervals that say how little the order may mean. */
  private Figure ranked() {
    List<EventStudy.Group> order = new ArrayList<>(study.groups);
    order.sort(Comparator.comparingDouble(EventStudy.Group::ratePerH).reversed());
    Rows rows = new Rows(false);
    for (EventStudy.Group g : order) {
      Interval i = g.perHour().interval();
      Interval used = Double.isNaN(i.lower()) ? g.rate() : i;
      rows.add(
          g.name(), 1000 * g.ratePerH(), new Interval(1000 * used.lower(), 1000 * used.upper()));
    }
    double all = 1000 * study.records.data().events() / study.records.data().hoursH();
    return rows.figure(
        "ranked",
        "Groups by their rate of events",
        "Groups whose intervals overlap may stand in any order. The interval takes the machine as"
            + " what varies, or events as chance where there are too few machines for that.",
        Axis.linear("Events", "per 1000 h"),
        by(),
        new Layer.At("all", all, Layer.Style.REFERENCE));
  }

  private Optional<Figure> costs() {
    Rows rows = new Rows(false);
    for (EventStudy.Comparison c : study.comparisons) {
      c.cost()
          .filter(d -> !Double.isNaN(d.interval().lower()))
          .ifPresent(
              d ->
                  rows.add(
                      name(c.pair().first()) + " less " + name(c.pair().second()),
                      d.value(),
                      d.interval()));
    }
    String unit = study.settings.currency() + "/h";
    return rows.isEmpty()
        ? Optional.empty()
        : Optional.of(
            rows.figure(
                "costs",
                "Difference of the cost of events per hour",
                "Intervals by drawing machines anew. One that does not reach the line says that the"
                    + " costs differ.",
                Axis.linear("Cost an hour, first less second", unit),
                "Groups",
                new Layer.At("no difference", 0, Layer.Style.REFERENCE)));
  }

  /**
   * Machines against the hours they were watched, with what chance alone would leave them within.
   */
  private Figure funnel() {
    double[] counts = study.records.data().countByMachine();
    double[] hours = study.records.data().hoursByMachine();
    double all = study.records.data().events() / study.records.data().hoursH();
    double least = Arrays.stream(hours).min().orElse(1);
    double most = Arrays.stream(hours).max().orElse(1);
    double[] xs = new double[GRID];
    double[][] limits = new double[4][GRID];
    for (int i = 0; i < GRID; i++) {
      xs[i] = Math.max(least * 0.8, 1e-9) + (most * 1.05 - least * 0.8) * i / (GRID - 1);
      double[] shares = {0.025, 0.975, 0.001, 0.999};
      for (int k = 0; k < shares.length; k++) {
        limits[k][i] = 1000 * FunnelLimits.count(all * xs[i], shares[k]) / xs[i];
      }
    }
    List<Layer> layers = new ArrayList<>();
    layers.add(new Layer.Line("95 % by chance", xs, limits[0], Layer.Style.REFERENCE));
    layers.add(new Layer.Line("", xs, limits[1], Layer.Style.REFERENCE));
    layers.add(new Layer.Line("99.8 %", xs, limits[2], Layer.Style.LIMIT));
    layers.add(new Layer.Line("", xs, limits[3], Layer.Style.LIMIT));
    layers.add(new Layer.Level("all machines", 1000 * all));
    List<String> names = new ArrayList<>();
    double[] ys = new double[counts.length];
    for (int m = 0; m < counts.length; m++) {
      ys[m] = 1000 * counts[m] / hours[m];
      boolean out =
          ys[m] > 1000 * FunnelLimits.count(all * hours[m], 0.999) / hours[m]
              || ys[m] < 1000 * FunnelLimits.count(all * hours[m], 0.001) / hours[m];
      names.add(
          out
              ? study.records.data().machines().get(m)
                  + " ("
                  + name(study.records.groups().codes()[m])
                  + ")"
              : "");
    }
    boolean any = names.stream().anyMatch(n -> !n.isEmpty());
    layers.add(new Layer.Points("machines", hours, ys, Layer.Mark.EVENT, any ? names : List.of()));
    return new Figure(
        "funnel",
        "Machines and what chance leaves them",
        "If all machines were alike, 95 of 100 would lie within the inner limits and nearly all"
            + " within the outer ones: a machine watched for few hours may lie far out by chance."
            + " Those outside the outer limits bear their name and group.",
        Axis.linear("Watched", "h"),
        List.of(new Panel(Axis.linear("Events", "per 1000 h"), layers)));
  }

  private Figure means() {
    List<Layer> layers = new ArrayList<>();
    for (EventStudy.Group g : study.groups) {
      Curve c = Curve.of(g.mean());
      layers.add(new Layer.Steps(g.name(), c.xs, c.ys, Layer.Style.COMPARED));
    }
    layers.add(new Layer.At("compared here", study.atH, Layer.Style.REFERENCE));
    return new Figure(
        "mcf",
        "Mean number of events a machine",
        "Events that a machine of the group has had by an age, on average over those still under"
            + " watch. A curve bending up is wear, a straight one chance.",
        Axis.linear("Age", "h"),
        List.of(new Panel(Axis.linear("Events a machine", "1"), layers)));
  }

  private static final int GRID = 121;
  private static final int MOST_PANELS = 6;

  /** A mean with so many points that a picture can show them. */
  record Curve(double[] xs, double[] ys, double[] lows, double[] highs) {
    static Curve of(MeanCumulative m) {
      double[] times = m.timesH();
      double[] mean = m.mean();
      double[][] band = m.band(Settings.CONFIDENCE);
      int n = Math.min(times.length, MOST_POINTS);
      int[] at = new int[n];
      Arrays.setAll(at, i -> n == 1 ? 0 : (int) ((long) i * (times.length - 1) / (n - 1)));
      double[] xs = new double[n + 2];
      double[] ys = new double[n + 2];
      double[] lows = new double[n + 2];
      double[] highs = new double[n + 2];
      for (int i = 0; i < n; i++) {
        xs[i + 1] = times[at[i]];
        ys[i + 1] = mean[at[i]];
        lows[i + 1] = band[0][at[i]];
        highs[i + 1] = band[1][at[i]];
      }
      xs[n + 1] = m.lastH();
      ys[n + 1] = ys[n];
      lows[n + 1] = lows[n];
      highs[n + 1] = highs[n];
      return new Curve(xs, ys, lows, highs);
    }

    /** Returns the same with a point at both ends of each step, for a band. */
    Curve stepped() {
      int n = 2 * xs.length - 1;
      double[][] out = new double[4][n];
      double[][] in = {xs, ys, lows, highs};
      for (int i = 0; i < n; i++) {
        out[0][i] = xs[(i + 1) / 2];
        for (int k = 1; k < 4; k++) {
          out[k][i] = in[k][i / 2];
        }
      }
      return new Curve(out[0], out[1], out[2], out[3]);
    }
  }
}
