package siltwright.batch;

import java.io.Serializable;
import java.nio.file.Path;
import java.security.MessageDigest;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import siltwright.model.InputException;
import siltwright.model.Machine;
import siltwright.model.Problem;
import siltwright.model.json.FleetVariants;
import siltwright.transfer.Row;
import siltwright.transfer.Table;

/**
 * A table of machines, a row each: {@code machine} is its id, {@code like} the machine of a fleet
 * file that it is like, and each other column a place in that machine ({@link FleetVariants}). An
 * empty cell leaves what the fleet file says. Read one row at a time.
 */
final class MachineRows implements AutoCloseable {
  private static final String MACHINE = "machine";
  private static final String LIKE = "like";

  /**
   * A machine of the table, not yet made.
   *
   * @param line its line or row in the file, from 1
   * @param id its id, as it stands there
   * @param like id of the machine that it is like
   * @param values text by place
   */
  record Entry(long line, String id, String like, Map<String, String> values)
      implements Serializable {
    /**
     * Makes the machine.
     *
     * @throws InputException if it does not fit; a problem is at a column
     */
    Machine machine(FleetVariants variants) {
      return variants.machine(id, like, values);
    }
  }

  private final Path file;
  private final Table table;
  private final List<String> columns = new ArrayList<>();

  /**
   * Opens a table.
   *
   * @param digest told all bytes that are read; null if nobody wants to know
   * @throws InputException if it is no table of machines
   */
  MachineRows(Path file, MessageDigest digest) {
    this.file = file;
    table = Table.open(file, digest);
    try {
      head();
    } catch (InputException e) {
      table.close();
      throw e;
    }
  }

  private void head() {
    Row heading = table.next();
    if (heading == null) {
      throw refusal(1, "nothing", "the columns machine and like, and a machine a row");
    }
    Set<String> before = new HashSet<>();
    for (int i = 0; i < heading.cells().length; i++) {
      String name = heading.text(i).strip();
      if (!name.isEmpty() && !before.add(name)) {
        throw refusal(heading.line(), name + " twice", "each column once");
      }
      columns.add(name);
    }
    for (String needed : List.of(MACHINE, LIKE)) {
      if (!before.contains(needed)) {
        throw refusal(
            heading.line(), String.join(", ", columns), "a column " + needed + " among them");
      }
    }
  }

  private InputException refusal(long line, String found, String expected) {
    return new InputException(new Problem(file.toString(), "row " + line, found, expected));
  }

  /**
   * Returns the next machine, or null at the end.
   *
   * @throws InputException if the rest of the file cannot be read
   */
  Entry next() {
    Row row = table.next();
    if (row == null) {
      return null;
    }
    Map<String, String> values = new LinkedHashMap<>();
    for (int i = 0; i < columns.size(); i++) {
      String text = row.text(i).strip();
      if (!columns.get(i).isEmpty() && !text.isEmpty()) {
        values.put(columns.get(i), text);
      }
    }
    String id = values.getOrDefault(MACHINE, "");
    String like = values.getOrDefault(LIKE, "");
    values.keySet().removeAll(List.of(MACHINE, LIKE));
    return new Entry(row.line(), id, like, values);
  }

  /** Returns how much of the file is read, 0 to 1. */
  double share() {
    return table.share();
  }

  @Override
  public void close() {
    table.close();
  }
}
