package siltwright.model.history;

import static siltwright.model.history.RecordField.number;
import static siltwright.model.history.RecordField.text;

import java.util.Arrays;
import java.util.List;
import java.util.Optional;
import siltwright.model.history.RecordField.Need;

/**
 * A kind of record. Besides its own fields each has a machine, an instant, whether of that only the
 * day is known, and what the hour meter showed.
 *
 * <p>Bounds are there to catch slips of unit and decimal point; they are our own choice.
 */
public enum RecordKind {
  /** What the hour meter showed. */
  METER("meter", "Meter readings", "meter_reading", text("source", "who or what read it")),
  /** A filter element that was changed. */
  CHANGE(
      "change",
      "Element changes",
      "element_change",
      text("filter", Need.KEY, "which filter: return, pressure, offline"),
      text("element", "element fitted"),
      text("procedure", "way it was changed"),
      text("reason", "why it was changed"),
      text("person", "who changed it"),
      number("drop_kPa", 0, 10_000, "pressure drop before the change, kPa"),
      text("note", "anything else")),
  /** An oil sample. */
  SAMPLE(
      "sample",
      "Oil samples",
      "oil_sample",
      text("sample_no", Need.KEY, "the laboratory's number"),
      text("point", "where it was drawn"),
      number("oil_h", 0, 200_000, "hours on the oil, h"),
      number("count4_per_mL", 0, 1e9, "particles of at least 4 µm(c), 1/mL"),
      number("count6_per_mL", 0, 1e9, "particles of at least 6 µm(c), 1/mL"),
      number("count14_per_mL", 0, 1e9, "particles of at least 14 µm(c), 1/mL"),
      number("count21_per_mL", 0, 1e9, "particles of at least 21 µm(c), 1/mL"),
      number("count38_per_mL", 0, 1e9, "particles of at least 38 µm(c), 1/mL"),
      number("count70_per_mL", 0, 1e9, "particles of at least 70 µm(c), 1/mL"),
      text("code", "cleanliness code as reported (ISO 4406)"),
      number("water_ppm", 0, 1e6, "water, mg/kg"),
      number("viscosity40_mm2_per_s", 0.1, 10_000, "viscosity at 40 °C, mm²/s"),
      number("iron_ppm", 0, 1e6, "iron, mg/kg"),
      number("silicon_ppm", 0, 1e6, "silicon, mg/kg"),
      text("note", "anything else")),
  /** A pressure drop read off a filter. */
  DROP(
      "drop",
      "Pressure drops",
      "drop_reading",
      number("drop_kPa", 0, 10_000, "pressure drop over the return filter, kPa").required(),
      number("oil_degC", -60, 200, "oil temperature, °C"),
      number("flow_L_per_min", 0, 10_000, "flow, L/min"),
      text("indicator", "what the indicator showed")),
  /** A component that was replaced. */
  REPLACEMENT(
      "replacement",
      "Component replacements",
      "component_replacement",
      text("component", Need.REQUIRED_KEY, "component, as in the fleet file"),
      text("cause", "why: failed, planned, other"),
      text("part_no", "part fitted"),
      text("note", "anything else")),
  /** A fault that the machine reported. */
  FAULT(
      "fault",
      "Faults reported",
      "fault_report",
      text("fault_code", Need.REQUIRED_KEY, "code of the fault"),
      text("severity", "severity as reported"),
      text("origin", "what reported it"),
      text("description", "what it says"));

  /** Name of the field for what the hour meter showed, h; every kind has it. */
  public static final RecordField METER_H =
      number("meter_h", 0, 500_000, "what the hour meter showed, h");

  private final String word;
  private final String title;
  private final String table;
  private final List<RecordField> fields;

  RecordKind(String word, String title, String table, RecordField... fields) {
    this.word = word;
    this.title = title;
    this.table = table;
    this.fields = List.of(fields);
  }

  /** Returns the kind of a word. */
  public static Optional<RecordKind> of(String word) {
    return Arrays.stream(values()).filter(k -> k.word.equals(word)).findFirst();
  }

  /** Returns the words of all kinds. */
  public static List<String> words() {
    return Arrays.stream(values()).map(RecordKind::word).toList();
  }

  /** Returns its word, as in options. */
  public String word() {
    return word;
  }

  /** Returns its title for people. */
  public String title() {
    return title;
  }

  /** Returns the name of its table in a database. */
  public String table() {
    return table;
  }

  /** Returns its own fields in order. */
  public List<RecordField> fields() {
    return fields;
  }

  /** Returns the field that tells records of one machine and instant apart, if it has one. */
  public Optional<RecordField> key() {
    return fields.stream().filter(RecordField::isKey).findFirst();
  }

  /** Returns the field with a name, {@link #METER_H} included. */
  public Optional<RecordField> field(String name) {
    return name.equals(METER_H.name())
        ? Optional.of(METER_H)
        : fields.stream().filter(f -> f.name().equals(name)).findFirst();
  }
}
