package siltwright.fleet.internal;

import java.util.ArrayList;
import java.util.List;
import siltwright.analysis.Axis;
import siltwright.analysis.Figure;
import siltwright.analysis.Layer;
import siltwright.analysis.Panel;
import siltwright.life.KaplanMeier;

/** The pictures of a comparison of lives. */
final class LifeFigures {
  private static final int MOST_LINES = 6;

  private final LifeStudy study;

  LifeFigures(LifeStudy study) {
    this.study = study;
  }

  List<Figure> all() {
    List<Figure> figures = new ArrayList<>();
    boolean known = study.members.stream().allMatch(m -> m.survival().isPresent());
    if (known && study.members.size() <= MOST_LINES) {
      figures.add(survival());
      figures.add(apart());
    }
    Rows rows = new Rows(true);
    for (LifeStudy.Comparison c : study.comparisons) {
      c.factor()
          .ifPresent(
              f ->
                  rows.add(
                      study.groups.names().get(c.pair().first())
                          + " : "
                          + study.groups.names().get(c.pair().second()),
                      f.value(),
                      f.wald()));
    }
    if (!rows.isEmpty()) {
      figures.add(
          rows.figure(
              "forest",
              "Lives of one group over those of another",
              "An interval that does not reach the line says that the groups differ. "
                  + (study.settings.adjust().isEmpty()
                      ? "Nothing but age is allowed for."
                      : "Allowed for: " + Words.list(study.settings.adjust()) + "."),
              Axis.log("Life of the first over that of the second", "1"),
              "Groups",
              new Layer.At("no difference", 1, Layer.Style.REFERENCE)));
    }
    return figures;
  }

  /** Share that survives, in %, from the begin to the last hour that anything was seen. */
  private record Curve(double[] xs, double[] ys, double[] lows, double[] highs) {
    static Curve of(KaplanMeier km) {
      double[] times = km.timesH();
      double[] survival = km.survival();
      double[][] band = km.band(KaplanMeier.Band.LOG_LOG, Settings.CONFIDENCE);
      int n = times.length;
      double[][] out = new double[4][n + 2];
      for (int k = 1; k < 4; k++) {
        out[k][0] = 100;
      }
      for (int i = 0; i < n; i++) {
        out[0][i + 1] = times[i];
        out[1][i + 1] = 100 * survival[i];
        out[2][i + 1] = 100 * band[0][i];
        out[3][i + 1] = 100 * band[1][i];
      }
      out[0][n + 1] = km.lastH();
      for (int k = 1; k < 4; k++) {
        out[k][n + 1] = out[k][n];
      }
      return new Curve(out[0], out[1], out[2], out[3]);
    }

    /** Returns the band with a point at both ends of each step. */
    Layer band() {
      int n = 2 * xs.length - 1;
      double[] x = new double[n];
      double[] low = new double[n];
      double[] high = new double[n];
      for (int i = 0; i < n; i++) {
        x[i] = xs[(i + 1) / 2];
        low[i] = lows[i / 2];
        high[i] = highs[i / 2];
      }
      return new Layer.Band("95 %", x, low, high);
    }
  }

  private Figure survival() {
    List<Layer> layers = new ArrayList<>();
    for (LifeStudy.Group g : study.members) {
      Curve c = Curve.of(g.survival().orElseThrow());
      layers.add(new Layer.Steps(g.name(), c.xs, c.ys, Layer.Style.COMPARED));
    }
    return new Figure(
        "survival",
        "Survival",
        "Share of the components that reaches an age.",
        Axis.linear("Age", "h"),
        List.of(new Panel(Axis.linear("Survive", "%"), layers)));
  }

  /** Small multiples: each group with its band, the others behind it for the eye. */
  private Figure apart() {
    List<Panel> panels = new ArrayList<>();
    for (LifeStudy.Group g : study.members) {
      List<Layer> layers = new ArrayList<>();
      for (LifeStudy.Group other : study.members) {
        if (other != g) {
          Curve c = Curve.of(other.survival().orElseThrow());
          layers.add(new Layer.Steps("", c.xs, c.ys, Layer.Style.REFERENCE));
        }
      }
      Curve c = Curve.of(g.survival().orElseThrow());
      layers.add(c.band());
      layers.add(new Layer.Steps(g.name(), c.xs, c.ys, Layer.Style.MAIN));
      panels.add(new Panel(Axis.linear("Survive", "%"), layers));
    }
    return new Figure(
        "survival_groups",
        "Each group with what it is sure of",
        "The band holds the share of such components at any one age 95 times in 100. Dashed: the"
            + " other groups.",
        Axis.linear("Age", "h"),
        panels);
  }
}
