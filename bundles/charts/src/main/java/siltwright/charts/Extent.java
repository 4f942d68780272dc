package siltwright.charts;

import org.jfree.data.Range;
import siltwright.analysis.Axis;
import siltwright.analysis.Figure;
import siltwright.analysis.Layer;
import siltwright.analysis.Panel;

/** From where to where an axis runs. Only values that have a place on the axis count. */
final class Extent {
  private static final double PAD = 0.05;
  private static final double ZERO_IS_NEAR = 0.4;

  /** The difference of two values must be a number, too. */
  private static final double TOO_FAR = 1e150;

  private static final double LONGEST_DECADES = 9;

  private final Axis axis;
  private final double whole;
  private double low = Double.POSITIVE_INFINITY;
  private double high = Double.NEGATIVE_INFINITY;
  private boolean points;

  private Extent(Axis axis) {
    this.axis = axis;
    this.whole = axis.unit().equals("%") ? 100 : 1;
  }

  /** Returns the extent of the x axis of a figure. */
  static Extent x(Figure figure) {
    Extent extent = new Extent(figure.x());
    for (Panel panel : figure.panels()) {
      for (Layer layer : panel.layers()) {
        LayerData.of(layer)
            .ifPresent(
                data -> {
                  for (int i = 0; i < data.getItemCount(0); i++) {
                    // An x without a y shows nothing.
                    if (Double.isFinite(data.getYValue(0, i))) {
                      extent.add(data.getXValue(0, i));
                    }
                  }
                });
        extent.points |= layer instanceof Layer.Points;
        if (layer instanceof Layer.At at) {
          extent.add(at.x());
        } else if (layer instanceof Layer.Span span) {
          extent.add(span.low(), span.high());
        }
      }
    }
    return extent;
  }

  /** Returns the extent of the y axis of a panel. */
  static Extent y(Panel panel) {
    Extent extent = new Extent(panel.y());
    for (Layer layer : panel.layers()) {
      if (layer instanceof Layer.Line line) {
        extent.add(line.ys());
      } else if (layer instanceof Layer.Steps steps) {
        extent.add(steps.ys());
      } else if (layer instanceof Layer.Points points) {
        extent.add(points.ys());
      } else if (layer instanceof Layer.Band band) {
        extent.add(band.lows());
        extent.add(band.highs());
      } else if (layer instanceof Layer.Stack stack) {
        for (double[] top : LayerRenderer.tops(stack)) {
          extent.add(top);
        }
      } else if (layer instanceof Layer.Level level) {
        extent.add(level.y());
      }
      extent.points |= layer instanceof Layer.Points;
    }
    return extent;
  }

  private void add(double... values) {
    for (double v : values) {
      if (Math.abs(v) < TOO_FAR && Double.isFinite(ScaleAxis.forward(axis.scale(), whole, v))) {
        low = Math.min(low, v);
        high = Math.max(high, v);
      }
    }
  }

  /** Returns whether nothing has a place on the axis. */
  boolean isEmpty() {
    return low > high;
  }

  /** Returns the range of an x axis: as far as the data, and some room round points. */
  Range across() {
    return range(points ? PAD : 0);
  }

  /** Returns the range of a y axis: some room above and below. */
  Range upwards() {
    return range(PAD);
  }

  private Range range(double pad) {
    if (!axis.names().isEmpty()) {
      return new Range(0.5, axis.names().size() + 0.5);
    }
    if (isEmpty()) {
      return axis.scale() == Axis.Scale.LINEAR ? new Range(0, whole) : new Range(0.1, 0.9);
    }
    return switch (axis.scale()) {
      case LINEAR -> linear(pad);
      case LOG -> log(pad);
      case WEIBULL, NORMAL -> {
        // A probability paper shows its middle, however few points there are.
        double least = Math.min(low / whole / 1.5, 0.05);
        double most = Math.max(1 - (1 - high / whole) / 1.5, 0.95);
        yield new Range(whole * least, whole * most);
      }
    };
  }

  private Range linear(double pad) {
    double from = low;
    double to = high;
    if (from > 0 && from < ZERO_IS_NEAR * to) {
      from = 0;
    } else if (to < 0 && to > ZERO_IS_NEAR * from) {
      to = 0;
    }
    double length = to - from;
    // A constant, or nearly one: arithmetic needs some width.
    if (length <= 1e-9 * Math.max(Math.abs(from), Math.abs(to))) {
      double half = to == 0 ? 1 : Math.abs(to) * 0.1;
      return new Range(from - half, to + half);
    }
    double below = from == 0 ? 0 : pad * length;
    double above = to == 0 ? 0 : pad * length;
    return new Range(from - below, to + above);
  }

  private Range log(double pad) {
    double to = Math.log10(high);
    double from = Math.max(Math.log10(low), to - LONGEST_DECADES);
    double length = to - from;
    if (length < 1e-6) {
      return new Range(high / 2, high * 2);
    }
    return new Range(Math.pow(10, from - pad * length), Math.pow(10, to + pad * length));
  }
}
