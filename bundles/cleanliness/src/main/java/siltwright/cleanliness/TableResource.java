package siltwright.cleanliness;

import java.io.BufferedReader;
import java.io.IOException;
import java.io.InputStream;
import java.io.InputStreamReader;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.util.List;

/** The tables that lie beside this class: comma-separated, # begins a comment, one header row. */
final class TableResource {
  private TableResource() {}

  /** Returns the rows below the header, each cut into its fields. */
  static List<String[]> rows(String name) {
    InputStream table = TableResource.class.getResourceAsStream(name);
    if (table == null) {
      throw new IllegalStateException("table " + name + " is missing from the bundle");
    }
    try (BufferedReader reader =
        new BufferedReader(new InputStreamReader(table, StandardCharsets.UTF_8))) {
      return reader
          .lines()
          .filter(line -> !line.startsWith("#"))
          .skip(1)
          .map(line -> line.split(","))
          .toList();
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  /** Returns one column as numbers. */
  static double[] column(List<String[]> rows, int column) {
    return rows.stream().mapToDouble(row -> Double.parseDouble(row[column])).toArray();
  }
}
