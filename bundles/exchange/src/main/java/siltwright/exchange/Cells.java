package siltwright.exchange;

import java.nio.charset.StandardCharsets;
import siltwright.model.InputException;
import siltwright.model.Problem;

/**
 * The cells of a table one after another (RFC 4180), without a text a cell. Lines end with a line
 * feed, a carriage return or both; a quoted cell may hold line ends, delimiters and doubled quotes.
 */
final class Cells {
  private static final char QUOTE = '"';

  private final byte[] bytes;
  private final byte delimiter;
  private final Decimal decimal;
  private final String source;
  private int at;
  private int line = 1;
  private int from;
  private int to;
  private boolean quoted;
  private boolean last;

  Cells(byte[] bytes, int start, char delimiter, String source) {
    this.bytes = bytes;
    this.at = start;
    this.delimiter = (byte) delimiter;
    this.decimal = new Decimal(delimiter != ',');
    this.source = source;
  }

  /** Returns whether another row begins here. */
  boolean more() {
    return at < bytes.length;
  }

  /** Returns the line, from 1, on which the next cell begins. */
  int line() {
    return line;
  }

  /** Returns whether the cell gone to is the last of its row. */
  boolean last() {
    return last;
  }

  /**
   * Goes to the next cell if it is a plain number.
   *
   * @return the number; not a number if it is anything else, and then stays
   */
  double nextNumber() {
    double v = decimal.read(bytes, at, bytes.length);
    int i = decimal.end;
    if (v != v || i < bytes.length && bytes[i] != delimiter && !endsLine(bytes[i])) {
      return Double.NaN;
    }
    quoted = false;
    from = at;
    to = i;
    leave(i);
    return v;
  }

  /** Goes to the next cell. */
  void next() {
    quoted = at < bytes.length && bytes[at] == QUOTE;
    int i = quoted ? closing(at + 1) : at;
    from = quoted ? at + 1 : at;
    to = i;
    if (quoted) {
      i++;
      if (i < bytes.length && bytes[i] != delimiter && !endsLine(bytes[i])) {
        throw quote("a quoted cell that goes on behind its closing quote");
      }
    } else {
      while (i < bytes.length && bytes[i] != delimiter && !endsLine(bytes[i])) {
        i++;
      }
      to = i;
      while (from < to && blank(bytes[from])) {
        from++;
      }
      while (from < to && blank(bytes[to - 1])) {
        to--;
      }
    }
    leave(i);
  }

  private int closing(int begin) {
    int start = line;
    for (int i = begin; i < bytes.length; i++) {
      byte b = bytes[i];
      if (b == QUOTE) {
        if (i + 1 == bytes.length || bytes[i + 1] != QUOTE) {
          return i;
        }
        i++;
      } else if (b == '\n' || b == '\r' && (i + 1 == bytes.length || bytes[i + 1] != '\n')) {
        line++;
      }
    }
    line = start;
    throw quote("a quoted cell that does not end");
  }

  private InputException quote(String found) {
    return new InputException(
        new Problem(
            source,
            "row " + line,
            found,
            "quotes only round whole cells, a quote within them doubled"));
  }

  /** Goes on behind a cell that ends at a delimiter, a line's end or the end of all. */
  private void leave(int i) {
    at = i + 1;
    last = i >= bytes.length || bytes[i] != delimiter;
    if (last && i < bytes.length) {
      line++;
      if (bytes[i] == '\r' && at < bytes.length && bytes[at] == '\n') {
        at++;
      }
    }
  }

  private static boolean endsLine(byte b) {
    return b == '\n' || b == '\r';
  }

  private static boolean blank(byte b) {
    return b == ' ' || b >= 9 && b <= 13 || b >= 28 && b <= 31;
  }

  /** Returns whether nothing stands in the cell. */
  boolean isBlank() {
    return from == to || !isPlain() && text().isEmpty();
  }

  /**
   * Returns whether the cell's bytes are its text: no quotes, no blanks that only Unicode knows.
   */
  private boolean isPlain() {
    return !quoted && bytes[from] >= 0 && bytes[to - 1] >= 0;
  }

  /** Returns the cell's text without blanks round it. */
  String text() {
    String text = new String(bytes, from, to - from, StandardCharsets.UTF_8);
    return (quoted ? text.replace("\"\"", "\"") : text).strip();
  }

  /** Returns the code of the cell's text among words, which learn it if it is new. */
  int codeIn(Words words) {
    if (from < to && isPlain()) {
      return words.code(bytes, from, to);
    }
    byte[] text = text().getBytes(StandardCharsets.UTF_8);
    return text.length == 0 ? -1 : words.code(text, 0, text.length);
  }
}
