package siltwright.analysis;

import java.util.BitSet;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import siltwright.model.Problem;

/**
 * Rows of a table that were refused, each once and for its first fault. All are counted; the first
 * {@value #LISTED} of the table are told one by one.
 */
public final class Refusals {
  /** Most rows told one by one. */
  public static final int LISTED = 100;

  private final String source;
  private final BitSet lines = new BitSet();
  private final TreeMap<Integer, Problem> listed = new TreeMap<>();

  /**
   * Makes a list without rows.
   *
   * @param source name of the file in messages
   */
  public Refusals(String source) {
    this.source = source;
  }

  /** Returns a copy to which more rows can be added. */
  public Refusals copy() {
    Refusals copy = new Refusals(source);
    copy.lines.or(lines);
    copy.listed.putAll(listed);
    return copy;
  }

  /**
   * Refuses a row, unless it is refused already.
   *
   * @param line its line in the file, from 1
   * @param column column at fault; empty for the row as a whole
   * @param value what stands there
   * @param expected what was expected
   */
  public void refuse(int line, String column, String value, String expected) {
    if (lines.get(line)) {
      return;
    }
    lines.set(line);
    if (listed.size() == LISTED) {
      Map.Entry<Integer, Problem> last = listed.lastEntry();
      if (last.getKey() < line) {
        return;
      }
      listed.remove(last.getKey());
    }
    String place = "row " + line + (column.isEmpty() ? "" : ", column " + column);
    listed.put(line, new Problem(source, place, value, expected));
  }

  /** Returns whether the row on a line was refused. */
  public boolean refused(int line) {
    return lines.get(line);
  }

  /** Returns how many rows were refused. */
  public int count() {
    return lines.cardinality();
  }

  /** Returns the first of them with what is wrong, in the file's order. */
  public List<Problem> listed() {
    return List.copyOf(listed.values());
  }
}
