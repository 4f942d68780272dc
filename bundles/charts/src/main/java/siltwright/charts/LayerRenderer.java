package siltwright.charts;

import java.awt.Color;
import java.awt.Graphics2D;
import java.awt.Shape;
import java.awt.geom.Ellipse2D;
import java.awt.geom.Path2D;
import java.awt.geom.Rectangle2D;
import java.util.ArrayList;
import java.util.List;
import java.util.function.DoubleUnaryOperator;
import org.jfree.chart.axis.ValueAxis;
import org.jfree.chart.plot.CrosshairState;
import org.jfree.chart.plot.PlotRenderingInfo;
import org.jfree.chart.plot.XYPlot;
import org.jfree.chart.renderer.xy.AbstractXYItemRenderer;
import org.jfree.chart.renderer.xy.XYItemRendererState;
import org.jfree.chart.ui.RectangleEdge;
import org.jfree.data.xy.XYDataset;
import siltwright.analysis.Layer;

/** Draws one layer as a whole, when the chart asks for its first point. */
final class LayerRenderer extends AbstractXYItemRenderer {
  private static final long serialVersionUID = 1;
  private static final double EVENT_RADIUS = 3.6;
  private static final double CENSORED_RADIUS = 4.6;

  private final transient Layer layer;
  private final transient Look look;
  private final transient ChartTheme theme;

  LayerRenderer(Layer layer, Look look, ChartTheme theme) {
    this.layer = layer;
    this.look = look;
    this.theme = theme;
  }

  @Override
  public XYItemRendererState initialise(
      Graphics2D g2, Rectangle2D area, XYPlot plot, XYDataset data, PlotRenderingInfo info) {
    XYItemRendererState state = super.initialise(g2, area, plot, data, info);
    // Zoomed in, the first point may be out of sight and the layer still in it.
    state.setProcessVisibleItemsOnly(false);
    return state;
  }

  @Override
  public void drawItem(
      Graphics2D g2,
      XYItemRendererState state,
      Rectangle2D area,
      PlotRenderingInfo info,
      XYPlot plot,
      ValueAxis xAxis,
      ValueAxis yAxis,
      XYDataset data,
      int series,
      int item,
      CrosshairState crosshair,
      int pass) {
    if (series == 0 && item == 0) {
      draw(g2, shapes(area, xAxis, yAxis));
    }
  }

  /** Returns what is drawn, in pixels: a curve, an area a part, or a mark a point. */
  List<Shape> shapes(Rectangle2D area, ValueAxis xAxis, ValueAxis yAxis) {
    DoubleUnaryOperator toX = x -> xAxis.valueToJava2D(x, area, RectangleEdge.BOTTOM);
    DoubleUnaryOperator toY = y -> yAxis.valueToJava2D(y, area, RectangleEdge.LEFT);
    // An area's edge that the scale has no place for, such as none or all, is the panel's edge.
    double middle = yAxis.getRange().getCentralValue();
    DoubleUnaryOperator toEdge =
        y -> {
          double pixel = toY.applyAsDouble(y);
          return !Double.isNaN(pixel) ? pixel : y < middle ? area.getMaxY() : area.getY();
        };
    if (layer instanceof Layer.Line line) {
      return List.of(Curves.line(line.xs(), line.ys(), false, toX, toY));
    }
    if (layer instanceof Layer.Steps line) {
      return List.of(Curves.line(line.xs(), line.ys(), true, toX, toY));
    }
    if (layer instanceof Layer.Band band) {
      return List.of(Curves.area(band.xs(), band.lows(), band.highs(), toX, toEdge));
    }
    List<Shape> shapes = new ArrayList<>();
    if (layer instanceof Layer.Stack stack) {
      double[][] tops = tops(stack);
      for (int k = 0; k < stack.parts().size(); k++) {
        shapes.add(Curves.area(stack.xs(), tops[k], tops[k + 1], toX, toEdge));
      }
    } else if (layer instanceof Layer.Points points) {
      for (int i = 0; i < points.xs().length; i++) {
        double x = toX.applyAsDouble(points.xs()[i]);
        double y = toY.applyAsDouble(points.ys()[i]);
        boolean inSight = x > area.getX() - CENSORED_RADIUS && x < area.getMaxX() + CENSORED_RADIUS;
        if (inSight && Double.isFinite(y)) {
          shapes.add(mark(points.mark(), x, y));
        }
      }
    }
    return shapes;
  }

  /**
   * Returns the curves between the parts of a stack, the foot first; a gap where a part has one.
   */
  static double[][] tops(Layer.Stack stack) {
    int n = stack.xs().length;
    double[][] tops = new double[stack.parts().size() + 1][n];
    for (int k = 0; k < stack.parts().size(); k++) {
      for (int i = 0; i < n; i++) {
        tops[k + 1][i] = tops[k][i] + stack.parts().get(k).ys()[i];
      }
    }
    return tops;
  }

  private void draw(Graphics2D g2, List<Shape> shapes) {
    if (layer instanceof Layer.Band) {
      g2.setPaint(theme.band());
      shapes.forEach(g2::fill);
    } else if (layer instanceof Layer.Stack) {
      for (int k = 0; k < shapes.size(); k++) {
        g2.setPaint(theme.line(k));
        g2.fill(shapes.get(k));
      }
      g2.setPaint(theme.paper());
      g2.setStroke(Look.stroke(0.8f, null));
      shapes.forEach(g2::draw);
    } else if (layer instanceof Layer.Points points) {
      shapes.forEach(shape -> drawMark(g2, points.mark(), shape, look.color(), theme.paper()));
    } else {
      g2.setPaint(look.color());
      g2.setStroke(look.stroke());
      shapes.forEach(g2::draw);
    }
  }

  /** Returns the outline of a point's mark: a disc, or a hollow arrow towards longer lives. */
  static Shape mark(Layer.Mark mark, double x, double y) {
    if (mark == Layer.Mark.EVENT) {
      double r = EVENT_RADIUS;
      return new Ellipse2D.Double(x - r, y - r, 2 * r, 2 * r);
    }
    double r = CENSORED_RADIUS;
    Path2D arrow = new Path2D.Double();
    arrow.moveTo(x - 0.6 * r, y - r);
    arrow.lineTo(x + r, y);
    arrow.lineTo(x - 0.6 * r, y + r);
    arrow.closePath();
    return arrow;
  }

  static void drawMark(Graphics2D g2, Layer.Mark mark, Shape shape, Color color, Color paper) {
    boolean event = mark == Layer.Mark.EVENT;
    g2.setPaint(event ? color : paper);
    g2.fill(shape);
    g2.setPaint(event ? paper : color);
    g2.setStroke(Look.stroke(event ? 0.8f : 1.5f, null));
    g2.draw(shape);
  }
}
