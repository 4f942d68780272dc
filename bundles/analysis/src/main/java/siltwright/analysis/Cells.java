package siltwright.analysis;

import java.util.ArrayList;
import java.util.List;
import java.util.OptionalInt;
import java.util.stream.Collectors;
import java.util.stream.DoubleStream;

/** Cells as texts for paper and screen. */
public final class Cells {
  private Cells() {}

  /**
   * Returns a cell as a text, without its unit.
   *
   * @param unit its unit, which decides on the digits
   */
  public static String text(Cell cell, String unit) {
    return text(cell, unit, OptionalInt.empty());
  }

  /**
   * Returns a cell as a text, without its unit.
   *
   * @param unit its unit, which decides on the digits
   * @param decimals digits after the point that its column shares
   */
  public static String text(Cell cell, String unit, OptionalInt decimals) {
    if (cell instanceof Cell.Num num) {
      return number(num.value(), unit, decimals);
    }
    if (cell instanceof Cell.Text text) {
      return text.text();
    }
    if (cell instanceof Cell.Flag flag) {
      return flag.yes() ? "yes" : "no";
    }
    if (cell instanceof Cell.Range range) {
      return number(range.low(), unit, decimals) + " to " + number(range.high(), unit, decimals);
    }
    if (cell instanceof Cell.Numbers numbers) {
      return DoubleStream.of(numbers.values())
          .mapToObj(v -> number(v, unit, decimals))
          .collect(Collectors.joining(" / "));
    }
    if (cell instanceof Cell.Named named) {
      return named.values().entrySet().stream()
          .map(e -> e.getKey() + "\u00a0" + number(e.getValue(), unit, decimals))
          .collect(Collectors.joining(", "));
    }
    if (cell instanceof Cell.Parts parts) {
      return parts.cells().entrySet().stream()
          .map(e -> e.getKey() + "\u00a0" + text(e.getValue(), unit, decimals))
          .collect(Collectors.joining(", "));
    }
    return Numbers.NONE;
  }

  private static String number(double v, String unit, OptionalInt decimals) {
    return Numbers.grouped(
        decimals.isPresent() ? Numbers.fixed(v, decimals.getAsInt()) : Numbers.text(v, unit));
  }

  /** Returns whether a cell holds a number or a range, or has nothing. */
  public static boolean isNumeric(Cell cell) {
    return cell instanceof Cell.Num || cell instanceof Cell.Range || cell instanceof Cell.None;
  }

  /** Returns whether a column is to stand on the right: it has numbers and no words. */
  public static boolean standsRight(List<Cell> column) {
    return column.stream().allMatch(Cells::isNumeric)
        && column.stream().anyMatch(c -> !(c instanceof Cell.None));
  }

  /** Returns the digits after the point that a column of numbers with a unit shares. */
  public static OptionalInt decimals(List<Cell> column, String unit) {
    if (!standsRight(column)) {
      return OptionalInt.empty();
    }
    List<Double> values = new ArrayList<>();
    for (Cell cell : column) {
      if (cell instanceof Cell.Num num) {
        values.add(num.value());
      } else if (cell instanceof Cell.Range range) {
        values.add(range.low());
        values.add(range.high());
      }
    }
    return OptionalInt.of(
        Numbers.decimals(unit, values.stream().mapToDouble(Double::doubleValue).toArray()));
  }
}
