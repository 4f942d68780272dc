package siltwright.command;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.ArrayList;
import java.util.List;
import java.util.stream.IntStream;
import org.junit.jupiter.api.Test;
import siltwright.analysis.Cell;
import siltwright.analysis.Entry;

class TextTableTest {
  @Test
  void aNarrowTableStandsAsItIs() {
    assertEquals(
        List.of(
            "Mass 0  Mass 1",
            " (kPa)   (kPa)",
            "------  ------",
            "     0       1",
            "  1000    1001"),
        TextTable.lines(table(2, 2, "Mass ")));
  }

  @Test
  void aWideTableOfFewRowsIsTurned() {
    List<String> lines = TextTable.lines(table(20, 2, "A rather long label "));
    assertFits(lines);
    assertEquals(20, lines.size());
    assertTrue(lines.get(3).startsWith("A rather long label 3 (kPa)"), lines.get(3));
  }

  @Test
  void aWideTableOfManyRowsIsCut() {
    List<String> lines = TextTable.lines(table(20, 30, "A rather long label "));
    assertFits(lines);
    assertTrue(lines.contains(""));
  }

  @Test
  void longTextsAreBroken() {
    Entry.Table table =
        new Entry.Table(
            "t",
            "T",
            Entry.Use.READ,
            List.of(new Entry.Column("a", "A", ""), new Entry.Column("b", "B", "")),
            List.of(List.of(Cell.of("word ".repeat(40)), Cell.of("x".repeat(300)))));
    assertFits(TextTable.lines(table));
  }

  @Test
  void anEmptyTableSaysSo() {
    assertEquals(List.of("(no rows)"), TextTable.lines(table(3, 0, "A")));
  }

  private static void assertFits(List<String> lines) {
    lines.forEach(line -> assertTrue(line.length() <= TextTable.WIDTH, line));
  }

  private static Entry.Table table(int columns, int rows, String label) {
    List<Entry.Column> heads =
        IntStream.range(0, columns)
            .mapToObj(c -> new Entry.Column("c" + c, label + c, "kPa"))
            .toList();
    List<List<Cell>> cells = new ArrayList<>();
    for (int r = 0; r < rows; r++) {
      double value = r * 1000.125;
      cells.add(IntStream.range(0, columns).mapToObj(c -> Cell.of(value + c)).toList());
    }
    return new Entry.Table("t", "T", Entry.Use.READ, heads, cells);
  }
}
