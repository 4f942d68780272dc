package siltwright.analysis;

import java.util.Optional;
import siltwright.model.Fleet;
import siltwright.model.Machine;

/**
 * What an analysis works on.
 *
 * @param fleet the fleet, where the scope is a fleet or a machine
 * @param selected the machine, where the scope is a machine
 */
public record Context(Optional<Fleet> fleet, Optional<Machine> selected) {
  /** Nothing: for an analysis of its parameters alone. */
  public static final Context NONE = new Context(Optional.empty(), Optional.empty());

  /** Returns the context of one machine. */
  public static Context of(Fleet fleet, Machine machine) {
    return new Context(Optional.of(fleet), Optional.of(machine));
  }

  /** Returns the context of a fleet. */
  public static Context of(Fleet fleet) {
    return new Context(Optional.of(fleet), Optional.empty());
  }

  /** Returns the machine. */
  public Machine machine() {
    return selected.orElseThrow();
  }
}
