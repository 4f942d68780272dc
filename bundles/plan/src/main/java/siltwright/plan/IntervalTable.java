package siltwright.plan;

import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import siltwright.analysis.RecordColumn;
import siltwright.analysis.Records;

/** Best intervals that are known already, out of a table. */
record IntervalTable(Map<String, ExcessCost> byMachine) {
  private static final String MACHINE = "machine";
  private static final String BEST = "best_h";
  private static final String LOW = "low_h";
  private static final String HIGH = "high_h";
  private static final String LIMIT = "limit_h";
  private static final String COST = "costPerHour";
  private static final double LONGEST_H = 64_000;

  static final List<RecordColumn> COLUMNS =
      List.of(
          RecordColumn.word(MACHINE, true, "machine of the fleet file"),
          RecordColumn.number(BEST, 1, LONGEST_H, true, "interval that costs least, h"),
          RecordColumn.number(LOW, 0.5, LONGEST_H, true, "shortest within 5 % of its cost, h"),
          RecordColumn.number(HIGH, 1, LONGEST_H, true, "longest within 5 % of its cost, h"),
          RecordColumn.number(LIMIT, 1, LONGEST_H, false, "longest that is allowed, h"),
          RecordColumn.number(COST, 0, 1e9, true, "cost at the best, money per hour"));

  static IntervalTable of(Optional<Records> table) {
    Map<String, ExcessCost> intervals = new HashMap<>();
    table.ifPresent(
        t ->
            TableRow.all(
                t,
                row -> {
                  double best = row.number(BEST);
                  double low = row.number(LOW);
                  double high = row.number(HIGH);
                  double limit = row.optional(LIMIT).orElse(Double.POSITIVE_INFINITY);
                  if (low >= best) {
                    throw row.fault(LOW, "less than best_h, " + best);
                  }
                  if (high <= best) {
                    throw row.fault(HIGH, "more than best_h, " + best);
                  }
                  if (limit < best) {
                    throw row.fault(LIMIT, "best_h or more, " + best);
                  }
                  ExcessCost cost =
                      ExcessCost.ofFlatRange(best, low, high, limit, row.number(COST));
                  if (intervals.putIfAbsent(row.text(MACHINE), cost) != null) {
                    throw row.fault(MACHINE, "each machine once");
                  }
                }));
    return new IntervalTable(intervals);
  }
}
