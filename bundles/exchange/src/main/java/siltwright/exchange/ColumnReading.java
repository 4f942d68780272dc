package siltwright.exchange;

import java.util.Arrays;
import java.util.regex.Pattern;
import siltwright.analysis.RecordColumn;
import siltwright.analysis.RecordColumn.Kind;
import siltwright.analysis.Records;

/** One column while a table is read. */
final class ColumnReading {
  /** A comma that may stand between thousands as well as before decimals. */
  private static final Pattern GROUP = Pattern.compile("[-+]?[1-9]\\d{0,2},\\d{3}");

  private static final int SHOWN = 40;

  final RecordColumn column;

  /** Whether its cells are taken as numbers. */
  final boolean numbers;

  private final boolean decimalComma;
  private final Words words = new Words();
  private double[] values = {};
  private int[] codes = {};
  private int rows;

  /** Cell that may have been meant as thousands, and its line; none at first. */
  String ambiguous = "";

  int ambiguousLine;

  ColumnReading(RecordColumn column, boolean numbers, boolean decimalComma) {
    this.column = column;
    this.numbers = numbers;
    this.decimalComma = decimalComma;
  }

  /** Takes a number; returns whether it is in the column's range. */
  boolean take(double v) {
    if (rows == values.length) {
      values = Arrays.copyOf(values, Math.max(1024, 2 * rows));
    }
    values[rows++] = v;
    return !(v < column.low() || v > column.high());
  }

  /**
   * Takes a number that is written in another than the plain way.
   *
   * @return what was expected instead; null if it was taken
   */
  String takeNumber(String cell, int line) {
    double v = number(cell, line);
    if (Double.isNaN(v) && !cell.isEmpty()) {
      boolean comma = !decimalComma && cell.indexOf(',') >= 0;
      return expected() + (comma ? ", with a decimal point since commas part the columns" : "");
    }
    return take(v) ? null : expected();
  }

  /** Takes a cell as a word. */
  void takeWord(Cells cells) {
    if (rows == codes.length) {
      codes = Arrays.copyOf(codes, Math.max(1024, 2 * rows));
    }
    codes[rows++] = cells.codeIn(words);
  }

  /** Takes back cells, so that so many rows stay. */
  void cut(int to) {
    rows = to;
  }

  private double number(String cell, int line) {
    if (cell.isEmpty()) {
      return Double.NaN;
    }
    String text = cell;
    if (decimalComma && cell.indexOf(',') >= 0 && cell.indexOf('.') < 0) {
      if (ambiguous.isEmpty() && GROUP.matcher(cell).matches()) {
        ambiguous = cell;
        ambiguousLine = line;
      }
      text = cell.replace(',', '.'); // a second comma makes it no number
    }
    char last = text.charAt(text.length() - 1);
    if (!(last >= '0' && last <= '9' || last == '.') || text.indexOf('x') >= 0) {
      return Double.NaN; // Java's own forms: 1d, NaN, 0x1p3
    }
    try {
      double v = Double.parseDouble(text);
      return Double.isFinite(v) ? v : Double.NaN;
    } catch (NumberFormatException e) {
      return Double.NaN;
    }
  }

  /** Returns what the column expects: a number, in its range. */
  String expected() {
    boolean low = column.low() > Double.NEGATIVE_INFINITY;
    boolean high = column.high() < Double.POSITIVE_INFINITY;
    return "a number"
        + (low ? " from " + plain(column.low()) : "")
        + (high ? " to " + plain(column.high()) : "");
  }

  private static String plain(double v) {
    return v == Math.rint(v) && Math.abs(v) < 1e15 ? Long.toString((long) v) : Double.toString(v);
  }

  /** Returns the column read. */
  Records.Column done() {
    return numbers
        ? new Records.Numbers(column.name(), Arrays.copyOf(values, rows))
        : new Records.Words(column.name(), words.texts(), Arrays.copyOf(codes, rows));
  }

  /** Returns whether a cell that is no number makes the column one of words. */
  boolean mayBeWords() {
    return column.kind() == Kind.EITHER;
  }

  static String shown(String cell) {
    String text = cell.replaceAll("\\p{Cntrl}", " ");
    return text.codePointCount(0, text.length()) <= SHOWN
        ? text
        : text.substring(0, text.offsetByCodePoints(0, SHOWN)) + "…";
  }
}
