package siltwright.transfer;

/**
 * A row of a table.
 *
 * @param line its line or row in the file, from 1
 * @param cells texts; in a spreadsheet also {@link Double}, {@link java.time.LocalDateTime} and
 *     {@link Boolean}; null where a cell is empty; not copied
 */
public record Row(long line, Object[] cells) {
  /** Returns a cell as a text, empty if there is none. */
  public String text(int column) {
    Object cell = column < cells.length ? cells[column] : null;
    if (cell == null) {
      return "";
    }
    if (cell instanceof Double d && d == Math.rint(d) && Math.abs(d) < 1e15) {
      return Long.toString(d.longValue());
    }
    return cell.toString();
  }

  boolean isEmpty() {
    for (int i = 0; i < cells.length; i++) {
      if (!text(i).isBlank()) {
        return false;
      }
    }
    return true;
  }
}
