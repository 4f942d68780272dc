package siltwright.transfer;

import de.siegmar.fastcsv.reader.CloseableIterator;
import de.siegmar.fastcsv.reader.CsvParseException;
import de.siegmar.fastcsv.reader.CsvReader;
import de.siegmar.fastcsv.reader.CsvRecord;
import de.siegmar.fastcsv.reader.FieldMismatchStrategy;
import java.io.FilterInputStream;
import java.io.FilterReader;
import java.io.IOException;
import java.io.InputStream;
import java.io.InputStreamReader;
import java.io.Reader;
import java.io.UncheckedIOException;
import java.nio.charset.CharacterCodingException;
import java.nio.charset.Charset;
import java.nio.charset.CodingErrorAction;
import java.nio.file.Files;
import java.nio.file.Path;
import java.security.MessageDigest;
import java.util.List;
import siltwright.model.InputException;
import siltwright.model.Problem;

/** A table in a text file. */
final class CsvTable implements Table {
  /** Longest line, in characters, with all lines of its quoted cells. */
  static final int LONGEST = 1 << 20;

  /** Most cells of a row. */
  static final int WIDEST = 2000;

  private final Path file;
  private final long size;
  private final Counting bytes;
  private final Ending text;
  private final CsvReader<CsvRecord> reader;
  private final CloseableIterator<CsvRecord> rows;
  private long line;
  private boolean broken;

  private CsvTable(Path file, long size, Counting bytes, Charset encoding, char delimiter) {
    this.file = file;
    this.size = size;
    this.bytes = bytes;
    text =
        new Ending(
            new InputStreamReader(
                bytes,
                encoding
                    .newDecoder()
                    .onMalformedInput(CodingErrorAction.REPORT)
                    .onUnmappableCharacter(CodingErrorAction.REPORT)));
    reader = builder(delimiter).ofCsvRecord(text);
    rows = reader.iterator();
  }

  static CsvReader.CsvReaderBuilder builder(char delimiter) {
    return CsvReader.builder()
        .fieldSeparator(delimiter)
        .quoteCharacter('"')
        .skipEmptyLines(true)
        .extraFieldStrategy(FieldMismatchStrategy.IGNORE)
        .missingFieldStrategy(FieldMismatchStrategy.IGNORE)
        .maxBufferSize(LONGEST);
  }

  /**
   * Opens a table.
   *
   * @param digest told all bytes that are read; null if nobody wants to know
   */
  static CsvTable open(Path file, Charset encoding, char delimiter, MessageDigest digest)
      throws IOException {
    long size = Files.size(file);
    return new CsvTable(
        file, size, new Counting(Files.newInputStream(file), digest), encoding, delimiter);
  }

  /** Counts bytes, so that there is progress to tell. */
  private static final class Counting extends FilterInputStream {
    private final MessageDigest digest;
    private volatile long count;

    Counting(InputStream in, MessageDigest digest) {
      super(in);
      this.digest = digest;
    }

    @Override
    public int read() throws IOException {
      byte[] one = new byte[1];
      return read(one, 0, 1) < 0 ? -1 : one[0] & 0xFF;
    }

    @Override
    public int read(byte[] to, int from, int length) throws IOException {
      int n = in.read(to, from, length);
      if (n > 0) {
        count += n;
        if (digest != null) {
          digest.update(to, from, n);
        }
      }
      return n;
    }
  }

  /** Remembers the last character that ends no line. */
  private static final class Ending extends FilterReader {
    private char last;

    Ending(Reader in) {
      super(in);
    }

    @Override
    public int read(char[] to, int from, int length) throws IOException {
      int n = in.read(to, from, length);
      for (int i = from + n - 1; i >= from; i--) {
        if (to[i] != '\n' && to[i] != '\r') {
          last = to[i];
          break;
        }
      }
      return n;
    }
  }

  @Override
  public Row next() {
    try {
      while (rows.hasNext()) {
        CsvRecord record = rows.next();
        List<String> fields = record.getFields();
        if (fields.size() > WIDEST) {
          throw new InputException(
              new Problem(
                  file.toString(),
                  "row " + record.getStartingLineNumber(),
                  fields.size() + " cells",
                  "at most " + WIDEST));
        }
        String end = fields.get(fields.size() - 1);
        broken = end.indexOf('\n') >= 0 || end.indexOf('\r') >= 0;
        Object[] cells = fields.toArray();
        boolean first = line == 0;
        line = record.getStartingLineNumber();
        if (first && cells.length > 0 && cells[0] instanceof String s && s.startsWith("\uFEFF")) {
          cells[0] = s.substring(1);
        }
        Row row = new Row(line, cells);
        if (!row.isEmpty()) {
          return row;
        }
      }
      if (broken && text.last != '"') {
        throw endless(); // the last cell holds lines, and no quote ends it
      }
      return null;
    } catch (CsvParseException | UncheckedIOException e) {
      throw explained(e);
    }
  }

  private InputException endless() {
    return new InputException(
        new Problem(
            file.toString(),
            (broken ? "row " : "after row ") + line,
            "a line or a quote that does not end",
            "lines of at most " + LONGEST + " characters and " + WIDEST + " cells"));
  }

  private InputException explained(RuntimeException e) {
    for (Throwable t = e; t != null; t = t.getCause()) {
      if (t instanceof CharacterCodingException) {
        return new InputException(
            new Problem(
                file.toString(),
                "after row " + line,
                "bytes of another encoding",
                "the one of its beginning; --encoding names another, such as windows-1252"));
      }
    }
    if (e instanceof CsvParseException) {
      return endless();
    }
    return new InputException(
        new Problem(file.toString(), "after row " + line, "", "a file that can be read"));
  }

  @Override
  public double share() {
    return size == 0 ? 1 : Math.min(1, bytes.count / (double) size);
  }

  @Override
  public void close() {
    try {
      reader.close();
    } catch (IOException e) {
      // it was only read
    }
  }
}
