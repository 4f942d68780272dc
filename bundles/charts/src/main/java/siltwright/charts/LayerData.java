package siltwright.charts;

import java.util.Optional;
import org.jfree.data.xy.AbstractXYDataset;
import siltwright.analysis.Layer;

/** The points of a layer, as the chart library wants to see them. */
final class LayerData extends AbstractXYDataset {
  private static final long serialVersionUID = 1;

  private final String label;
  private final double[] xs;
  private final double[] ys;

  private LayerData(String label, double[] xs, double[] ys) {
    this.label = label;
    this.xs = xs;
    this.ys = ys;
  }

  /** Returns the data of a layer that has points; nothing for a mark. */
  static Optional<LayerData> of(Layer layer) {
    LayerData data = null;
    if (layer instanceof Layer.Line line) {
      data = new LayerData(line.label(), line.xs(), line.ys());
    } else if (layer instanceof Layer.Steps steps) {
      data = new LayerData(steps.label(), steps.xs(), steps.ys());
    } else if (layer instanceof Layer.Band band) {
      data = new LayerData(band.label(), band.xs(), band.highs());
    } else if (layer instanceof Layer.Stack stack) {
      double[][] tops = LayerRenderer.tops(stack);
      data = new LayerData(stack.label(), stack.xs(), tops[tops.length - 1]);
    } else if (layer instanceof Layer.Points points) {
      data = new LayerData(points.label(), points.xs(), points.ys());
    }
    return Optional.ofNullable(data);
  }

  @Override
  public int getSeriesCount() {
    return 1;
  }

  @Override
  public Comparable<?> getSeriesKey(int series) {
    return label;
  }

  @Override
  public int getItemCount(int series) {
    return xs.length;
  }

  @Override
  public Number getX(int series, int item) {
    return xs[item];
  }

  @Override
  public Number getY(int series, int item) {
    return ys[item];
  }
}
