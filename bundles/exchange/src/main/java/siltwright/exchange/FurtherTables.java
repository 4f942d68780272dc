package siltwright.exchange;

import java.nio.file.InvalidPathException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import siltwright.analysis.Description;
import siltwright.analysis.Parameter;
import siltwright.analysis.RecordColumn;
import siltwright.analysis.Records;
import siltwright.analysis.RecordsFolderParameter;
import siltwright.analysis.RecordsParameter;
import siltwright.analysis.Values;
import siltwright.model.InputException;
import siltwright.model.Problem;

/** The tables that the parameters of an analysis name, beside the one that it works on. */
public final class FurtherTables {
  private FurtherTables() {}

  /**
   * Reads the table of each {@link RecordsParameter} that has a value.
   *
   * @return the tables by the parameter's name
   * @throws InputException as {@link RecordsReader#read} does, or if a value is no name of a file
   */
  public static Map<String, Records> named(Description description, Values values) {
    Map<String, Records> tables = new HashMap<>();
    for (Parameter<?> p : description.parameters()) {
      if (p instanceof RecordsParameter r && values.find(r).isPresent()) {
        tables.put(r.name(), RecordsReader.read(path(r, values.find(r).get()), r.columns()));
      }
    }
    return tables;
  }

  /**
   * Reads the tables of the folder that a {@link RecordsFolderParameter} names, in the natural
   * order of their names.
   *
   * @param but the table worked on, if it is a file, which is left out if it lies in the folder too
   * @param columns columns to take from each
   * @throws InputException as above, or if there is no such folder or no table in it
   */
  public static List<Records> inFolder(
      Description description, Values values, Optional<Path> but, List<RecordColumn> columns) {
    List<Records> tables = new ArrayList<>();
    for (Parameter<?> p : description.parameters()) {
      if (p instanceof RecordsFolderParameter && values.find(p).isPresent()) {
        Path folder = path(p, values.find(p).get().toString());
        for (Path table : RecordsFolder.of("--" + p.name(), folder).tables(but)) {
          tables.add(RecordsReader.read(table, columns));
        }
      }
    }
    return tables;
  }

  private static Path path(Parameter<?> p, String text) {
    try {
      return Path.of(text);
    } catch (InvalidPathException e) {
      throw new InputException(new Problem("option", "--" + p.name(), text, "the name of a file"));
    }
  }
}
