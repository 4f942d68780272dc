package siltwright.analysis;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.Test;

class OverviewTest {
  private static final Description MADE_UP =
      Description.of("made-up", "Made up", "Makes up.", Scope.MACHINE);

  @Test
  void groupsThatAllHaveStandSideBySide() {
    List<Entry.Table> tables =
        Overview.of(List.of(result("EUR/h", 1.5), result("EUR/h", Double.NaN)));
    assertEquals(1, tables.size());
    Entry.Table table = tables.get(0);
    assertEquals(List.of(new Entry.Column("cost", "Cost", "EUR/h")), table.columns());
    assertEquals(
        List.of(List.of(Cell.of(1.5)), List.of(new Cell.None())), table.rows(), table.toString());
  }

  @Test
  void valuesOfDifferentUnitsNameThem() {
    Entry.Table table = Overview.of(List.of(result("EUR/h", 1.541), result("NOK/h", 20))).get(0);
    assertEquals("", table.columns().get(0).unit());
    assertEquals(
        List.of(List.of(Cell.of("1.54 EUR/h")), List.of(Cell.of("20 NOK/h"))), table.rows());
  }

  @Test
  void noResultsHaveNoOverview() {
    assertEquals(List.of(), Overview.of(List.of()));
  }

  @Test
  void columnsForProgramsAndEmptyOnesAreNotShown() {
    Entry.Table table =
        new Entry.Table(
            "t",
            "T",
            Entry.Use.READ,
            List.of(
                new Entry.Column("id", "Id", ""),
                new Entry.Column("all", "All", "", Entry.Use.DATA),
                new Entry.Column("none", "None", "h")),
            List.of(List.of(Cell.of("a"), Cell.of(1), new Cell.None())));
    assertEquals(List.of(new Entry.Column("id", "Id", "")), table.shown().columns());
    assertEquals(List.of(List.of(Cell.of("a"))), table.shown().rows());
  }

  private static Result result(String unit, double cost) {
    return Result.of(MADE_UP, "m", Values.standard(MADE_UP))
        .add(
            new Entry.Group(
                "best",
                "Best",
                List.of(
                    new Entry.Value("cost", "Cost", unit, Cell.of(cost)),
                    new Entry.Value("reason", "Why none", "", new Cell.None()),
                    new Entry.Value("drop", "Drop", "kPa", new Cell.Named(Map.of("cold", 1.0))))))
        .build();
  }
}
