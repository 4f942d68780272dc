package siltwright.batch;

import java.io.IOException;
import java.nio.file.Path;
import java.util.List;
import siltwright.parquet.ParquetWriter;
import siltwright.parquet.ParquetWriter.Column;
import siltwright.parquet.ParquetWriter.Kind;
import siltwright.transfer.Row;
import siltwright.transfer.Table;

/** A table of results as Parquet: numbers as such, nothing where there is nothing. */
final class ParquetResults {
  private ParquetResults() {}

  /**
   * Writes what stands in a table.
   *
   * @param table the table (CSV), with {@link Answer#HEADINGS}
   * @param to where to; written anew
   */
  static void write(Path table, Path to) throws IOException {
    List<Column> columns =
        Answer.HEADINGS.stream()
            .map(h -> new Column(h, Answer.TEXTS.contains(h) ? Kind.TEXT : Kind.NUMBER))
            .toList();
    try (Table rows = Table.open(table, null);
        ParquetWriter file = ParquetWriter.create(to, columns)) {
      rows.next();
      for (Row row = rows.next(); row != null; row = rows.next()) {
        Object[] cells = new Object[columns.size()];
        for (int i = 0; i < cells.length; i++) {
          String text = row.text(i);
          if (!text.isEmpty()) {
            cells[i] =
                columns.get(i).kind() == Kind.TEXT ? PartFile.asGiven(text) : Double.valueOf(text);
          }
        }
        file.row(cells);
      }
      file.finish();
    }
  }
}
