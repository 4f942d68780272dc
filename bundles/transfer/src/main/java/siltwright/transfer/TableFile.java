package siltwright.transfer;

import java.io.IOException;
import java.nio.charset.Charset;
import java.nio.charset.IllegalCharsetNameException;
import java.nio.charset.UnsupportedCharsetException;
import java.nio.file.Path;
import java.security.MessageDigest;
import java.util.ArrayList;
import java.util.List;
import siltwright.model.InputException;
import siltwright.model.Problem;

/**
 * A file that holds a table, and how it is written.
 *
 * @param path the file
 * @param encoding encoding of a text; null for a spreadsheet
 * @param delimiter what parts the cells of a text
 * @param sheet sheet of a spreadsheet; empty for its first
 */
record TableFile(Path path, Charset encoding, char delimiter, String sheet) {
  static TableFile of(Path path, Wishes wishes) throws IOException {
    return SpreadsheetGuard.isZip(path)
        ? new TableFile(path, null, ',', wishes.sheet())
        : text(path, wishes);
  }

  private static TableFile text(Path path, Wishes wishes) throws IOException {
    Charset encoding =
        wishes.encoding().isEmpty() ? TextProbe.encoding(path) : charset(wishes.encoding());
    char delimiter =
        wishes.delimiter().isEmpty()
            ? TextProbe.delimiter(path, encoding)
            : delimiter(wishes.delimiter());
    return new TableFile(path, encoding, delimiter, "");
  }

  private static Charset charset(String name) {
    try {
      return Charset.forName(name);
    } catch (IllegalCharsetNameException | UnsupportedCharsetException e) {
      throw new InputException(
          new Problem("option", "--encoding", name, "an encoding such as UTF-8 or windows-1252"));
    }
  }

  private static char delimiter(String text) {
    if (text.equals("tab")) {
      return '\t';
    }
    if (text.length() != 1 || "\"\r\n".contains(text)) {
      throw new InputException(
          new Problem("option", "--delimiter", text, "one character, or the word tab"));
    }
    return text.charAt(0);
  }

  Table open(MessageDigest digest) throws IOException {
    return encoding == null
        ? XlsxTable.open(path, sheet, digest)
        : CsvTable.open(path, encoding, delimiter, digest);
  }

  /** Looks at the first rows. */
  Detection look(Wishes wishes, Mapping kept) throws IOException {
    List<Row> rows = new ArrayList<>();
    try (Table table = open(null)) {
      Row row;
      while (rows.size() < Detection.LOOK && (row = table.next()) != null) {
        rows.add(row);
      }
    }
    return Detection.of(
        path.toString(),
        rows,
        wishes,
        kept,
        encoding == null ? "" : encoding.name(),
        encoding == null ? "" : delimiter == '\t' ? "tab" : String.valueOf(delimiter));
  }
}
