package siltwright.large;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import siltwright.life.LifeData;
import siltwright.parquet.ParquetRows;

/**
 * Lives of components out of a range of rows, by group, checked row by row.
 *
 * @param groups lives by group, and of all under {@link #ALL}
 * @param faults how the rows fared
 */
record LifeRows(TreeMap<String, LifeData> groups, Faults faults) {
  /** All groups together. */
  static final String ALL = "";

  /** The column that must be there. */
  static final String HOURS = "hours";

  private static final List<String> COLUMNS =
      List.of(HOURS, "event", "entry_hours", "lower_hours", "upper_hours", "count");
  private static final String EVENT_FORM = "1 (failed) or 0 (taken out, or still running)";

  /**
   * Reads a range.
   *
   * @param by column of the groups; empty for none
   */
  static LifeRows read(RowRange range, String by) {
    List<String> columns = new ArrayList<>(COLUMNS);
    if (!by.isEmpty()) {
      columns.add(by);
    }
    Map<String, LifeData.Builder> builders = new TreeMap<>();
    builders.put(ALL, LifeData.builder());
    Faults faults = new Faults();
    try (ParquetRows rows = range.open(columns, 0)) {
      for (long row = range.from(); row < range.to(); row++) {
        Object[] cells = rows.next();
        faults.read(1);
        int fault = fault(cells);
        if (fault >= 0) {
          faults.refuse(1, range, row, COLUMNS.get(fault), cells[fault], expected(fault));
          continue;
        }
        String group = by.isEmpty() ? ALL : Cells.text(cells[COLUMNS.size()]);
        if (!by.isEmpty()) {
          if (group.isEmpty()) {
            faults.refuse(1, range, row, by, "", "a value, since it names the group");
            continue;
          }
          add(builders.computeIfAbsent(group, g -> LifeData.builder()), cells);
        }
        add(builders.get(ALL), cells);
      }
    }
    TreeMap<String, LifeData> groups = new TreeMap<>();
    builders.forEach((group, builder) -> groups.put(group, builder.build()));
    return new LifeRows(groups, faults);
  }

  /** Returns the place of the first cell at fault; -1 for none. */
  private static int fault(Object[] cells) {
    double hours = Cells.number(cells[0]);
    double event = Cells.number(cells[1]);
    double entry = cells[2] == null ? 0 : Cells.number(cells[2]);
    double lower = cells[3] == null ? 0 : Cells.number(cells[3]);
    double upper = Cells.number(cells[4]);
    double count = cells[5] == null ? 1 : Cells.number(cells[5]);
    boolean between = cells[4] != null;
    double end = between ? upper : hours;
    if (between ? !(lower >= 0 && Double.isFinite(lower)) : cells[3] != null && event == 1) {
      return between ? 3 : 4;
    }
    if (between && !(upper >= lower && upper > 0 && Double.isFinite(upper))) {
      return 4;
    }
    if (!between && !(hours > 0 && Double.isFinite(hours))) {
      return 0;
    }
    if (!(event == 1 || event == 0 && !between || Double.isNaN(event) && between)) {
      return 1;
    }
    if (!(entry >= 0 && entry < end)) {
      return 2;
    }
    return count > 0 && Double.isFinite(count) ? -1 : 5;
  }

  private static String expected(int fault) {
    return switch (fault) {
      case 0 -> "a number above 0";
      case 1 -> EVENT_FORM;
      case 2 -> "from 0 h to below the end";
      case 3 -> "at least 0 h";
      case 4 -> "above 0 h and not below lower_hours";
      default -> "a number above 0";
    };
  }

  private static void add(LifeData.Builder builder, Object[] cells) {
    if (cells[4] != null) {
      builder.failedBetween(cells[3] == null ? 0 : Cells.number(cells[3]), Cells.number(cells[4]));
    } else if (Cells.number(cells[1]) == 1) {
      builder.failedAt(Cells.number(cells[0]));
    } else {
      builder.runningAt(Cells.number(cells[0]));
    }
    if (cells[2] != null && Cells.number(cells[2]) > 0) {
      builder.enteredAt(Cells.number(cells[2]));
    }
    if (cells[5] != null) {
      builder.times(Cells.number(cells[5]));
    }
  }
}
