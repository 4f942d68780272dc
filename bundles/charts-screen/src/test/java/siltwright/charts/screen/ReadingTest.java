package siltwright.charts.screen;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import java.util.function.DoubleUnaryOperator;
import org.junit.jupiter.api.Test;
import siltwright.analysis.Axis;
import siltwright.analysis.Figure;
import siltwright.analysis.Layer;
import siltwright.analysis.Panel;

class ReadingTest {
  private static final DoubleUnaryOperator PLACE = x -> 10 * x;

  private static Figure figure(Layer... layers) {
    return new Figure(
        "cost",
        "Cost",
        "",
        Axis.linear("Interval", "h"),
        List.of(new Panel(Axis.linear("Cost", "EUR/h"), List.of(layers))));
  }

  private static List<String> texts(Figure figure, double x) {
    return Reading.at(figure, x, PLACE).orElseThrow().lines().stream()
        .map(l -> l.label() + " " + l.text())
        .toList();
  }

  @Test
  void nearestComputedPointIsReadNeverOneBetween() {
    Figure f =
        figure(
            new Layer.Line(
                "sum", new double[] {100, 200, 300}, new double[] {7, 3, 5}, Layer.Style.MAIN));
    assertEquals(200, Reading.at(f, 240, PLACE).orElseThrow().x());
    assertEquals("Interval 200 h", Reading.at(f, 240, PLACE).orElseThrow().heading());
    assertEquals(List.of("sum 3 EUR/h"), texts(f, 240));
    assertEquals(List.of("sum 5 EUR/h"), texts(f, 260));
    assertEquals(List.of("sum 7 EUR/h"), texts(f, -1e9));
  }

  @Test
  void stepTellsWhatHolds() {
    Figure f =
        figure(
            new Layer.Steps("step", new double[] {0, 10}, new double[] {1, 2}, Layer.Style.MAIN),
            new Layer.Line("line", new double[] {7}, new double[] {4}, Layer.Style.COMPARED));
    assertEquals(List.of("step 1 EUR/h", "line 4 EUR/h"), texts(f, 7));
  }

  @Test
  void partsOfAStackBandsAndPointsAreRead() {
    double[] xs = {1, 2};
    Figure f =
        figure(
            new Layer.Stack(
                "",
                xs,
                List.of(
                    new Layer.Part("element", new double[] {1, 2}),
                    new Layer.Part("wear", new double[] {10, 20}))),
            new Layer.Band("band", xs, new double[] {0, 5}, new double[] {9, 30}),
            new Layer.Points(
                "failures", new double[] {2, 2}, new double[] {6, 8}, Layer.Mark.EVENT));
    assertEquals(
        List.of(
            "element 2 EUR/h",
            "wear 20 EUR/h",
            "band 5 to 30 EUR/h",
            "failures 6 EUR/h",
            "failures 8 EUR/h"),
        texts(f, 2));
    assertEquals(22, Reading.at(f, 2, PLACE).orElseThrow().lines().get(1).y(), "top of the stack");
  }

  /** Its label has no room beside the line in every picture. */
  @Test
  void aLevelIsReadEverywhere() {
    Figure f =
        figure(
            new Layer.Line("sum", new double[] {1, 2}, new double[] {7, 3}, Layer.Style.MAIN),
            new Layer.Level("limit", 6));
    assertEquals(List.of("sum 7 EUR/h", "limit 6 EUR/h"), texts(f, 1));
    assertEquals(List.of("sum 3 EUR/h", "limit 6 EUR/h"), texts(f, 2));
  }

  @Test
  void figureWithoutPointsReadsNothing() {
    assertTrue(Reading.at(figure(new Layer.Level("limit", 3)), 5, PLACE).isEmpty());
    Figure gap =
        figure(new Layer.Line("x", new double[] {1}, new double[] {Double.NaN}, Layer.Style.MAIN));
    assertEquals(List.of(), Reading.at(gap, 1, PLACE).orElseThrow().lines());
  }
}
