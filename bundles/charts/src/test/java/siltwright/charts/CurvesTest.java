package siltwright.charts;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.awt.geom.Line2D;
import java.awt.geom.Path2D;
import java.awt.geom.PathIterator;
import java.util.ArrayList;
import java.util.List;
import java.util.function.DoubleUnaryOperator;
import org.junit.jupiter.api.Test;

class CurvesTest {
  private static final DoubleUnaryOperator SAME = v -> v;

  private static List<double[]> points(Path2D path) {
    List<double[]> points = new ArrayList<>();
    for (PathIterator it = path.getPathIterator(null); !it.isDone(); it.next()) {
      double[] c = new double[6];
      int kind = it.currentSegment(c);
      if (kind != PathIterator.SEG_CLOSE) {
        points.add(new double[] {kind, c[0], c[1]});
      }
    }
    return points;
  }

  @Test
  void aThinnedCurveIsShortAndStaysClose() {
    double[] xs = Samples.range(0, 700, 20_000);
    double[] ys = Samples.map(xs, x -> 150 + 140 * Math.sin(x / 40) * Math.exp(-x / 300));
    List<double[]> kept = points(Curves.line(xs, ys, false, SAME, SAME));
    assertTrue(kept.size() < 800, () -> kept.size() + " points");
    int k = 0;
    for (int i = 0; i < xs.length; i++) {
      while (k + 2 < kept.size() && kept.get(k + 1)[1] < xs[i]) {
        k++;
      }
      double off =
          Line2D.ptSegDist(
              kept.get(k)[1], kept.get(k)[2], kept.get(k + 1)[1], kept.get(k + 1)[2], xs[i], ys[i]);
      assertTrue(off <= 2 * Curves.TOLERANCE, () -> "off by " + off);
    }
  }

  @Test
  void whatIsNotFiniteLeavesAGap() {
    double[] xs = {0, 1, 2, 3, 4, 5, 6};
    double[] ys = {0, 5, Double.NaN, 9, 3, Double.POSITIVE_INFINITY, 2};
    List<double[]> kept = points(Curves.line(xs, ys, false, SAME, SAME));
    assertEquals(3, kept.stream().filter(p -> p[0] == PathIterator.SEG_MOVETO).count());
    Path2D area = Curves.area(xs, new double[7], ys, SAME, SAME);
    // The last point has no neighbour: an area without width is not drawn.
    assertEquals(2, points(area).stream().filter(p -> p[0] == PathIterator.SEG_MOVETO).count());
  }

  @Test
  void stepsKeepTheirHeightUpToTheNext() {
    List<double[]> kept =
        points(Curves.line(new double[] {0, 10, 20}, new double[] {1, 5, 2}, true, SAME, SAME));
    double[][] wanted = {{0, 1}, {10, 1}, {10, 5}, {20, 5}, {20, 2}};
    assertEquals(wanted.length, kept.size());
    for (int i = 0; i < wanted.length; i++) {
      assertEquals(wanted[i][0], kept.get(i)[1]);
      assertEquals(wanted[i][1], kept.get(i)[2]);
    }
  }

  @Test
  void anAreaKeepsItsCorners() {
    double[] xs = Samples.range(0, 10, 10);
    Path2D area =
        Curves.area(xs, Samples.map(xs, x -> 1), Samples.map(xs, x -> 8 + 0 * x), SAME, SAME);
    List<double[]> kept = points(area);
    assertEquals(4, kept.size());
    assertEquals(10, kept.get(2)[1]);
    assertEquals(1, kept.get(2)[2]);
  }
}
