package siltwright.transfer;

import java.io.IOException;
import java.io.InputStream;
import java.nio.charset.Charset;
import java.nio.charset.IllegalCharsetNameException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
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
 * @param form what kind of file it is
 * @param encoding encoding of a text; null for another
 * @param delimiter what parts the cells of a text
 * @param sheet sheet of a spreadsheet; empty for its first
 */
record TableFile(Path path, Form form, Charset encoding, char delimiter, String sheet) {
  private static final String ZIP = "PK\3\4";
  private static final String PARQUET = "PAR";

  /** A kind of file. */
  enum Form {
    TEXT,
    SPREADSHEET,
    PARQUET
  }

  static TableFile of(Path path, Wishes wishes) throws IOException {
    return switch (form(path)) {
      case TEXT -> text(path, wishes);
      case SPREADSHEET -> new TableFile(path, Form.SPREADSHEET, null, ',', wishes.sheet());
      case PARQUET -> new TableFile(path, Form.PARQUET, null, ',', "");
    };
  }

  /** Returns the kind of a file, which its first bytes tell. */
  static Form form(Path path) throws IOException {
    try (InputStream in = Files.newInputStream(path)) {
      String head = new String(in.readNBytes(ZIP.length()), StandardCharsets.ISO_8859_1);
      if (head.equals(ZIP)) {
        return Form.SPREADSHEET;
      }
      boolean parquet = head.equals(PARQUET + '1') || head.equals(PARQUET + 'E');
      return parquet ? Form.PARQUET : Form.TEXT;
    }
  }

  private static TableFile text(Path path, Wishes wishes) throws IOException {
    Charset encoding =
        wishes.encoding().isEmpty() ? TextProbe.encoding(path) : charset(wishes.encoding());
    char delimiter =
        wishes.delimiter().isEmpty()
            ? TextProbe.delimiter(path, encoding)
            : delimiter(wishes.delimiter());
    return new TableFile(path, Form.TEXT, encoding, delimiter, "");
  }

  private static Charset charset(String name) {
    if (!isCharset(name)) {
      throw new InputException(
          new Problem("option", "--encoding", name, "an encoding such as UTF-8 or windows-1252"));
    }
    return Charset.forName(name);
  }

  static boolean isCharset(String name) {
    try {
      return Charset.isSupported(name);
    } catch (IllegalCharsetNameException e) {
      return false;
    }
  }

  private static char delimiter(String text) {
    if (!isDelimiter(text)) {
      throw new InputException(
          new Problem("option", "--delimiter", text, "one character, or the word tab"));
    }
    return text.equals("tab") ? '\t' : text.charAt(0);
  }

  static boolean isDelimiter(String text) {
    return text.equals("tab") || text.length() == 1 && !"\"\r\n".contains(text);
  }

  Table open(MessageDigest digest) throws IOException {
    return switch (form) {
      case TEXT -> CsvTable.open(path, encoding, delimiter, digest);
      case SPREADSHEET -> XlsxTable.open(path, sheet, digest);
      case PARQUET -> ParquetTable.open(path, digest);
    };
  }

  /** Tells a digest all bytes of a file, if there is one who wants to know. */
  static void digest(Path file, MessageDigest digest) throws IOException {
    if (digest != null) {
      try (InputStream in = Files.newInputStream(file)) {
        byte[] buffer = new byte[1 << 16];
        for (int n; (n = in.read(buffer)) > 0; ) {
          digest.update(buffer, 0, n);
        }
      }
    }
  }

  /** Looks at the first rows. */
  Detection look(Wishes wishes, List<Mapping.Column> columns) throws IOException {
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
        columns,
        encoding == null ? "" : encoding.name(),
        encoding == null ? "" : delimiter == '\t' ? "tab" : String.valueOf(delimiter));
  }
}
