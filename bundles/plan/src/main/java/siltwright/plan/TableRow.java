package siltwright.plan;

import java.util.ArrayList;
import java.util.List;
import java.util.OptionalDouble;
import java.util.function.Consumer;
import siltwright.analysis.Records;
import siltwright.model.InputException;
import siltwright.model.Problem;

/**
 * A row of a table that must be sound as a whole: a row left out would make another plan, and
 * nobody would see it.
 */
record TableRow(Records table, int row) {
  /**
   * Reads all rows.
   *
   * @param read takes a row
   * @throws InputException naming every row at fault
   */
  static void all(Records table, Consumer<TableRow> read) {
    List<Problem> problems = new ArrayList<>(table.refusals().listed());
    for (int i = 0; i < table.rows(); i++) {
      try {
        read.accept(new TableRow(table, i));
      } catch (InputException e) {
        problems.addAll(e.problems());
      }
    }
    if (!problems.isEmpty()) {
      throw new InputException(problems);
    }
  }

  int line() {
    return table.line(row);
  }

  String text(String column) {
    String text = optionalText(column);
    if (text.isEmpty()) {
      throw fault(column, "a value");
    }
    return text;
  }

  String optionalText(String column) {
    return table.find(column).map(c -> c.text(row).strip()).orElse("");
  }

  double number(String column) {
    return optional(column).orElseThrow(() -> fault(column, "a number"));
  }

  OptionalDouble optional(String column) {
    double v = table.numbers(column).map(n -> n[row]).orElse(Double.NaN);
    return Double.isNaN(v) ? OptionalDouble.empty() : OptionalDouble.of(v);
  }

  InputException fault(String column, String expected) {
    return new InputException(
        new Problem(
            table.source(),
            "row " + line() + ", column " + column,
            optionalText(column),
            expected));
  }
}
