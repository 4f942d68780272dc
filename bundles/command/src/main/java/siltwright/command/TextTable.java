package siltwright.command;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.function.Function;
import java.util.stream.IntStream;
import siltwright.analysis.Cell;
import siltwright.analysis.Entry;
import siltwright.analysis.Numbers;

/**
 * A table as lines of text: numbers aligned, units below the labels. One that is too wide is turned
 * on its side, or else cut into parts that all begin with the first column.
 */
final class TextTable {
  /** Most places in a line. */
  static final int WIDTH = 100;

  private static final int HEAD = 18;
  private static final int CELL = 40;

  /** Narrowest column of a table turned on its side. */
  private static final int NARROWEST = 16;

  private static final String GAP = "  ";

  private TextTable() {}

  private record Column(List<String> head, List<List<String>> cells, boolean right) {
    int width() {
      int widest = widest(head);
      for (List<String> lines : cells) {
        widest = Math.max(widest, widest(lines));
      }
      return widest;
    }

    private static int widest(List<String> lines) {
      return lines.stream().mapToInt(Text::width).max().orElse(0);
    }
  }

  /** Returns the lines of a table. */
  static List<String> lines(Entry.Table whole) {
    if (whole.rows().isEmpty()) {
      return List.of("(no rows)");
    }
    Entry.Table table = whole.shown();
    List<Column> upright =
        IntStream.range(0, table.columns().size()).mapToObj(c -> column(table, c)).toList();
    if (width(upright) <= WIDTH) {
      return grid(upright);
    }
    List<Column> turned = turned(table, upright);
    return width(turned) <= WIDTH ? grid(turned) : parts(upright);
  }

  private static Column column(Entry.Table table, int c) {
    Entry.Column column = table.columns().get(c);
    List<String> head = new ArrayList<>(Text.wrapped(column.label(), HEAD));
    String unit = Numbers.shown(column.unit());
    if (!unit.isEmpty()) {
      head.add(bracketed(unit));
    }
    List<Cell> cells = table.rows().stream().map(row -> row.get(c)).toList();
    boolean numbers =
        cells.stream().allMatch(cell -> cell instanceof Cell.Num || cell instanceof Cell.None);
    return new Column(
        head,
        numbers
            ? aligned(cells, column.unit())
            : cells.stream()
                .map(cell -> Text.wrapped(CellText.of(cell, column.unit()), CELL))
                .toList(),
        numbers);
  }

  private static List<List<String>> aligned(List<Cell> numbers, String unit) {
    double[] values =
        numbers.stream()
            .mapToDouble(cell -> cell instanceof Cell.Num n ? n.value() : Double.NaN)
            .toArray();
    int decimals = Numbers.decimals(unit, values);
    return Arrays.stream(values).mapToObj(v -> List.of(Numbers.fixed(v, decimals))).toList();
  }

  /** Turns a table: its rows, with the texts they have upright, stand side by side. */
  private static List<Column> turned(Entry.Table table, List<Column> upright) {
    List<List<String>> labels =
        table.columns().stream()
            .map(c -> (c.label() + " " + bracketed(Numbers.shown(c.unit()))).strip())
            .map(label -> Text.wrapped(label, CELL))
            .toList();
    Column names = new Column(List.of(), labels, false);
    int rows = table.rows().size();
    int room = (WIDTH - names.width()) / rows - GAP.length();
    List<Column> columns = new ArrayList<>(List.of(names));
    for (int r = 0; r < rows; r++) {
      int row = r;
      columns.add(
          new Column(
              List.of(),
              upright.stream()
                  .map(c -> String.join(" ", c.cells().get(row)))
                  .map(text -> Text.wrapped(text, Math.max(NARROWEST, Math.min(CELL, room))))
                  .toList(),
              true));
    }
    return columns;
  }

  private static String bracketed(String unit) {
    return unit.isEmpty() ? "" : "(" + unit + ")";
  }

  private static List<String> parts(List<Column> columns) {
    List<String> lines = new ArrayList<>();
    int next = 1;
    while (next < columns.size()) {
      List<Column> part = new ArrayList<>(List.of(columns.get(0), columns.get(next++)));
      while (next < columns.size()
          && width(part) + GAP.length() + columns.get(next).width() <= WIDTH) {
        part.add(columns.get(next++));
      }
      if (!lines.isEmpty()) {
        lines.add("");
      }
      lines.addAll(grid(part));
    }
    return lines;
  }

  private static int width(List<Column> columns) {
    return columns.stream().mapToInt(Column::width).sum() + GAP.length() * (columns.size() - 1);
  }

  private static List<String> grid(List<Column> columns) {
    List<String> lines = new ArrayList<>();
    int headLines = columns.stream().mapToInt(c -> c.head().size()).max().orElse(0);
    for (int i = 0; i < headLines; i++) {
      int at = i;
      lines.add(line(columns, c -> at < c.head().size() ? c.head().get(at) : ""));
    }
    if (headLines > 0) {
      lines.add(line(columns, c -> "-".repeat(c.width())));
    }
    int rows = columns.get(0).cells().size();
    for (int r = 0; r < rows; r++) {
      int row = r;
      int height = columns.stream().mapToInt(c -> c.cells().get(row).size()).max().orElse(1);
      for (int i = 0; i < height; i++) {
        int at = i;
        lines.add(
            line(columns, c -> at < c.cells().get(row).size() ? c.cells().get(row).get(at) : ""));
      }
    }
    return lines;
  }

  private static String line(List<Column> columns, Function<Column, String> text) {
    StringBuilder line = new StringBuilder();
    for (Column c : columns) {
      String t = text.apply(c);
      String blanks = " ".repeat(c.width() - Text.width(t));
      line.append(line.length() == 0 ? "" : GAP).append(c.right() ? blanks + t : t + blanks);
    }
    return line.toString().stripTrailing();
  }
}
