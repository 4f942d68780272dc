package siltwright.charts;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.awt.geom.Rectangle2D;
import java.util.List;
import org.jfree.chart.axis.AxisState;
import org.jfree.chart.ui.RectangleEdge;
import org.jfree.data.Range;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;
import siltwright.analysis.Axis;
import siltwright.analysis.Axis.Scale;

class ScaleAxisTest {
  private static final Rectangle2D AREA = new Rectangle2D.Double(40, 20, 640, 320);

  private static ScaleAxis axis(Scale scale, String unit, double low, double high) {
    return new ScaleAxis(new Axis("", unit, scale), new Range(low, high));
  }

  private static List<String> labels(ScaleAxis axis, RectangleEdge edge) {
    return axis.refreshTicks(null, new AxisState(), AREA, edge).stream()
        .map(tick -> tick.getText())
        .filter(text -> !text.isEmpty())
        .toList();
  }

  @Test
  void namesStandFromTheTopDown() {
    Axis names =
        Axis.names("", List.of("first", "second", "a name that is too long to stand there"));
    ScaleAxis axis = new ScaleAxis(names, new Range(0.5, 3.5));
    assertEquals(
        List.of("first", "second", "a name that is too long to …"),
        labels(axis, RectangleEdge.LEFT));
    double first = axis.valueToJava2D(1, AREA, RectangleEdge.LEFT);
    assertTrue(first < axis.valueToJava2D(2, AREA, RectangleEdge.LEFT));
    assertEquals(1, axis.java2DToValue(first, AREA, RectangleEdge.LEFT), 1e-12);
    assertEquals(
        AREA.getX() + AREA.getWidth() / 6, axis.valueToJava2D(1, AREA, RectangleEdge.BOTTOM), 1e-9);
  }

  @ParameterizedTest
  @EnumSource(Scale.class)
  void pixelsAndValuesAgree(Scale scale) {
    ScaleAxis axis = axis(scale, "", 0.02, 0.97);
    for (RectangleEdge edge : List.of(RectangleEdge.BOTTOM, RectangleEdge.LEFT)) {
      for (double v : new double[] {0.02, 0.1, 0.5, 0.9, 0.97}) {
        double pixel = axis.valueToJava2D(v, AREA, edge);
        assertTrue(
            AREA.intersectsLine(
                edge == RectangleEdge.BOTTOM ? pixel : 50,
                edge == RectangleEdge.LEFT ? pixel : 50,
                edge == RectangleEdge.BOTTOM ? pixel : 50,
                edge == RectangleEdge.LEFT ? pixel : 50));
        assertEquals(v, axis.java2DToValue(pixel, AREA, edge), 1e-9);
      }
    }
  }

  @Test
  void aWeibullDistributionIsStraight() {
    // F(t) = 1 - exp(-(t/η)^β): ln(-ln(1-F)) = β ln t - β ln η.
    ScaleAxis x = axis(Scale.LOG, "h", 100, 10_000);
    ScaleAxis y = axis(Scale.WEIBULL, "%", 0.1, 99.9);
    double[] px = new double[3];
    double[] py = new double[3];
    double[] ts = {800, 2400, 5000};
    for (int i = 0; i < 3; i++) {
      double f = -Math.expm1(-Math.pow(ts[i] / 4000, 1.8));
      px[i] = x.valueToJava2D(ts[i], AREA, RectangleEdge.BOTTOM);
      py[i] = y.valueToJava2D(100 * f, AREA, RectangleEdge.LEFT);
    }
    assertEquals((py[1] - py[0]) / (px[1] - px[0]), (py[2] - py[1]) / (px[2] - px[1]), 1e-9);
  }

  @Test
  void normalPaperIsThatOfTheTables() {
    // Standard normal distribution: Φ(1.959964) = 0.975, Φ(1.281552) = 0.9 (any table).
    assertEquals(1.959964, ScaleAxis.forward(Scale.NORMAL, 1, 0.975), 1e-6);
    assertEquals(1.281552, ScaleAxis.forward(Scale.NORMAL, 100, 90), 1e-6);
  }

  @Test
  void ticksAreRoundNumbers() {
    assertEquals(
        List.of("0", "1000", "2000", "3000", "4000"),
        labels(axis(Scale.LINEAR, "h", 0, 4000), RectangleEdge.BOTTOM).stream()
            .filter(t -> t.endsWith("000") || t.equals("0"))
            .toList());
    assertEquals(
        List.of("0.0", "0.5", "1.0", "1.5"),
        labels(axis(Scale.LINEAR, "", -0.1, 1.9), RectangleEdge.LEFT).stream().limit(4).toList());
    assertEquals(
        List.of("10", "100", "1000", "10\u202f000", "100\u202f000", "10⁶", "10⁷"),
        labels(axis(Scale.LOG, "1/mL", 8, 2e7), RectangleEdge.LEFT));
    assertEquals(
        List.of("0.001", "0.1", "10", "1000"),
        labels(axis(Scale.LOG, "", 3e-4, 3e3), RectangleEdge.LEFT).stream()
            .filter(t -> List.of("0.001", "0.1", "10", "1000").contains(t))
            .toList());
    assertTrue(labels(axis(Scale.WEIBULL, "%", 1, 99), RectangleEdge.LEFT).contains("50"));
    assertTrue(labels(axis(Scale.WEIBULL, "", 0.01, 0.99), RectangleEdge.LEFT).contains("0.5"));
    assertEquals(5, ScaleAxis.step(21, 5));
    assertEquals(0.2, ScaleAxis.step(1, 5), 1e-12);
    assertEquals(10, ScaleAxis.step(60, 6.5), 1e-12);
  }

  @Test
  void zoomingKeepsToTheScaleAndComesBack() {
    ScaleAxis axis = axis(Scale.LOG, "", 1, 1000);
    axis.zoomRange(1 / 3.0, 2 / 3.0);
    assertEquals(10, axis.getLowerBound(), 1e-9);
    assertEquals(100, axis.getUpperBound(), 1e-9);
    axis.resizeRange(50);
    assertTrue(axis.getLowerBound() > 0);
    axis.setAutoRange(true);
    assertEquals(new Range(1, 1000), axis.getRange());
    ScaleAxis shares = axis(Scale.NORMAL, "%", 1, 99);
    shares.resizeRange(10);
    assertTrue(shares.getLowerBound() > 0 && shares.getUpperBound() < 100);
  }
}
