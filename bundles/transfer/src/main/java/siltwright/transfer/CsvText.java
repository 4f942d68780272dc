package siltwright.transfer;

import de.siegmar.fastcsv.writer.CsvWriter;
import de.siegmar.fastcsv.writer.LineDelimiter;
import java.io.Writer;
import java.util.regex.Pattern;

/** Writes tables as text: RFC 4180, UTF-8, and no cell that a spreadsheet would compute. */
final class CsvText {
  private static final Pattern NUMBER = Pattern.compile("[+-]?\\d[\\d.,]*");

  private CsvText() {}

  static CsvWriter writer(Writer to) {
    return CsvWriter.builder().lineDelimiter(LineDelimiter.CRLF).build(to);
  }

  /**
   * Returns a text that a spreadsheet shows rather than computes: one that begins as a formula does
   * gets an apostrophe before it, which import takes off again.
   */
  static String harmless(String text) {
    if (text == null || text.isEmpty()) {
      return "";
    }
    if (NUMBER.matcher(text).matches()) {
      return text;
    }
    return "=+-@\t\r".indexOf(text.charAt(0)) >= 0 ? "'" + text : text;
  }
}
