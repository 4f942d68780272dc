package siltwright.large;

/** Values of a Parquet file's cells. */
final class Cells {
  private Cells() {}

  /** Returns a number; not a number if there is none. */
  static double number(Object cell) {
    if (cell instanceof Double d) {
      return d;
    }
    if (cell instanceof Boolean b) {
      return b ? 1 : 0;
    }
    try {
      return cell == null ? Double.NaN : Double.parseDouble(cell.toString().strip());
    } catch (NumberFormatException e) {
      return Double.NaN;
    }
  }

  /** Returns a text, empty if there is none; a whole number without its point. */
  static String text(Object cell) {
    if (cell instanceof Double d && d == Math.rint(d) && Math.abs(d) < 1e15) {
      return Long.toString(d.longValue());
    }
    return cell == null ? "" : cell.toString().strip();
  }
}
