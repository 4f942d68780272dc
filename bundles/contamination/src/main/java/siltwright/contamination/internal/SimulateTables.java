package siltwright.contamination.internal;

import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import siltwright.analysis.Cell;
import siltwright.analysis.Entry;
import siltwright.cleanliness.Iso4406;
import siltwright.contamination.Simulation.Moment;
import siltwright.contamination.Simulation.ServiceCycle;
import siltwright.model.Bands;
import siltwright.model.Component;
import siltwright.model.DutyState;
import siltwright.model.Machine;
import siltwright.model.SizeBands;

/** The tables of a simulation. */
final class SimulateTables {
  private final List<String> states;
  private final List<String> components;

  SimulateTables(Machine machine) {
    states = machine.duty().stream().map(DutyState::id).toList();
    components = machine.components().stream().map(Component::id).toList();
  }

  /** One row a cycle, with the change that ends it. */
  Entry.Table cycles(List<ServiceCycle> cycles) {
    return new Entry.Table(
        "cycles",
        "Cycles, each with the change that ends it",
        Entry.Use.READ,
        List.of(
            new Entry.Column("cycle", "Cycle", ""),
            new Entry.Column("end_h", "Change at", "h"),
            new Entry.Column("codeAtEnd", "ISO 4406 before the change", ""),
            new Entry.Column("codeAfterChange", "ISO 4406 just after it", ""),
            new Entry.Column("retained_g", "Mass in the element", "g"),
            new Entry.Column("released_g", "Mass that the change released", "g"),
            new Entry.Column("deltaP_kPa", "Pressure drop of element and bypass", "kPa"),
            new Entry.Column("indicator_kPa", "Indicator reading, housing included", "kPa"),
            new Entry.Column("bypassShare", "Share of the flow past the element", "1"),
            new Entry.Column("worn_h", "Wear in hours at reference cleanliness", "h"),
            new Entry.Column("end_per_mL", "Counts by band at the end, " + bands(), "1/mL"),
            new Entry.Column("passing", "Particles through the pump by band", "")),
        cycles.stream().map(this::row).toList());
  }

  private static String bands() {
    return SizeBands.label(0) + " to " + SizeBands.label(SizeBands.COUNT - 1) + " µm(c)";
  }

  private List<Cell> row(ServiceCycle c) {
    return List.of(
        Cell.of(c.number()),
        Cell.of(c.endH()),
        Cell.of(code(c.endPerMl())),
        Cell.of(code(c.afterChangePerMl())),
        Cell.of(c.retainedG()),
        Cell.of(c.releasedG()),
        named(states, c.dropKPa()),
        Cell.of(c.readingKPa()),
        named(states, c.bypassShare()),
        components.isEmpty() ? new Cell.None() : named(components, c.wornH()),
        new Cell.Numbers(c.endPerMl().toArray()),
        new Cell.Numbers(c.passing().toArray()));
  }

  /** The machine at moments, for charts and programs. */
  Entry.Table series(String name, String label, List<Moment> moments) {
    return new Entry.Table(
        name,
        label,
        Entry.Use.DATA,
        List.of(
            new Entry.Column("time_h", "Time", "h"),
            new Entry.Column("cycle", "Cycle", ""),
            new Entry.Column("element_h", "Time since the change", "h"),
            new Entry.Column("iso4406", "ISO 4406", ""),
            new Entry.Column(
                "atOrAbove_per_mL", "Counts at or above 4, 6, 14, 21, 38, 70 µm(c)", "1/mL"),
            new Entry.Column("retained_g", "Mass in the element", "g"),
            new Entry.Column("deltaP_kPa", "Pressure drop of element and bypass", "kPa"),
            new Entry.Column("indicator_kPa", "Indicator reading, housing included", "kPa"),
            new Entry.Column("bypassShare", "Share of the flow past the element", "1")),
        moments.stream().map(this::row).toList());
  }

  private List<Cell> row(Moment m) {
    return List.of(
        Cell.of(m.timeH()),
        Cell.of(m.cycle()),
        Cell.of(m.elementH()),
        Cell.of(code(m.perMl())),
        new Cell.Numbers(SizeBands.toCumulative(m.perMl().toArray())),
        Cell.of(m.retainedG()),
        named(states, m.dropKPa()),
        Cell.of(m.readingKPa()),
        named(states, m.bypassShare()));
  }

  private static Cell named(List<String> names, List<Double> numbers) {
    Map<String, Double> byName = new LinkedHashMap<>();
    for (int i = 0; i < names.size(); i++) {
      byName.put(names.get(i), numbers.get(i));
    }
    return new Cell.Named(byName);
  }

  static String code(Bands perMl) {
    return Iso4406.code(perMl).toString();
  }
}
