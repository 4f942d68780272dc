package siltwright.exchange;

import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.util.Arrays;
import java.util.List;
import siltwright.analysis.RecordColumn;
import siltwright.analysis.Records;

/**
 * Reads tables of records: CSV (RFC 4180) in UTF-8 with or without byte-order mark, the names of
 * the columns in the first row, commas, semicolons or tabs between the columns, quotes where a cell
 * needs them. Where no comma parts the columns, numbers may have a decimal comma.
 *
 * <p>A row at fault is refused and named, the others are read; rows without any content are passed
 * over. What makes the table as a whole unreadable is refused.
 */
public final class RecordsReader {
  private static final char[] DELIMITERS = {'\t', ';', ','};
  private static final byte[] BYTE_ORDER_MARK = {(byte) 0xEF, (byte) 0xBB, (byte) 0xBF};

  private RecordsReader() {}

  /**
   * Reads a file.
   *
   * @param file the file
   * @param wanted columns to read; others are passed over and named in the notes
   * @throws siltwright.model.InputException if the file cannot be read, is not UTF-8 or no CSV, or
   *     lacks a column that is required
   */
  public static Records read(Path file, List<RecordColumn> wanted) {
    return read(TextFile.read(file), file.toString(), wanted);
  }

  /**
   * Reads the text of a file.
   *
   * @param text the text
   * @param source name of the file in messages
   * @param wanted as above
   * @throws siltwright.model.InputException as above
   */
  public static Records read(String text, String source, List<RecordColumn> wanted) {
    return read(text.getBytes(StandardCharsets.UTF_8), source, wanted);
  }

  /**
   * Returns the names of a file's columns, in its order.
   *
   * @param file the file
   * @throws siltwright.model.InputException if it cannot be read, is not UTF-8 or no CSV
   */
  public static List<String> columnNames(Path file) {
    return reading(TextFile.read(file), file.toString(), List.of()).columnNames();
  }

  private static Records read(byte[] bytes, String source, List<RecordColumn> wanted) {
    return reading(bytes, source, wanted).read();
  }

  private static TableReading reading(byte[] bytes, String source, List<RecordColumn> wanted) {
    int mark = BYTE_ORDER_MARK.length;
    boolean marked =
        bytes.length >= mark && Arrays.equals(bytes, 0, mark, BYTE_ORDER_MARK, 0, mark);
    int start = marked ? mark : 0;
    return new TableReading(bytes, start, delimiter(bytes, start), source, wanted);
  }

  /** Returns what parts the columns in the first line: what stands there most often. */
  private static char delimiter(byte[] bytes, int start) {
    int[] found = new int[DELIMITERS.length];
    boolean quoted = false;
    boolean content = false;
    for (int i = start; i < bytes.length; i++) {
      char c = (char) bytes[i];
      quoted ^= c == '"';
      if (!quoted && (c == '\n' || c == '\r') && content) {
        break;
      }
      content |= c > ' ' || c == '\t';
      for (int d = 0; d < DELIMITERS.length && !quoted; d++) {
        found[d] += c == DELIMITERS[d] ? 1 : 0;
      }
    }
    int best = DELIMITERS.length - 1;
    for (int d = best - 1; d >= 0; d--) {
      best = found[d] > found[best] ? d : best;
    }
    return DELIMITERS[best];
  }
}
