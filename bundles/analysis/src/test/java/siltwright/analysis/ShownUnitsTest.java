package siltwright.analysis;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertSame;

import java.util.List;
import org.junit.jupiter.api.Test;
import siltwright.model.Units;

class ShownUnitsTest {
  private static final Figure FIGURE =
      new Figure(
          "drop",
          "Pressure drop",
          "",
          Axis.linear("Temperature", "°C"),
          List.of(
              new Panel(
                  Axis.linear("Drop", "kPa"),
                  List.of(
                      new Layer.Line(
                          "p",
                          new double[] {0, 100},
                          new double[] {6.894757293168361, 0},
                          Layer.Style.MAIN),
                      new Layer.At("boiling", 100, Layer.Style.LIMIT),
                      new Layer.Level("limit", 68.94757293168361)))));

  /** Freezing and boiling point of water in °F and the pound per square inch, by definition. */
  @Test
  void axesAndAllThatStandsOnThemAreConverted() {
    Figure us = ShownUnits.of(Units.US, FIGURE);
    assertEquals("°F", us.x().unit());
    assertEquals("psi", us.panels().get(0).y().unit());
    Layer.Line line = (Layer.Line) us.panels().get(0).layers().get(0);
    assertArrayEquals(new double[] {32, 212}, line.xs(), 1e-9);
    assertArrayEquals(new double[] {1, 0}, line.ys(), 1e-12);
    assertEquals(212, ((Layer.At) us.panels().get(0).layers().get(1)).x(), 1e-9);
    assertEquals(10, ((Layer.Level) us.panels().get(0).layers().get(2)).y(), 1e-9);
    assertSame(FIGURE, ShownUnits.of(Units.SI, FIGURE));
  }

  @Test
  void cellsAreConvertedByTheirColumnAndNamesStay() {
    Entry.Table table =
        new Entry.Table(
            "t",
            "T",
            Entry.Use.READ,
            List.of(new Entry.Column("oil_L", "Oil", "L"), new Entry.Column("at_h", "At", "h")),
            List.of(List.of(new Cell.Range(0, 3.785411784), Cell.of(5))));
    Entry.Table us = (Entry.Table) ShownUnits.of(Units.US, table);
    assertEquals("gal", us.columns().get(0).unit());
    assertEquals("oil_L", us.columns().get(0).name());
    assertEquals(new Cell.Range(0, 1), us.rows().get(0).get(0));
    assertEquals(Cell.of(5), us.rows().get(0).get(1));
  }
}
