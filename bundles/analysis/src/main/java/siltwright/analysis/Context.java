package siltwright.analysis;

import java.util.List;
import java.util.Optional;
import siltwright.model.Fleet;
import siltwright.model.Machine;

/**
 * What an analysis works on.
 *
 * @param fleet the fleet, where the scope is a fleet or a machine, or a {@link FleetFileParameter}
 *     names one
 * @param selected the machine, where the scope is a machine
 * @param records the table, where the scope is a table of records
 * @param others further tables of the same columns, where a {@link RecordsFolderParameter} names
 *     their folder
 */
public record Context(
    Optional<Fleet> fleet,
    Optional<Machine> selected,
    Optional<Records> records,
    List<Records> others) {
  /** Nothing: for an analysis of its parameters alone. */
  public static final Context NONE =
      new Context(Optional.empty(), Optional.empty(), Optional.empty(), List.of());

  public Context {
    others = List.copyOf(others);
  }

  /** Returns the context of one machine. */
  public static Context of(Fleet fleet, Machine machine) {
    return new Context(Optional.of(fleet), Optional.of(machine), Optional.empty(), List.of());
  }

  /** Returns the context of a fleet. */
  public static Context of(Fleet fleet) {
    return new Context(Optional.of(fleet), Optional.empty(), Optional.empty(), List.of());
  }

  /**
   * Returns the context of a table of records.
   *
   * @param records the table
   * @param fleet the fleet that a {@link FleetFileParameter} names, if any
   */
  public static Context of(Records records, Optional<Fleet> fleet) {
    return of(records, fleet, List.of());
  }

  /**
   * Returns the context of a table of records with others of its kind.
   *
   * @param records the table
   * @param fleet the fleet that a {@link FleetFileParameter} names, if any
   * @param others the tables of the folder that a {@link RecordsFolderParameter} names
   */
  public static Context of(Records records, Optional<Fleet> fleet, List<Records> others) {
    return new Context(fleet, Optional.empty(), Optional.of(records), others);
  }

  /** Returns the machine. */
  public Machine machine() {
    return selected.orElseThrow();
  }
}
