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
    }
    return figures;
  }

  private Figure survival() {
    List<Layer> layers = new ArrayList<>();
    for (LifeStudy.Group g : study.members) {
      KaplanMeier km = g.survival().orElseThrow();
      double[] times = km.timesH();
      double[] survival = km.survival();
      int n = times.length;
      double[] xs = new double[n + 2];
      double[] ys = new double[n + 2];
      ys[0] = 100;
      for (int i = 0; i < n; i++) {
        xs[i + 1] = times[i];
        ys[i + 1] = 100 * survival[i];
      }
      xs[n + 1] = km.lastH();
      ys[n + 1] = ys[n];
      layers.add(new Layer.Steps(g.name(), xs, ys, Layer.Style.COMPARED));
    }
    return new Figure(
        "survival",
        "Survival",
        "Share of the components that reaches an age.",
        Axis.linear("Age", "h"),
        List.of(new Panel(Axis.linear("Survive", "%"), layers)));
  }
}
