package siltwright.fleet.internal;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import siltwright.analysis.Axis;
import siltwright.analysis.Figure;
import siltwright.analysis.Layer;
import siltwright.analysis.Panel;
import siltwright.fleet.MeanCumulative;

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
    }
    return figures;
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
  }
}
