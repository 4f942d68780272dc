package siltwright.batch;

import de.siegmar.fastcsv.writer.CsvWriter;
import de.siegmar.fastcsv.writer.LineDelimiter;
import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.nio.channels.Channels;
import java.nio.channels.FileChannel;
import java.nio.channels.OverlappingFileLockException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.nio.file.StandardOpenOption;
import java.util.List;
import java.util.Locale;
import siltwright.model.InputException;
import siltwright.model.Problem;

/**
 * A table of results (CSV, RFC 4180, UTF-8) that grows beside its name, in {@code FILE.part}, until
 * it is whole, and is packed then where Parquet is wanted. What a run that was broken off has left
 * is gone on with if it was about the same.
 *
 * <p>Beside it, {@code FILE.part.of} says what the results are of.
 */
final class PartFile implements AutoCloseable {
  private final Path file;
  private final Path part;
  private final Path about;
  private final Path packed;
  private final FileChannel channel;
  private final CsvWriter csv;
  private final long there;

  /**
   * Begins a table, or goes on with one.
   *
   * @param file where it is to stand in the end
   * @param headings its columns
   * @param of what the results are of
   * @param resume whether to go on with what is there
   * @throws InputException if it cannot be written, is there already, or is about something else
   */
  PartFile(Path file, List<String> headings, String of, boolean resume) {
    this.file = file;
    part = file.resolveSibling(file.getFileName() + ".part");
    about = file.resolveSibling(file.getFileName() + ".part.of");
    packed = file.resolveSibling(file.getFileName() + ".part.packed");
    if (!isParquet(file) && !hasEnd(file, ".csv")) {
      throw refusal(file, "", "a name that ends in .csv or .parquet");
    }
    Path folder = file.toAbsolutePath().getParent();
    if (folder == null || !Files.isDirectory(folder)) {
      throw refusal(file, "", "a file in a folder that is there");
    }
    if (Files.exists(file)) {
      throw refusal(file, "a file that is there", "a name not in use");
    }
    boolean before = Files.exists(part);
    if (before && !resume) {
      throw refusal(
          part,
          "what a run has left that was broken off",
          "--resume to go on with it, or no such file");
    }
    try {
      if (before && !(Files.exists(about) && Files.readString(about).equals(of))) {
        throw refusal(
            part,
            "results of other files or options",
            "--resume with the files and options of the run that was broken off");
      }
      channel =
          FileChannel.open(
              part, StandardOpenOption.CREATE, StandardOpenOption.READ, StandardOpenOption.WRITE);
      if (!lock()) {
        channel.close();
        throw refusal(part, "a file that another run is writing", "a name not in use");
      }
      Files.writeString(about, of);
      there = before ? keepWholeRows() : 0;
      channel.position(channel.size());
      csv =
          CsvWriter.builder()
              .lineDelimiter(LineDelimiter.CRLF)
              .build(Channels.newWriter(channel, StandardCharsets.UTF_8));
      if (channel.size() == 0) {
        csv.writeRecord(headings);
        csv.flush();
      }
    } catch (IOException e) {
      throw notWritten(e);
    }
  }

  private static boolean isParquet(Path file) {
    return hasEnd(file, ".parquet");
  }

  private static boolean hasEnd(Path file, String end) {
    return file.getFileName().toString().toLowerCase(Locale.ROOT).endsWith(end);
  }

  private boolean lock() throws IOException {
    try {
      return channel.tryLock() != null;
    } catch (OverlappingFileLockException e) {
      return false;
    }
  }

  /** Cuts off a row that was not finished and returns how many rows of results are left. */
  private long keepWholeRows() throws IOException {
    long whole = 0;
    long rows = 0;
    long at = 0;
    try (InputStream in = Files.newInputStream(part)) {
      byte[] bytes = new byte[1 << 16];
      for (int n = in.read(bytes); n > 0; n = in.read(bytes)) {
        for (int i = 0; i < n; i++) {
          at++;
          // no cell has a line end in it
          if (bytes[i] == '\n') {
            whole = at;
            rows++;
          }
        }
      }
    }
    channel.truncate(whole);
    return Math.max(0, rows - 1);
  }

  private static InputException refusal(Path at, String found, String expected) {
    return new InputException(new Problem(at.toString(), "", found, expected));
  }

  private InputException notWritten(IOException e) {
    return refusal(part, "", "a place that can be written to (" + e.getMessage() + ")");
  }

  /** Returns how many rows were there from the start. */
  long there() {
    return there;
  }

  /** Returns where the rows stand until the table is whole. */
  Path part() {
    return part;
  }

  /**
   * Adds a row; it stays even if the process is killed right after.
   *
   * @param cells numbers or texts; null for nothing
   */
  void add(List<?> cells) {
    try {
      csv.writeRecord(cells.stream().map(PartFile::cell).toList());
      csv.flush();
    } catch (IOException e) {
      throw notWritten(e);
    } catch (UncheckedIOException e) {
      throw notWritten(e.getCause());
    }
  }

  private static boolean isComputed(String text) {
    return !text.isEmpty() && "=+-@\t".indexOf(text.charAt(0)) >= 0;
  }

  /** Returns a text of the table as it was given. */
  static String asGiven(String text) {
    return text.startsWith("'") && isComputed(text.substring(1)) ? text.substring(1) : text;
  }

  private static String cell(Object value) {
    if (value == null || value instanceof Double d && d.isNaN()) {
      return "";
    }
    if (value instanceof Number) {
      return value.toString();
    }
    String text = value.toString().replaceAll("\\R", " ");
    // a spreadsheet would compute it
    return isComputed(text) ? "'" + text : text;
  }

  /** Gives the table its name, and its form where that is Parquet. */
  void keep() {
    try {
      csv.close();
      if (isParquet(file)) {
        ParquetResults.write(part, packed);
        Files.move(packed, file, StandardCopyOption.ATOMIC_MOVE);
        Files.delete(part);
      } else {
        Files.move(part, file, StandardCopyOption.ATOMIC_MOVE);
      }
      Files.deleteIfExists(about);
    } catch (IOException e) {
      throw notWritten(e);
    }
  }

  @Override
  public void close() {
    try {
      csv.close();
    } catch (IOException e) {
      // every row was written before
    }
  }
}
