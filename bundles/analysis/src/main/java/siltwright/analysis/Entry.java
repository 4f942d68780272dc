package siltwright.analysis;

import java.util.Arrays;
import java.util.List;
import java.util.stream.IntStream;

/** A named part of a result. Names are camel case with their unit, as in JSON. */
public sealed interface Entry {
  /** Returns the name, which is its key in JSON. */
  String name();

  /** Returns the label for people. */
  String label();

  /**
   * One value.
   *
   * @param name name with unit, such as {@code interval_h}
   * @param label label
   * @param unit unit, empty for none
   * @param cell what it is
   */
  record Value(String name, String label, String unit, Cell cell) implements Entry {}

  /**
   * Values that belong together.
   *
   * @param name name
   * @param label label
   * @param use whether people read it or only programs
   * @param values the values
   */
  record Group(String name, String label, Use use, List<Value> values) implements Entry {
    public Group {
      values = List.copyOf(values);
    }

    /** Makes a group that people read. */
    public Group(String name, String label, List<Value> values) {
      this(name, label, Use.READ, values);
    }

    /** Returns what people are shown: what has no value is left out. */
    public Group shown() {
      return new Group(
          name, label, use, values.stream().filter(v -> !(v.cell() instanceof Cell.None)).toList());
    }
  }

  /**
   * A table.
   *
   * @param name name
   * @param label label
   * @param use whether people read it or only programs
   * @param columns columns
   * @param rows rows, a cell a column
   */
  record Table(String name, String label, Use use, List<Column> columns, List<List<Cell>> rows)
      implements Entry {
    public Table {
      columns = List.copyOf(columns);
      rows = rows.stream().map(List::copyOf).toList();
      for (List<Cell> row : rows) {
        if (row.size() != columns.size()) {
          throw new IllegalArgumentException(
              name + ": " + columns.size() + " cells a row, not " + row.size());
        }
      }
    }

    /**
     * Returns what people are shown: columns for programs are left out, and those without a value.
     */
    public Table shown() {
      int[] kept = IntStream.range(0, columns.size()).filter(this::isShown).toArray();
      return new Table(
          name,
          label,
          use,
          Arrays.stream(kept).mapToObj(columns::get).toList(),
          rows.stream().map(row -> Arrays.stream(kept).mapToObj(row::get).toList()).toList());
    }

    private boolean isShown(int column) {
      return columns.get(column).use() == Use.READ
          && (rows.isEmpty()
              || rows.stream().anyMatch(row -> !(row.get(column) instanceof Cell.None)));
    }
  }

  /** Who a table, a column of one, or a group is for. */
  enum Use {
    /** Shown to people, and in JSON. */
    READ,
    /** In JSON and CSV only: long series. */
    DATA
  }

  /**
   * A column of a table.
   *
   * @param name name with unit, its key in JSON
   * @param label label
   * @param unit unit, empty for none
   * @param use whether people read it or only programs
   */
  record Column(String name, String label, String unit, Use use) {
    /** Makes a column that people read. */
    public Column(String name, String label, String unit) {
      this(name, label, unit, Use.READ);
    }
  }
}
