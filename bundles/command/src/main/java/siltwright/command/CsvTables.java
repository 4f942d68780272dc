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

  /**
   * Writes each table of a result to a folder, which is made if it is not there; and each group of
   * series, a row a number of a series.
   */
  static void write(Result result, Path folder) throws IOException {
    Files.createDirectories(folder);
    for (Entry entry : result.entries()) {
      if (entry instanceof Entry.Table table) {
        WholeFile.write(folder.resolve(table.name() + ".csv"), out -> write(table, out));
      } else if (entry instanceof Entry.Group group && group.use() == Entry.Use.DATA) {
        WholeFile.write(folder.resolve(group.name() + ".csv"), out -> write(table(group), out));
      }
    }
  }

  /** Returns the series of a group below each other: the value's name, then its parts. */
  private static Entry.Table table(Entry.Group group) {
    Set<String> names = new LinkedHashSet<>();
    for (Entry.Value v : group.values()) {
      if (v.cell() instanceof Cell.Parts parts) {
        names.addAll(parts.cells().keySet());
      }
    }
    List<Entry.Column> columns = new ArrayList<>();
    columns.add(new Entry.Column("of", "Of", ""));
    names.forEach(name -> columns.add(new Entry.Column(name, name, "")));
    List<List<Cell>> rows = new ArrayList<>();
    for (Entry.Value v : group.values()) {
      Map<String, Cell> parts = v.cell() instanceof Cell.Parts p ? p.cells() : Map.of();
      int length = 1;
      for (Cell part : parts.values()) {
        length = part instanceof Cell.Numbers n ? Math.max(length, n.values().length) : length;
      }
      for (int i = 0; i < length; i++) {
        List<Cell> row = new ArrayList<>(List.of(Cell.of(v.name())));
        for (String name : names) {
          Cell part = parts.getOrDefault(name, new Cell.None());
          row.add(
              part instanceof Cell.Numbers n
                  ? i < n.values().length ? Cell.of(n.values()[i]) : new Cell.None()
                  : part);
        }
        rows.add(row);
      }
    }
    return new Entry.Table(group.name(), group.label(), Entry.Use.DATA, columns, rows);
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
