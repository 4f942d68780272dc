package siltwright.fleet.internal;

import java.util.ArrayList;
import java.util.List;
import siltwright.analysis.Axis;
import siltwright.analysis.Figure;
import siltwright.analysis.Layer;
import siltwright.analysis.Panel;
import siltwright.life.Interval;

/**
 * A picture of rows: a name, a point, its interval. In a forest plot the rows are comparisons and
 * the line stands for no difference; in a ranked one they are groups and the line is that of all.
 */
final class Rows {
  private final List<String> names = new ArrayList<>();
  private final List<Double> points = new ArrayList<>();
  private final List<Interval> intervals = new ArrayList<>();
  private final boolean positive;

  /**
   * Begins without rows.
   *
   * @param positive whether only numbers above 0 have a place, as on a log axis
   */
  Rows(boolean positive) {
    this.positive = positive;
  }

  /** Adds a row; one without a finite point is left out. */
  void add(String name, double point, Interval interval) {
    if (Double.isFinite(point) && (!positive || point > 0)) {
      names.add(name);
      points.add(point);
      intervals.add(interval);
    }
  }

  boolean isEmpty() {
    return names.isEmpty();
  }

  Figure figure(
      String name, String title, String caption, Axis x, String rows, Layer.At reference) {
    List<Layer> layers = new ArrayList<>();
    layers.add(reference);
    double[] xs = new double[names.size()];
    double[] ys = new double[names.size()];
    double least = points.stream().mapToDouble(p -> p).min().orElse(1);
    double most = points.stream().mapToDouble(p -> p).max().orElse(1);
    for (int i = 0; i < xs.length; i++) {
      xs[i] = points.get(i);
      ys[i] = i + 1;
      double low = intervals.get(i).lower();
      double high = intervals.get(i).upper();
      if (!Double.isNaN(low) && !Double.isNaN(high)) {
        // An open end is drawn as far as the others make sense of.
        low = positive ? Math.max(low, least / 10) : low;
        high = Math.min(high, positive ? most * 10 : Double.MAX_VALUE);
        layers.add(
            new Layer.Line(
                i == 0 ? "95 %" : "",
                new double[] {low, high},
                new double[] {ys[i], ys[i]},
                Layer.Style.MAIN));
      }
    }
    layers.add(new Layer.Points("", xs, ys, Layer.Mark.EVENT));
    return new Figure(name, title, caption, x, List.of(new Panel(Axis.names(rows, names), layers)));
  }
}
