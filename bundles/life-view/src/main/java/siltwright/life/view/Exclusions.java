package siltwright.life.view;

import de.siegmar.fastcsv.reader.CsvReader;
import de.siegmar.fastcsv.reader.CsvRecord;
import de.siegmar.fastcsv.writer.CsvWriter;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.util.Collections;
import java.util.Map;
import java.util.TreeMap;
import siltwright.analysis.Records;

/**
 * Records left out of a fit, with the reason of each. Kept in a table beside the records, {@code
 * NAME.left-out.csv}: row, reason, and the record itself, by which it is found again after the file
 * has changed.
 */
final class Exclusions {
  private static final String SUFFIX = ".left-out.csv";

  private final Path file;
  private final Map<Integer, String> reasons = new TreeMap<>();
  private int gone;

  private Exclusions(Path file) {
    this.file = file;
  }

  /** The file that goes with a file of records. */
  static Path beside(Path records) {
    return records.resolveSibling(records.getFileName() + SUFFIX);
  }

  /**
   * Reads what is left out of a table.
   *
   * @param records the table's file
   * @param table the table, all its columns
   * @throws IOException if the file is there and cannot be read
   */
  static Exclusions read(Path records, Records table) throws IOException {
    Exclusions read = new Exclusions(beside(records));
    if (!Files.exists(read.file)) {
      return read;
    }
    Map<String, Integer> lines = new TreeMap<>();
    for (int i = 0; i < table.rows(); i++) {
      lines.putIfAbsent(text(table, i), table.line(i));
    }
    try (CsvReader<CsvRecord> csv = CsvReader.builder().ofCsvRecord(read.file)) {
      boolean head = true;
      for (CsvRecord row : csv) {
        if (!head && row.getFieldCount() == 3) {
          read.take(row, table, lines);
        }
        head = false;
      }
    } catch (UncheckedIOException e) {
      throw e.getCause();
    }
    return read;
  }

  private void take(CsvRecord row, Records table, Map<String, Integer> lines) {
    String record = row.getField(2);
    for (int i = 0; i < table.rows(); i++) {
      if (Integer.toString(table.line(i)).equals(row.getField(0))
          && text(table, i).equals(record)) {
        reasons.put(table.line(i), row.getField(1));
        return;
      }
    }
    Integer moved = lines.get(record);
    if (moved == null) {
      gone++;
    } else {
      reasons.put(moved, row.getField(1));
    }
  }

  private static String text(Records table, int row) {
    StringBuilder text = new StringBuilder();
    for (Records.Column c : table.columns()) {
      text.append(text.length() == 0 ? "" : " | ").append(c.text(row));
    }
    return text.toString();
  }

  /** Returns how many records that were left out are no longer there. */
  int gone() {
    return gone;
  }

  /** Returns the reasons as they stand, by the record's row in the file. */
  Map<Integer, String> reasons() {
    return Collections.unmodifiableMap(reasons);
  }

  /**
   * Leaves a record out, or takes it in again.
   *
   * @param line its row in the file
   * @param reason why; empty takes it in again
   */
  void put(int line, String reason) {
    if (reason.isEmpty()) {
      reasons.remove(line);
    } else {
      reasons.put(line, reason);
    }
  }

  /**
   * Keeps what is left out, whole or not at all; without any the file goes.
   *
   * @throws IOException if it cannot be written
   */
  void keep(Records table) throws IOException {
    if (reasons.isEmpty()) {
      Files.deleteIfExists(file);
      return;
    }
    Path next = file.resolveSibling(file.getFileName() + ".new");
    try (CsvWriter csv = CsvWriter.builder().build(next, StandardCharsets.UTF_8)) {
      csv.writeRecord("row", "reason", "record");
      for (int i = 0; i < table.rows(); i++) {
        String reason = reasons.get(table.line(i));
        if (reason != null) {
          csv.writeRecord(Integer.toString(table.line(i)), reason, text(table, i));
        }
      }
    }
    Files.move(next, file, StandardCopyOption.REPLACE_EXISTING, StandardCopyOption.ATOMIC_MOVE);
  }
}
