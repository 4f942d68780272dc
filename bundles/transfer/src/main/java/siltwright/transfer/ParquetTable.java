package siltwright.transfer;

import java.io.IOException;
import java.nio.file.Path;
import java.security.MessageDigest;
import java.time.Instant;
import java.time.LocalDate;
import java.time.LocalDateTime;
import java.time.LocalTime;
import java.time.temporal.ChronoUnit;
import java.util.List;
import siltwright.parquet.ParquetRows;

/**
 * A table in a Parquet file. Its headings are row 0, its records begin with row 1. An instant is a
 * text with its zone, as a text file would have it; a day is the midnight that it begins with, as
 * in a spreadsheet. Times are of whole seconds, as in all tables.
 */
final class ParquetTable implements Table {
  private final ParquetRows rows;
  private long line;
  private boolean begun;

  private ParquetTable(ParquetRows rows) {
    this.rows = rows;
  }

  /**
   * Opens a file.
   *
   * @param digest told all bytes of the file; null if nobody wants to know
   */
  static ParquetTable open(Path file, MessageDigest digest) throws IOException {
    TableFile.digest(file, digest);
    return new ParquetTable(ParquetRows.open(file));
  }

  @Override
  public Row next() {
    if (!begun) {
      begun = true;
      List<String> headings = rows.columns();
      return new Row(0, headings.toArray());
    }
    for (Object[] values; (values = rows.next()) != null; ) {
      line++;
      for (int i = 0; i < values.length; i++) {
        values[i] = cell(values[i]);
      }
      Row row = new Row(line, values);
      if (!row.isEmpty()) {
        return row;
      }
    }
    return null;
  }

  private static Object cell(Object value) {
    if (value instanceof LocalDate day) {
      return day.atStartOfDay();
    }
    if (value instanceof LocalDateTime time) {
      return time.truncatedTo(ChronoUnit.SECONDS);
    }
    return value instanceof Instant || value instanceof LocalTime ? value.toString() : value;
  }

  @Override
  public double share() {
    return rows.count() == 0 ? 1 : line / (double) rows.count();
  }

  @Override
  public void close() {
    rows.close();
  }
}
