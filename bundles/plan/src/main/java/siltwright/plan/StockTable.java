package siltwright.plan;

import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import siltwright.analysis.RecordColumn;
import siltwright.analysis.Records;

/** Elements in store, out of a table. */
record StockTable(Map<String, Line> byElement) {
  private static final String ELEMENT = "element";
  private static final String ON_HAND = "on_hand";
  private static final String LEAD = "lead_days";

  static final List<RecordColumn> COLUMNS =
      List.of(
          RecordColumn.word(ELEMENT, true, "element of the fleet file"),
          RecordColumn.number(ON_HAND, 0, 1e6, true, "how many are in store"),
          RecordColumn.number(LEAD, 1, 365, false, "days from ordering to having it"));

  record Line(int onHand, Optional<Integer> leadDays) {}

  static StockTable of(Optional<Records> table) {
    Map<String, Line> lines = new HashMap<>();
    table.ifPresent(
        t ->
            TableRow.all(
                t,
                row -> {
                  Optional<Integer> lead =
                      row.optional(LEAD).isPresent()
                          ? Optional.of(whole(row, LEAD))
                          : Optional.empty();
                  if (lines.putIfAbsent(row.text(ELEMENT), new Line(whole(row, ON_HAND), lead))
                      != null) {
                    throw row.fault(ELEMENT, "each element once");
                  }
                }));
    return new StockTable(lines);
  }

  private static int whole(TableRow row, String column) {
    double v = row.number(column);
    if (v != Math.rint(v)) {
      throw row.fault(column, "a whole number");
    }
    return (int) v;
  }
}
