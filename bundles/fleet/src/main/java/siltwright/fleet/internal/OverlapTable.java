package siltwright.fleet.internal;

import static siltwright.analysis.Finding.Severity.WARNING;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import siltwright.analysis.Cell;
import siltwright.analysis.Entry;
import siltwright.analysis.Entry.Column;
import siltwright.analysis.Result;

/** How groups overlap in what is allowed for, as a table and as warnings. */
final class OverlapTable {
  private OverlapTable() {}

  /**
   * Returns the table.
   *
   * @param what what is grouped, in the plural
   */
  static Entry.Table of(List<Overlap> overlaps, List<String> names, String what) {
    List<List<Cell>> rows = new ArrayList<>();
    for (Overlap o : overlaps) {
      rows.add(
          List.of(
              Cell.of(o.covariate()),
              Cell.of(names.get(o.pair().first())),
              Cell.of(names.get(o.pair().second())),
              Cell.of(100 * o.share())));
    }
    return new Entry.Table(
        "overlap",
        "Whether groups overlap in what is allowed for",
        Entry.Use.READ,
        List.of(
            new Column("covariate", "In", ""),
            new Column("first", "Group", ""),
            new Column("second", "And", ""),
            new Column("share_pct", what + " like one of the other group", "%")),
        rows);
  }

  /** Warns where groups hardly overlap. */
  static void warn(Result.Builder result, List<Overlap> overlaps, List<String> names) {
    Map<String, List<String>> apart = new LinkedHashMap<>();
    for (Overlap o : overlaps) {
      if (o.share() < Overlap.LEAST) {
        apart
            .computeIfAbsent(o.covariate(), c -> new ArrayList<>())
            .add(names.get(o.pair().first()) + " and " + names.get(o.pair().second()));
      }
    }
    apart.forEach(
        (covariate, pairs) ->
            result.finding(
                WARNING,
                "The groups hardly overlap in "
                    + covariate
                    + " ("
                    + String.join(", ", pairs.subList(0, Math.min(3, pairs.size())))
                    + (pairs.size() > 3 ? " and others" : "")
                    + "): allowing for it rests on its assumed form, not on your records. What the"
                    + " group does and what "
                    + covariate
                    + " does can't be told apart there.",
                "overlap"));
  }
}
