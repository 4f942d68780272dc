package siltwright.exchange;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.stream.Stream;
import siltwright.analysis.NaturalOrder;
import siltwright.model.InputException;
import siltwright.model.Problem;

/**
 * A folder of tables of records.
 *
 * @param option the option that names it, for messages
 * @param path the folder
 */
record RecordsFolder(String option, Path path) {
  static RecordsFolder of(String option, Path path) {
    if (!Files.isDirectory(path)) {
      throw new InputException(
          new Problem("option", option, path.toString(), "a folder of tables (CSV)"));
    }
    return new RecordsFolder(option, path);
  }

  /**
   * Returns the tables in it, in the natural order of their names: run-9 before run-10.
   *
   * @param but the table worked on, if it is a file, which is left out if it lies in the folder too
   */
  List<Path> tables(Optional<Path> but) {
    List<Path> tables = new ArrayList<>();
    try (Stream<Path> files = Files.list(path)) {
      for (Path file : (Iterable<Path>) files::iterator) {
        String name = file.getFileName().toString().toLowerCase(Locale.ROOT);
        if (name.endsWith(".csv")
            && Files.isRegularFile(file)
            && !(but.isPresent() && same(file, but.get()))) {
          tables.add(file);
        }
      }
    } catch (IOException | UncheckedIOException e) {
      throw new InputException(
          new Problem("option", option, path.toString(), "a folder that can be read"));
    }
    if (tables.isEmpty()) {
      throw new InputException(
          new Problem("option", option, path.toString() + " without tables", "*.csv files in it"));
    }
    tables.sort((a, b) -> NaturalOrder.compare(a.toString(), b.toString()));
    return tables;
  }

  private static boolean same(Path a, Path b) throws IOException {
    return Files.exists(b) && Files.isSameFile(a, b);
  }
}
