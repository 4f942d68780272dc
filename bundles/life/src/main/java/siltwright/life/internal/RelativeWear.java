package siltwright.life.internal;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.TreeSet;
import siltwright.cleanliness.Iso4406;
import siltwright.contamination.Circuit;
import siltwright.contamination.Cycle;
import siltwright.contamination.CycleSweep;
import siltwright.contamination.Wear;
import siltwright.model.ChangeProcedure;
import siltwright.model.CleanlinessCode;
import siltwright.model.Component;
import siltwright.model.Fleet;
import siltwright.model.Machine;
import siltwright.model.SizeBands;

/**
 * Relative wear κ of a kind of component by the machine model: at a cleanliness code, or as the
 * mean of the cycle that repeats itself with a procedure and an interval.
 */
final class RelativeWear {
  private final Optional<Fleet> fleet;
  private final Optional<String> kind;
  private final Map<String, Double> known = new HashMap<>();
  private final Set<String> references = new TreeSet<>();

  RelativeWear(Optional<Fleet> fleet, Optional<String> kind) {
    this.fleet = fleet;
    this.kind = kind;
  }

  /** What the model does not tell; the message is what was expected in a column. */
  static final class Unknown extends Exception {
    private static final long serialVersionUID = 1;
    private final String column;

    Unknown(String column, String expected) {
      super(expected);
      this.column = column;
    }

    String column() {
      return column;
    }
  }

  /** Returns the reference codes of the components met so far. */
  Set<String> references() {
    return references;
  }

  double at(String machineId, String code) throws Unknown {
    Machine machine = machine(machineId);
    Component component = machine.components().get(component(machine));
    try {
      double[] counts = SizeBands.toBands(Iso4406.cumulativePerMl(CleanlinessCode.parse(code)));
      return Wear.of(machine, component).relative(counts);
    } catch (IllegalArgumentException e) {
      throw new Unknown("code", "a cleanliness code such as 18/16/13");
    }
  }

  double at(String machineId, String procedureId, double intervalH) throws Unknown {
    Machine machine = machine(machineId);
    int component = component(machine);
    ChangeProcedure procedure = machine.procedure(procedureId).orElse(null);
    if (procedure == null) {
      List<String> ids = machine.procedures().stream().map(ChangeProcedure::id).toList();
      throw new Unknown("procedure", "one of " + String.join(", ", ids));
    }
    String key = machineId + '\n' + procedureId + '\n' + intervalH;
    if (!known.containsKey(key)) {
      Cycle cycle = new Cycle(machine.components().size());
      new CycleSweep(Circuit.inTheLongRun(machine), Wear.of(machine))
          .fill(intervalH, procedure, cycle);
      if (cycle.state() != Cycle.State.REPEATS) {
        throw new Unknown(
            "interval_hours", "an interval at which the machine model has a repeating cycle");
      }
      known.put(key, cycle.meanWear(component));
    }
    return known.get(key);
  }

  private Machine machine(String id) throws Unknown {
    if (fleet.isEmpty() || kind.isEmpty()) {
      throw new Unknown(
          "machine", "kappa, or --fleet FLEET.json and --component KIND, whose model tells it");
    }
    Optional<Machine> machine = fleet.get().machine(id);
    if (machine.isEmpty()) {
      List<String> ids = fleet.get().machines().stream().map(Machine::id).toList();
      throw new Unknown("machine", "one of " + String.join(", ", ids));
    }
    return machine.get();
  }

  private int component(Machine machine) throws Unknown {
    List<Integer> of = new ArrayList<>();
    for (int i = 0; i < machine.components().size(); i++) {
      if (machine.components().get(i).kind().equals(kind.orElseThrow())) {
        of.add(i);
      }
    }
    if (of.size() != 1) {
      throw new Unknown(
          "machine",
          "a machine with one component of kind " + kind.get() + "; this has " + of.size());
    }
    references.add(machine.components().get(of.get(0)).reference().toString());
    return of.get(0);
  }
}
