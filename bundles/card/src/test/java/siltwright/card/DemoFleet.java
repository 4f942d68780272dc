package siltwright.card;

import java.nio.file.Path;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import siltwright.analysis.Progress;
import siltwright.model.Fleet;
import siltwright.model.Machine;
import siltwright.model.json.FleetReader;

/** The demo fleet and its cards. */
final class DemoFleet {
  static final Fleet FLEET = FleetReader.read(Path.of("../../demo-data/three-pits.json")).fleet();
  static final Facts.Hours TUNED =
      new Facts.Hours(true, OptionalDouble.empty(), OptionalDouble.empty(), Optional.empty());

  private static final Map<String, Facts> FACTS = new java.util.concurrent.ConcurrentHashMap<>();

  private DemoFleet() {}

  static List<Machine> machines() {
    return FLEET.machines();
  }

  static Machine machine(String id) {
    return FLEET.machine(id).orElseThrow();
  }

  static Facts facts(Machine m) {
    return FACTS.computeIfAbsent(
        m.id(), id -> Facts.of(FLEET, m, Facts.cleanest(m), TUNED, Progress.NONE));
  }

  static Card card(Machine m, String language) {
    return Card.of(TemplateReader.standard(language), facts(m));
  }
}
