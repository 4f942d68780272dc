package siltwright.transfer;

import java.time.ZoneId;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.function.Function;
import siltwright.model.history.RecordField;
import siltwright.model.history.RecordKind;

/** Makes records of the rows of a table, as its mapping says. One thread at a time. */
final class RowReading {
  private static final int LONGEST_TEXT = 4000;
  private static final Set<String> NOTHING =
      Set.of(
          "-", "--", "—", "–", "n/a", "N/A", "na", "NA", "nil", "none", "#N/A", "k.A.", ".", "?",
          "null", "NULL");

  private final RecordKind kind;
  private final Mapping mapping;
  private final String machine;
  private final int[] places;
  private final int machineAt;
  private final int dateAt;
  private final int timeAt;
  private final int meterAt;
  private final int[] valuesAt;
  private final RecordField[] fields;
  private final Units.Unit[] units;
  private final NumberText numbers;
  private final Dates dates;
  private final ZoneId zone;
  private final Function<String, ZoneId> zones;
  private final Map<String, String> words = new HashMap<>();
  private long limits;
  private Fault fault;

  /**
   * A record.
   *
   * @param row row that it is of
   * @param machine what stands for its machine
   * @param atMs instant, ms since 1970 in UTC
   * @param wholeDay whether only the day is known
   * @param meterH what the meter showed, h; not a number if it was not read
   * @param values values of the fields
   */
  record Read(
      Row row, String machine, long atMs, boolean wholeDay, double meterH, Object[] values) {}

  /** What is wrong with a row. */
  record Fault(String column, String found, String expected) {}

  /**
   * Makes a reading.
   *
   * @param detection what the table looks like
   * @param machine machine of all rows; empty if a column says it
   * @param zones zones of the machines by what stands for them in the table
   */
  RowReading(Detection detection, String machine, Function<String, ZoneId> zones) {
    mapping = detection.mapping();
    kind = RecordKind.of(mapping.kind()).orElseThrow();
    this.machine = machine;
    this.zones = zones;
    places = detection.places();
    numbers = new NumberText(mapping.decimal().charAt(0));
    dates = new Dates(mapping.dates());
    zone = mapping.zone().isEmpty() ? null : ZoneId.of(mapping.zone());
    List<Mapping.Column> columns = mapping.columns();
    machineAt = place(columns, Headings.MACHINE);
    dateAt = place(columns, Headings.DATE);
    timeAt = place(columns, Headings.TIME);
    meterAt = place(columns, RecordKind.METER_H.name());
    List<RecordField> used = new ArrayList<>();
    List<Integer> at = new ArrayList<>();
    for (int i = 0; i < columns.size(); i++) {
      int column = places[i];
      kind.field(columns.get(i).field())
          .filter(f -> f != RecordKind.METER_H)
          .ifPresent(
              f -> {
                used.add(f);
                at.add(column);
              });
    }
    fields = used.toArray(RecordField[]::new);
    valuesAt = at.stream().mapToInt(Integer::intValue).toArray();
    units = new Units.Unit[fields.length + 1];
    for (int i = 0; i < fields.length; i++) {
      units[i] = unit(columns, fields[i]);
    }
    units[fields.length] = unit(columns, RecordKind.METER_H);
  }

  private int place(List<Mapping.Column> columns, String field) {
    for (int i = 0; i < columns.size(); i++) {
      if (columns.get(i).field().equals(field)) {
        return places[i];
      }
    }
    return -1;
  }

  private static Units.Unit unit(List<Mapping.Column> columns, RecordField field) {
    return columns.stream()
        .filter(c -> c.field().equals(field.name()) && !c.unit().isEmpty())
        .findFirst()
        .flatMap(c -> Units.find(field, c.unit()))
        .orElse(Units.own(field));
  }

  /** Returns the fields that records have, in the order of their values. */
  List<RecordField> fields() {
    return List.of(fields);
  }

  RecordKind kind() {
    return kind;
  }

  /** Returns how many numbers were given as below a limit, and taken as that. */
  long limits() {
    return limits;
  }

  /** Returns what is wrong with the last row that {@link #read} returned nothing for. */
  Fault fault() {
    return fault;
  }

