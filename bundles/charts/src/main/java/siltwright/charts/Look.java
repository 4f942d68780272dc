package siltwright.charts;

import java.awt.BasicStroke;
import java.awt.Color;
import java.awt.Stroke;
import siltwright.analysis.Layer;

/**
 * How a line looks. Compared lines differ by colour and by dashes, so that they stay apart without
 * colour.
 */
record Look(Color color, Stroke stroke) {
  private static final float[][] DASHES = {
    null, {8, 4}, {2.2f, 3}, {10, 3, 2.2f, 3}, {14, 5}, {5, 2.5f, 2.2f, 2.5f, 2.2f, 2.5f}
  };
  private static final float[] REFERENCE = {3, 3};
  private static final float[] LIMIT = {7, 4};

  /**
   * Returns the look of a line.
   *
   * @param index its number among the compared lines
   */
  static Look of(Layer.Style style, int index, ChartTheme theme) {
    return switch (style) {
      case MAIN -> new Look(theme.line(0), stroke(2.4f, null));
      case COMPARED -> new Look(theme.line(index), stroke(2, DASHES[index % DASHES.length]));
      case REFERENCE -> new Look(theme.reference(), stroke(1.5f, REFERENCE));
      case LIMIT -> new Look(theme.limit(), stroke(1.6f, LIMIT));
    };
  }

  static BasicStroke stroke(float width, float[] dash) {
    return new BasicStroke(width, BasicStroke.CAP_BUTT, BasicStroke.JOIN_ROUND, 10, dash, 0);
  }
}
