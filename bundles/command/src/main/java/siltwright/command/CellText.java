package siltwright.command;

import java.util.Arrays;
import java.util.stream.Collectors;
import siltwright.analysis.Cell;
import siltwright.analysis.Numbers;

/** Cells for people. */
final class CellText {
  private CellText() {}

  /**
   * Returns a cell as text, its numbers rounded, without the unit.
   *
   * @param unit its unit, which decides on the digits
   */
  static String of(Cell cell, String unit) {
    if (cell instanceof Cell.Num n) {
      return Numbers.text(n.value(), unit);
    }
    if (cell instanceof Cell.Text t) {
      return Text.clean(t.text());
    }
    if (cell instanceof Cell.Flag f) {
      return f.yes() ? "yes" : "no";
    }
    if (cell instanceof Cell.Range r) {
      return Numbers.text(r.low(), unit) + " to " + Numbers.text(r.high(), unit);
    }
    if (cell instanceof Cell.Numbers n) {
      return Arrays.stream(n.values())
          .mapToObj(v -> Numbers.text(v, unit))
          .collect(Collectors.joining(" / "));
    }
    if (cell instanceof Cell.Named n) {
      return n.values().entrySet().stream()
          .map(e -> Text.clean(e.getKey()) + " " + Numbers.text(e.getValue(), unit))
          .collect(Collectors.joining(", "));
    }
    if (cell instanceof Cell.Parts p) {
      return p.cells().entrySet().stream()
          .map(e -> Text.clean(e.getKey()) + " " + of(e.getValue(), unit))
          .collect(Collectors.joining(", "));
    }
    return Numbers.NONE;
  }
}
