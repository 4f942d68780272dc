package siltwright.analysis;

import java.util.List;
import java.util.Map;
import java.util.Optional;
import siltwright.model.Fleet;
import siltwright.model.Machine;
import siltwright.model.history.FleetHistory;

/**
 * What an analysis works on.
 *
 * @param fleet the fleet, where the scope is a fleet or a machine, or a {@link FleetFileParameter}
 *     names one
 * @param selected the machine, where the scope is a machine
 * @param records the table, where the scope is a table of records
 * @param tables further tables, by the name of the {@link RecordsParameter} that names them
 * @param others further tables of the same columns, where a {@link RecordsFolderParameter} names
 *     their folder
 * @param history the history, where the scope is one; open while the analysis runs
 */
public record Context(
    Optional<Fleet> fleet,
    Optional<Machine> selected,
    Optional<Records> records,
    Map<String, Records> tables,
    List<Records> others,
    Optional<FleetHistory> history) {
  public Context {
    tables = Map.copyOf(tables);
    others = List.copyOf(others);
  }

  /** Nothing: for an analysis of its parameters alone. */
  public static final Context NONE =
      new Context(
          Optional.empty(),
          Optional.empty(),
          Optional.empty(),
          Map.of(),
          List.of(),
          Optional.empty());

  /** Returns the context of one machine. */
  public static Context of(Fleet fleet, Machine machine) {
    return new Context(
        Optional.of(fleet),
        Optional.of(machine),
        Optional.empty(),
        Map.of(),
        List.of(),
        Optional.empty());
  }

  /** Returns the context of a fleet. */
  public static Context of(Fleet fleet) {
    return of(fleet, Map.of());
  }

  /**
   * Returns the context of a fleet with tables beside it.
   *
   * @param fleet the fleet
   * @param tables the tables, by the parameter that names them
   */
  public static Context of(Fleet fleet, Map<String, Records> tables) {
    return new Context(
        Optional.of(fleet),
        Optional.empty(),
        Optional.empty(),
        tables,
        List.of(),
        Optional.empty());
  }

  /**
   * Returns the context of a table of records.
   *
   * @param records the table
   * @param fleet the fleet that a {@link FleetFileParameter} names, if any
   */
  public static Context of(Records records, Optional<Fleet> fleet) {
    return of(records, fleet, Map.of(), List.of());
  }

  /**
   * Returns the context of a table of records with further tables beside it.
   *
   * @param records the table
   * @param fleet the fleet that a {@link FleetFileParameter} names, if any
   * @param tables further tables, by the parameter that names them
   * @param others the tables of the folder that a {@link RecordsFolderParameter} names
   */
  public static Context of(
      Records records, Optional<Fleet> fleet, Map<String, Records> tables, List<Records> others) {
    return new Context(
        fleet, Optional.empty(), Optional.of(records), tables, others, Optional.empty());
  }

  /** Returns the context of a history. */
  public static Context of(FleetHistory history) {
    return new Context(
        Optional.empty(),
        Optional.empty(),
        Optional.empty(),
        Map.of(),
        List.of(),
        Optional.of(history));
  }

  /** Returns the machine. */
  public Machine machine() {
    return selected.orElseThrow();
  }
}
