package siltwright.charts.screen;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Optional;
import java.util.function.DoubleUnaryOperator;
import siltwright.analysis.Axis;
import siltwright.analysis.Figure;
import siltwright.analysis.Layer;
import siltwright.analysis.Numbers;
import siltwright.analysis.Panel;

/**
 * What a figure says at an x: values that were computed, never ones between them.
 *
 * @param x the x of the nearest computed point
 * @param heading x with its label and unit
 * @param lines a line for each layer that has a value there
 */
record Reading(double x, String heading, List<Line> lines) {
  /**
   * A value.
   *
   * @param panel its panel, from the top
   * @param label its layer; empty where the layer has no label
   * @param y where it stands; not a number for a range
   * @param text its value with its unit
   */
  record Line(int panel, String label, double y, String text) {}

  /**
   * Reads a figure.
   *
   * @param x where the pointer is
   * @param place gives the place of an x on the screen, to find the nearest by
   * @return nothing if the figure has no points
   */
  static Optional<Reading> at(Figure figure, double x, DoubleUnaryOperator place) {
    double nearest = Double.NaN;
    double least = Double.POSITIVE_INFINITY;
    for (Panel panel : figure.panels()) {
      for (Layer layer : panel.layers()) {
        double[] xs = xs(layer);
        int i = nearest(layer, xs, x, place);
        if (i >= 0) {
          double away = Math.abs(place.applyAsDouble(xs[i]) - place.applyAsDouble(x));
          if (away < least) {
            least = away;
            nearest = xs[i];
          }
        }
      }
    }
    if (Double.isNaN(nearest)) {
      return Optional.empty();
    }
    List<Line> lines = new ArrayList<>();
    for (int p = 0; p < figure.panels().size(); p++) {
      Panel panel = figure.panels().get(p);
      for (Layer layer : panel.layers()) {
        add(lines, p, panel.y(), layer, nearest);
      }
    }
    String heading = named(figure.x().label(), with(nearest, figure.x().unit()));
    return Optional.of(new Reading(nearest, heading, lines));
  }

  private static String named(String label, String value) {
    return label.isEmpty() ? value : label + " " + value;
  }

  private static String with(double value, String unit) {
    return (Numbers.grouped(Numbers.text(value)) + " " + Numbers.shown(unit)).strip();
  }

  private static void add(List<Line> lines, int panel, Axis axis, Layer layer, double x) {
    double[] xs = xs(layer);
    String unit = axis.unit();
    if (layer instanceof Layer.Steps steps) {
      int i = at(xs, x);
      if (i >= 0) {
        number(lines, panel, layer.label(), steps.ys()[i], unit);
      }
      return;
    }
    if (layer instanceof Layer.Level level) {
      number(lines, panel, level.label(), level.y(), unit);
      return;
    }
    for (int i = first(xs, x); i >= 0 && i < xs.length && xs[i] == x; i++) {
      if (layer instanceof Layer.Line line) {
        number(lines, panel, layer.label(), line.ys()[i], unit);
      } else if (layer instanceof Layer.Points points) {
        number(lines, panel, layer.label(), points.ys()[i], unit);
      } else if (layer instanceof Layer.Band band && Double.isFinite(band.lows()[i])) {
        String low = Numbers.grouped(Numbers.text(band.lows()[i]));
        lines.add(
            new Line(panel, layer.label(), Double.NaN, low + " to " + with(band.highs()[i], unit)));
      } else if (layer instanceof Layer.Stack stack) {
        double sum = 0;
        for (Layer.Part part : stack.parts()) {
          sum += part.ys()[i];
          if (Double.isFinite(part.ys()[i])) {
            lines.add(new Line(panel, part.label(), sum, with(part.ys()[i], unit)));
          }
        }
      }
    }
  }

  private static void number(List<Line> lines, int panel, String label, double y, String unit) {
    if (Double.isFinite(y)) {
      lines.add(new Line(panel, label, y, with(y, unit)));
    }
  }

  private static double[] xs(Layer layer) {
    if (layer instanceof Layer.Line l) {
      return l.xs();
    }
    if (layer instanceof Layer.Steps l) {
      return l.xs();
    }
    if (layer instanceof Layer.Band l) {
      return l.xs();
    }
    if (layer instanceof Layer.Stack l) {
      return l.xs();
    }
    return layer instanceof Layer.Points l ? l.xs() : new double[0];
  }

  /**
   * Returns the point with the nearest x; -1 if there is none. Only single points may be unsorted.
   */
  private static int nearest(Layer layer, double[] xs, double x, DoubleUnaryOperator place) {
    if (xs.length == 0) {
      return -1;
    }
    if (layer instanceof Layer.Points) {
      int best = 0;
      double at = place.applyAsDouble(x);
      for (int i = 1; i < xs.length; i++) {
        if (Math.abs(place.applyAsDouble(xs[i]) - at)
            < Math.abs(place.applyAsDouble(xs[best]) - at)) {
          best = i;
        }
      }
      return best;
    }
    int i = Arrays.binarySearch(xs, x);
    if (i >= 0) {
      return i;
    }
    int above = Math.min(-i - 1, xs.length - 1);
    int below = Math.max(0, above - 1);
    return x - xs[below] < xs[above] - x ? below : above;
  }

  /** Returns the first point at an x; -1 if there is none. */
  private static int first(double[] xs, double x) {
    for (int i = 0; i < xs.length; i++) {
      if (xs[i] == x) {
        return i;
      }
    }
    return -1;
  }

  /** Returns the step that holds at an x; -1 before the first. */
  private static int at(double[] xs, double x) {
    int i = Arrays.binarySearch(xs, x);
    return i >= 0 ? i : -i - 2;
  }
}
