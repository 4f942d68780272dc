package siltwright.charts;

import java.awt.Shape;
import java.awt.geom.Path2D;
import java.awt.geom.PathIterator;
import java.awt.geom.Rectangle2D;
import java.util.function.DoubleUnaryOperator;

/** Curves in pixels. Where there is no number there is a gap. */
final class Curves {
  /** How far a thinned curve may leave the true one, in pixels. */
  static final double TOLERANCE = 0.12;

  // Far enough outside any chart, near enough for every renderer's arithmetic.
  private static final double FAR = 20_000;

  private Curves() {}

  /** Returns the line through points. */
  static Path2D line(
      double[] xs, double[] ys, boolean steps, DoubleUnaryOperator toX, DoubleUnaryOperator toY) {
    Path2D path = new Path2D.Double();
    Thinned out = new Thinned(path);
    double before = Double.NaN;
    for (int i = 0; i < xs.length; i++) {
      double x = pixel(toX, xs[i]);
      double y = pixel(toY, ys[i]);
      if (Double.isNaN(x)) {
        out.end();
        before = Double.NaN;
        continue;
      }
      // A step goes on to the x at which the next one begins, gap or not.
      if (steps && !Double.isNaN(before)) {
        out.add(x, before);
      }
      if (Double.isNaN(y)) {
        out.end();
      } else {
        out.add(x, y);
      }
      before = y;
    }
    out.end();
    return path;
  }

  /** Returns the area between two curves. */
  static Path2D area(
      double[] xs,
      double[] lows,
      double[] highs,
      DoubleUnaryOperator toX,
      DoubleUnaryOperator toY) {
    Path2D path = new Path2D.Double();
    int start = 0;
    for (int i = 0; i <= xs.length; i++) {
      boolean there =
          i < xs.length
              && !Double.isNaN(pixel(toX, xs[i]))
              && !Double.isNaN(pixel(toY, lows[i]))
              && !Double.isNaN(pixel(toY, highs[i]));
      if (!there) {
        if (i - start > 1) {
          Thinned out = new Thinned(path);
          for (int k = start; k < i; k++) {
            out.add(pixel(toX, xs[k]), pixel(toY, highs[k]));
          }
          out.turn();
          for (int k = i - 1; k >= start; k--) {
            out.add(pixel(toX, xs[k]), pixel(toY, lows[k]));
          }
          out.end();
          path.closePath();
        }
        start = i + 1;
      }
    }
    return path;
  }

  private static double pixel(DoubleUnaryOperator to, double v) {
    double p = Double.isFinite(v) ? to.applyAsDouble(v) : Double.NaN;
    return Math.max(-FAR, Math.min(FAR, p));
  }

  /** Returns whether the outline of a shape meets a rectangle. */
  static boolean meets(Shape shape, Rectangle2D box) {
    double[] c = new double[6];
    double x = 0;
    double y = 0;
    for (PathIterator it = shape.getPathIterator(null, 1); !it.isDone(); it.next()) {
      int kind = it.currentSegment(c);
      if (kind == PathIterator.SEG_LINETO && box.intersectsLine(x, y, c[0], c[1])) {
        return true;
      }
      if (kind != PathIterator.SEG_CLOSE) {
        x = c[0];
        y = c[1];
      }
    }
    return false;
  }

  /**
   * Leaves out points that the eye would not miss: as long as one straight line from the last point
   * kept passes all since within the tolerance, only its end is drawn. Thousands of computed points
   * become a few hundred, which keeps a report small.
   */
  private static final class Thinned {
    private final Path2D path;
    private boolean begun;
    private boolean pending;
    private double fromX;
    private double fromY;
    private double lastX;
    private double lastY;
    private double least;
    private double most;

    Thinned(Path2D path) {
      this.path = path;
    }

    void add(double x, double y) {
      if (!begun) {
        path.moveTo(x, y);
        begun = true;
        keep(x, y);
        return;
      }
      if (pending && !straight(x, y)) {
        path.lineTo(lastX, lastY);
        keep(lastX, lastY);
      }
      double run = Math.abs(x - fromX);
      if (run == 0) {
        // Upright: a corner, always kept.
        if (Math.abs(y - fromY) > TOLERANCE) {
          path.lineTo(x, y);
          keep(x, y);
        }
        return;
      }
      least = Math.max(least, (y - TOLERANCE - fromY) / run);
      most = Math.min(most, (y + TOLERANCE - fromY) / run);
      lastX = x;
      lastY = y;
      pending = true;
    }

    private boolean straight(double x, double y) {
      double slope = (y - fromY) / Math.abs(x - fromX);
      return slope >= least && slope <= most && x != lastX;
    }

    private void keep(double x, double y) {
      fromX = x;
      fromY = y;
      lastX = x;
      lastY = y;
      least = Double.NEGATIVE_INFINITY;
      most = Double.POSITIVE_INFINITY;
      pending = false;
    }

    /** Draws up to the last point; the path goes on from there. */
    void turn() {
      if (pending) {
        path.lineTo(lastX, lastY);
      }
      if (begun) {
        keep(lastX, lastY);
      }
    }

    void end() {
      turn();
      begun = false;
    }
  }
}
