package siltwright.exchange;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.regex.Pattern;
import siltwright.analysis.RecordColumn;
import siltwright.analysis.RecordColumn.Kind;
import siltwright.analysis.Records;

/** One column while a table is read. */
final class ColumnReading {
  /** A comma that may stand between thousands as well as before decimals. */
  private static final Pattern GROUP = Pattern.compile("[-+]?[1-9]\\d{0,2},\\d{3}");

  private static final int SHOWN = 40;
  private static final double[] POWERS = {
    1, 1e1, 1e2, 1e3, 1e4, 1e5, 1e6, 1e7, 1e8, 1e9, 1e10, 1e11, 1e12, 1e13, 1e14, 1e15
  };

  final RecordColumn column;
  private final boolean decimalComma;
  private final Map<String, Integer> index = new HashMap<>();
  private final List<String> words = new ArrayList<>();
  private double[] values;
  private int[] codes;
  private int rows;

  /** Cell that may have been meant as thousands, and its line; none at first. */
  String ambiguous = "";

  int ambiguousLine;

  ColumnReading(RecordColumn column, boolean decimalComma) {
    this.column = column;
    this.decimalComma = decimalComma;
    if (column.kind() == Kind.NUMBER) {
      values = new double[1024];
    } else {
      codes = new int[1024];
    }
  }

  /**
   * Takes the next cell.
   *
   * @return what was expected instead; null if it was taken
   */
  String take(String cell, int line) {
    grow();
    if (column.kind() != Kind.NUMBER) {
      codes[rows++] = cell.isEmpty() ? -1 : code(cell);
      return null;
    }
    double v = number(cell, line);
    if (Double.isNaN(v) && !cell.isEmpty()) {
      boolean comma = !decimalComma && cell.indexOf(',') >= 0;
      return "a number"
          + range()
          + (comma ? ", with a decimal point since commas part the columns" : "");
    }
    if (v < column.low() || v > column.high()) {
      return "a number" + range();
    }
    values[rows++] = v;
    return null;
  }

  /** Takes back cells, so that so many rows stay. */
  void cut(int to) {
    rows = to;
  }

  private void grow() {
    if (values != null && rows == values.length) {
      values = Arrays.copyOf(values, 2 * rows);
    } else if (codes != null && rows == codes.length) {
      codes = Arrays.copyOf(codes, 2 * rows);
    }
  }

  private int code(String cell) {
    Integer known = index.putIfAbsent(cell, words.size());
    if (known == null) {
      words.add(cell);
      return words.size() - 1;
    }
    return known;
  }

  private double number(String cell, int line) {
    if (cell.isEmpty()) {
      return Double.NaN;
    }
    String text = cell;
    int comma = cell.indexOf(',');
    if (decimalComma && comma >= 0 && cell.indexOf('.') < 0) {
      if (ambiguous.isEmpty() && GROUP.matcher(cell).matches()) {
        ambiguous = cell;
        ambiguousLine = line;
      }
      text = cell.replace(',', '.'); // a second comma makes it no number
    }
    double plain = plainNumber(text);
    if (!Double.isNaN(plain)) {
      return plain;
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

  /**
   * Returns a number of at most 15 digits and a point, not a number for any other text. Exact: both
   * the digits and the power of ten are doubles without rounding, and their quotient is rounded
   * once.
   */
  private static double plainNumber(String text) {
    int length = text.length();
    if (length > 16) {
      return Double.NaN;
    }
    long digits = 0;
    int point = -1;
    for (int i = 0; i < length; i++) {
      char c = text.charAt(i);
      if (c >= '0' && c <= '9') {
        digits = 10 * digits + (c - '0');
      } else if (c == '.' && point < 0 && length > 1) {
        point = i;
      } else {
        return Double.NaN;
      }
    }
    if (digits >= 1_000_000_000_000_000L) {
      return Double.NaN;
    }
    return point < 0 ? digits : digits / POWERS[length - 1 - point];
  }

  private String range() {
    boolean low = column.low() > Double.NEGATIVE_INFINITY;
    boolean high = column.high() < Double.POSITIVE_INFINITY;
    return (low ? " from " + plain(column.low()) : "")
        + (high ? " to " + plain(column.high()) : "");
  }

  private static String plain(double v) {
    return v == Math.rint(v) && Math.abs(v) < 1e15 ? Long.toString((long) v) : Double.toString(v);
  }

  /** Returns the column read, of numbers if all its words are numbers and may be. */
  Records.Column done() {
    if (column.kind() == Kind.NUMBER) {
      return new Records.Numbers(column.name(), Arrays.copyOf(values, rows));
    }
    int[] read = Arrays.copyOf(codes, rows);
    if (column.kind() == Kind.EITHER) {
      double[] meant = words.stream().mapToDouble(w -> number(w, 0)).toArray();
      // Words of refused rows alone do not count.
      if (Arrays.stream(read).noneMatch(code -> code >= 0 && Double.isNaN(meant[code]))) {
        double[] numbers = new double[rows];
        Arrays.setAll(numbers, i -> read[i] < 0 ? Double.NaN : meant[read[i]]);
        return new Records.Numbers(column.name(), numbers);
      }
    }
    return new Records.Words(column.name(), words, read);
  }

  static String shown(String cell) {
    String text = cell.replaceAll("\\p{Cntrl}", " ");
    return text.length() <= SHOWN ? text : text.substring(0, SHOWN) + "…";
  }
}
