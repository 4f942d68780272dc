package siltwright.command;

import de.siegmar.fastcsv.writer.CsvWriter;
import de.siegmar.fastcsv.writer.LineDelimiter;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.io.Writer;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import siltwright.analysis.Cell;
import siltwright.analysis.Entry;
import siltwright.analysis.ExactNumber;
import siltwright.analysis.Result;

/**
 * Tables as CSV files (RFC 4180, UTF-8, all digits, empty where there is no value). A column of
 * ranges becomes two, {@code NAME_low} and {@code NAME_high}; one of several numbers becomes one
 * for each, {@code NAME_1} and so on, or {@code NAME_KEY} where they have names; and so within
 * named cells.
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
    List<Map<String, String>> flat = cells.stream().map(CsvTables::flat).toList();
    Set<String> parts = new LinkedHashSet<>();
    flat.forEach(cell -> parts.addAll(cell.keySet()));
    if (parts.isEmpty()) {
      parts.add("");
    }
    List<List<String>> columns = new ArrayList<>();
    for (String part : parts) {
      List<String> column = new ArrayList<>();
      column.add(part.isEmpty() ? name : name + "_" + part);
      flat.forEach(cell -> column.add(cell.getOrDefault(part, "")));
      columns.add(column);
    }
    return columns;
  }

  /** Returns what a cell holds, by what is put behind the name of its column. */
  private static Map<String, String> flat(Cell cell) {
    Map<String, String> parts = new LinkedHashMap<>();
    if (cell instanceof Cell.Num n) {
      parts.put("", number(n.value()));
    } else if (cell instanceof Cell.Text t) {
      parts.put("", t.text());
    } else if (cell instanceof Cell.Flag f) {
      parts.put("", Boolean.toString(f.yes()));
    } else if (cell instanceof Cell.Range r) {
      parts.put("low", number(r.low()));
      parts.put("high", number(r.high()));
    } else if (cell instanceof Cell.Numbers n) {
      for (int i = 0; i < n.values().length; i++) {
        parts.put(Integer.toString(i + 1), number(n.values()[i]));
      }
    } else if (cell instanceof Cell.Named n) {
      n.values().forEach((name, v) -> parts.put(name, number(v)));
    } else if (cell instanceof Cell.Parts p) {
      p.cells()
          .forEach(
              (name, of) ->
                  flat(of)
                      .forEach(
                          (part, v) -> parts.put(part.isEmpty() ? name : name + "_" + part, v)));
    }
    return parts;
  }

  private static String number(double value) {
    return Double.isFinite(value) ? ExactNumber.text(value) : "";
  }
}
