package siltwright.large;

import java.io.Serializable;
import java.util.ArrayList;
import java.util.List;
import siltwright.analysis.Refusals;
import siltwright.analysis.Result;
import siltwright.model.Problem;

/**
 * How the rows of some parts fared: all counted, the first that were refused with their reasons.
 */
final class Faults implements Serializable {
  private static final long serialVersionUID = 1;

  private final ArrayList<List<String>> first = new ArrayList<>();
  private long read;
  private long refused;

  /** Counts rows. */
  void read(long rows) {
    read += rows;
  }

  /**
   * Refuses rows.
   *
   * @param rows how many
   * @param range of what they are
   * @param row the first of them, from 0 in its file
   * @param column column at fault; empty for the row as a whole
   */
  void refuse(long rows, RowRange range, long row, String column, Object value, String expected) {
    refused += rows;
    if (first.size() < Refusals.LISTED) {
      first.add(
          List.of(
              range.file(),
              "row " + (row + 1) + (column.isEmpty() ? "" : ", column " + column),
              value == null ? "" : value.toString(),
              expected));
    }
  }

  /** Adds those of later rows. */
  void add(Faults other) {
    read += other.read;
    refused += other.refused;
    for (int i = 0; i < other.first.size() && first.size() < Refusals.LISTED; i++) {
      first.add(other.first.get(i));
    }
  }

  /** Returns how many rows were used. */
  long kept() {
    return read - refused;
  }

  /** Returns how the rows fared. */
  Result.Rows rows() {
    return new Result.Rows(
        (int) Math.min(Integer.MAX_VALUE, read),
        (int) Math.min(Integer.MAX_VALUE, kept()),
        (int) Math.min(Integer.MAX_VALUE, refused),
        first.stream().map(p -> new Problem(p.get(0), p.get(1), p.get(2), p.get(3))).toList());
  }
}
