package siltwright.transfer;

import de.siegmar.fastcsv.writer.CsvWriter;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.util.ArrayList;
import java.util.List;
import siltwright.model.InputException;
import siltwright.model.Problem;

/** Rows that were refused: the first of them to be told, all of them to a file with the reason. */
final class RefusedRows implements AutoCloseable {
  private static final int TOLD = 100;

  private final String source;
  private final Path file;
  private final Path part;
  private final List<String> headings;
  private final List<Problem> told = new ArrayList<>();
  private CsvWriter writer;
  private long count;

  /**
   * Begins.
   *
   * @param source name of the file that the rows are of, in messages
   * @param file where they go; made only if there are any
   * @param headings its headings
   */
  RefusedRows(String source, Path file, List<String> headings) {
    this.source = source;
    this.file = file;
    this.part = file.resolveSibling("." + file.getFileName() + "." + ProcessHandle.current().pid());
    this.headings = List.copyOf(headings);
  }

  void refuse(Row row, String column, String found, String expected) {
    count++;
    Problem problem =
        new Problem(
            source,
            "row " + row.line() + (column.isEmpty() ? "" : ", column " + column),
            found,
            expected);
    if (told.size() < TOLD) {
      told.add(problem);
    }
    try {
      if (writer == null) {
        writer = CsvText.writer(Files.newBufferedWriter(part));
        List<String> head = new ArrayList<>(List.of("row", "refused because"));
        head.addAll(headings);
        writer.writeRecord(head);
      }
      List<String> cells = new ArrayList<>();
      cells.add(Long.toString(row.line()));
      String where = column.isEmpty() ? "" : column + ": ";
      cells.add(CsvText.harmless(where + "found " + problem.value() + "; expected " + expected));
      for (int c = 0; c < row.cells().length; c++) {
        cells.add(CsvText.harmless(row.text(c)));
      }
      writer.writeRecord(cells);
    } catch (IOException | UncheckedIOException e) {
      throw notWritten();
    }
  }

  private InputException notWritten() {
    return new InputException(
        new Problem(file.toString(), "", "", "a place that can be written to, for refused rows"));
  }

  long count() {
    return count;
  }

  List<Problem> told() {
    return told;
  }

  /** Returns where the rows are, or nothing if there are none. */
  String file() {
    return count == 0 ? "" : file.toString();
  }

  /** Writes the rest, so that nothing is left that can fail once the records are saved. */
  void flush() {
    if (writer != null) {
      try {
        writer.close();
      } catch (IOException e) {
        throw notWritten();
      }
    }
  }

  /** Puts the file in its place. */
  void keep() {
    if (count > 0) {
      try {
        Files.move(part, file, StandardCopyOption.REPLACE_EXISTING);
      } catch (IOException e) {
        throw notWritten();
      }
    }
  }

  @Override
  public void close() {
    try {
      if (writer != null) {
        writer.close();
      }
      Files.deleteIfExists(part);
    } catch (IOException e) {
      // a part of a file that nobody needs
    }
  }
}
