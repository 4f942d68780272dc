package siltwright.analysis;

import java.util.List;

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
   * @param values the values
   */
  record Group(String name, String label, List<Value> values) implements Entry {
    public Group {
      values = List.copyOf(values);
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
  }

  /** Who a table is for. */
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
   */
  record Column(String name, String label, String unit) {}
}