  /** Returns the record of a row, or null if something is wrong with it. */
  Read read(Row row) {
    fault = null;
    String of = machineAt < 0 ? machine : text(row, machineAt, "machine");
    if (of == null) {
      return fault == null ? wrong("machine", "nothing", "what stands for a machine") : null;
    }
    ZoneId local = zone != null ? zone : zones.apply(of);
    Object date = dateAt < row.cells().length ? row.cells()[dateAt] : null;
    if (timeAt >= 0 && date instanceof String d && !row.text(timeAt).isBlank()) {
      date = d.strip() + " " + row.text(timeAt).strip();
    }
    Dates.When when = dates.read(date, local);
    if (when == null) {
      return wrong(
          "date",
          date == null ? "nothing" : date.toString(),
          Dates.expected() + ", " + mapping.dates().word() + " where it is written with numbers");
    }
    double meterH = Double.NaN;
    if (meterAt >= 0) {
      Double m = number(row, meterAt, RecordKind.METER_H, units[fields.length]);
      if (fault != null) {
        return null;
      }
      meterH = m == null ? Double.NaN : m;
    }
    if (kind == RecordKind.METER && Double.isNaN(meterH)) {
      return wrong("meter_h", "nothing", "what the hour meter showed");
    }
    Object[] values = new Object[fields.length];
    boolean any = meterAt >= 0 || fields.length == 0;
    for (int i = 0; i < fields.length; i++) {
      RecordField f = fields[i];
      values[i] =
          f.type() == RecordField.Type.NUMBER
              ? number(row, valuesAt[i], f, units[i])
              : text(row, valuesAt[i], f.name());
      if (fault != null) {
        return null;
      }
      if (values[i] == null && f.isRequired()) {
        return wrong(f.name(), "nothing", f.meaning());
      }
      any |= values[i] != null;
    }
    if (!any) {
      return wrong("", "nothing but machine and date", "something that was recorded");
    }
    return new Read(row, of, when.atMs(), when.wholeDay(), meterH, values);
  }

  private Read wrong(String column, String found, String expected) {
    fault = new Fault(column, found, expected);
    return null;
  }

  private String text(Row row, int place, String column) {
    String text = row.text(place);
    if (text.isEmpty()) {
      return null;
    }
    String known = words.get(text);
    if (known != null) {
      return known;
    }
    String stripped = text.strip();
    if (stripped.isEmpty() || NOTHING.contains(stripped)) {
      return null;
    }
    fault = fault(column, stripped);
    if (fault != null) {
      return null;
    }
    // what export puts before a text that a spreadsheet would compute
    if (stripped.length() > 1
        && stripped.charAt(0) == '\''
        && "=+-@".indexOf(stripped.charAt(1)) >= 0) {
      stripped = stripped.substring(1);
    }
    if (words.size() < 10_000) {
      words.put(text, stripped);
    }
    return stripped;
  }

  /** Returns what is wrong with a text that is to be kept; null if nothing is. */
  static Fault fault(String column, String text) {
    if (text.length() > LONGEST_TEXT) {
      return new Fault(column, text.length() + " characters", "at most " + LONGEST_TEXT);
    }
    for (int i = 0; i < text.length(); i++) {
      char c = text.charAt(i);
      if (c < ' ' && c != '\n' && c != '\r' && c != '\t' || c == 0x7F) {
        return new Fault(column, "the control character " + (int) c, "characters that can be read");
      }
      if (c >= '\uFFFE') {
        // no character, and none that XML can hold
        String code = Integer.toHexString(c);
        return new Fault(column, "the noncharacter " + code, "characters that can be read");
      }
    }
    return null;
  }

  private Double number(Row row, int place, RecordField field, Units.Unit unit) {
    Object cell = place < row.cells().length ? row.cells()[place] : null;
    double value;
    if (cell == null) {
      return null;
    } else if (cell instanceof Double d) {
      value = d;
    } else {
      String text = cell.toString().strip();
      if (text.isEmpty() || NOTHING.contains(text)) {
        return null;
      }
      if (text.charAt(0) == '<' && text.length() > 1) {
        text = text.substring(1).strip();
        limits++;
      }
      value = numbers.read(text);
      if (Double.isNaN(value)) {
        String kind = mapping.decimal().equals(",") ? "comma" : "point";
        fault = new Fault(field.name(), cell.toString(), "a number with a decimal " + kind);
        return null;
      }
    }
    value = unit.convert(value);
    if (!(value >= field.low() && value <= field.high())) {
      fault =
          new Fault(
              field.name(),
              cell + (unit.name().isEmpty() ? "" : " " + unit.name()),
              "from " + field.low() + " to " + field.high() + " " + Units.own(field).name());
      return null;
    }
    return value;
  }
}
