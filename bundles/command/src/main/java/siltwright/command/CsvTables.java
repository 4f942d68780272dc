package siltwright.command;

import de.siegmar.fastcsv.writer.CsvWriter;
import de.siegmar.fastcsv.writer.LineDelimiter;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.io.Writer;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Collection;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Set;
import siltwright.analysis.Cell;
import siltwright.analysis.Entry;
import siltwright.analysis.Result;

/**
 * Tables as CSV files (RFC 4180, UTF-8, all digits, empty where there is no value). A column of
 * ranges becomes two, {@code NAME_low} and {@code NAME_high}; one of several numbers becomes one
 * for each, {@code NAME_1} and so on, or {@code NAME_KEY} where they have names.
 */
final class CsvTables {
  private CsvTables() {}

  /** Writes each table of a result to a folder, which is made if it is not there. */
  static void write(Result result, Path folder) throws IOException {
    Files.createDirectories(folder);
    for (Entry entry : result.entries()) {
      if (entry instanceof Entry.Table table) {
        WholeFile.write(folder.resolve(table.name() + ".csv"), out -> write(table, out));
      }
    }
  }

  private static void write(Entry.Table table, Writer out) {
    List<List<String>> columns = new ArrayList<>();
    for (int c = 0; c < table.columns().size(); c++) {
      int at = c;
      columns.addAll(
          columns(
              table.columns().get(c).name(),
              table.rows().stream().map(row -> row.get(at)).toList()));
    }
    CsvWriter csv = CsvWriter.builder().lineDelimiter(LineDelimiter.CRLF).build(out);
    for (int r = 0; r <= table.rows().size(); r++) {
      int at = r;
      csv.writeRecord(columns.stream().map(column -> column.get(at)).toList());
    }
    try {
      csv.flush();
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  /** Returns one column or several for a column of cells: the head first, then the cells. */
  private static List<List<String>> columns(String name, List<Cell> cells) {
    Set<String> parts = new LinkedHashSet<>();
    cells.forEach(cell -> parts.addAll(parts(cell)));
    if (parts.isEmpty()) {
      parts.add("");
    }
    List<List<String>> columns = new ArrayList<>();
    for (String part : parts) {
      List<String> column = new ArrayList<>();
      column.add(part.isEmpty() ? name : name + "_" + part);
      cells.forEach(cell -> column.add(part(cell, part)));
      columns.add(column);
    }
    return columns;
  }

  private static Collection<String> parts(Cell cell) {
    if (cell instanceof Cell.None) {
      return List.of();
    }
    if (cell instanceof Cell.Range) {
      return List.of("low", "high");
    }
    if (cell instanceof Cell.Numbers n) {
      List<String> parts = new ArrayList<>();
      for (int i = 1; i <= n.values().length; i++) {
        parts.add(Integer.toString(i));
      }
      return parts;
    }
    if (cell instanceof Cell.Named n) {
      return n.values().keySet();
    }
    return List.of("");
  }

  private static String part(Cell cell, String part) {
    if (!parts(cell).contains(part)) {
      return "";
    }
    if (cell instanceof Cell.Num n) {
      return number(n.value());
    }
    if (cell instanceof Cell.Text t) {
      return t.text();
    }
    if (cell instanceof Cell.Flag f) {
      return Boolean.toString(f.yes());
    }
    if (cell instanceof Cell.Range r) {
      return number(part.equals("low") ? r.low() : r.high());
    }
    if (cell instanceof Cell.Numbers n) {
      return number(n.values()[Integer.parseInt(part) - 1]);
    }
    return number(((Cell.Named) cell).values().get(part));
  }

  private static String number(double value) {
    return Double.isFinite(value) ? ExactNumber.text(value) : "";
  }
}
