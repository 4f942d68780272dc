package siltwright.card;

import java.util.Arrays;
import java.util.List;

/** What is written down at a change: a place on the card, and a column when the card comes back. */
public enum RecordField {
  /** Hour meter. */
  METER("meter_h", Kind.NUMBER, 0, 1e6, true, "hour meter at the change, h"),
  /** Pressure drop before the change. */
  DROP_BEFORE(
      "dropBefore_kPa", Kind.NUMBER, 0, 5000, false, "pressure drop over the filter before, kPa"),
  /** Oil temperature at that reading. */
  OIL("oil_degC", Kind.NUMBER, -50, 200, false, "oil temperature at that reading, °C"),
  /** Gauge at zero before anything was opened. */
  TANK_AT_ZERO("tankAtZero", Kind.YES_NO, 0, 0, true, "tank at zero before it was opened"),
  /** Canister shut or ports capped before the element was lifted. */
  PORTS_SHUT("portsShut", Kind.YES_NO, 0, 0, true, "canister shut or ports capped before lifting"),
  /** State of the old element. */
  ELEMENT_STATE(
      "elementState",
      Kind.STATE,
      0,
      0,
      true,
      "old element: whole, torn, collapsed, loose or missing"),
  /** Element that was fitted. */
  ELEMENT("elementFitted", Kind.WORD, 0, 0, true, "element that was fitted, by its id"),
  /** New seals. */
  SEALS("sealsNew", Kind.YES_NO, 0, 0, true, "new seals fitted"),
  /** Canister open again, or caps out. */
  PORTS_OPEN(
      "portsOpen", Kind.YES_NO, 0, 0, true, "canister turned open or caps out before closing"),
  /** Oil spilled. */
  SPILLED("spilled_L", Kind.NUMBER, 0, 10_000, false, "oil spilled, L"),
  /** Leak after the restart. */
  LEAK("leak", Kind.YES_NO, 0, 0, true, "leak seen after the restart"),
  /** Pressure drop after the change. */
  DROP_AFTER(
      "dropAfter_kPa", Kind.NUMBER, 0, 5000, false, "pressure drop over the filter after, kPa"),
  /** Minutes of the first restart sample. */
  SAMPLE_1("sample1_min", Kind.NUMBER, 0, 100_000, false, "first sample, minutes after restart"),
  /** Minutes of the second restart sample. */
  SAMPLE_2("sample2_min", Kind.NUMBER, 0, 100_000, false, "second sample, minutes after restart"),
  /** Minutes of the third restart sample. */
  SAMPLE_3("sample3_min", Kind.NUMBER, 0, 100_000, false, "third sample, minutes after restart");

  /** Conditions that an old element can be found in. */
  public static final List<String> STATES =
      List.of("whole", "torn", "collapsed", "loose", "missing");

  /** What is written into a field. */
  public enum Kind {
    /** A number. */
    NUMBER,
    /** {@code yes} or {@code no}. */
    YES_NO,
    /** One of {@link RecordField#STATES}. */
    STATE,
    /** Words. */
    WORD
  }

  private final String column;
  private final Kind kind;
  private final double low;
  private final double high;
  private final boolean required;
  private final String meaning;

  RecordField(String column, Kind kind, double low, double high, boolean required, String meaning) {
    this.column = column;
    this.kind = kind;
    this.low = low;
    this.high = high;
    this.required = required;
    this.meaning = meaning;
  }

  /** Returns its name in templates and in tables. */
  public String column() {
    return column;
  }

  /** Returns what is written into it. */
  public Kind kind() {
    return kind;
  }

  /** Returns the lowest number. */
  public double low() {
    return low;
  }

  /** Returns the highest number. */
  public double high() {
    return high;
  }

  /** Returns whether a card without it is incomplete. */
  public boolean required() {
    return required;
  }

  /** Returns the unit of its numbers, empty for words. */
  public String unit() {
    String unit = kind == Kind.NUMBER ? column.substring(column.indexOf('_') + 1) : "";
    return unit.equals("degC") ? "°C" : unit;
  }

  /** Returns what it means, with its unit. */
  public String meaning() {
    return meaning;
  }

  /** Returns all columns, in order. */
  public static List<String> columns() {
    return Arrays.stream(values()).map(RecordField::column).toList();
  }

  /**
   * Returns the field with a column.
   *
   * @throws IllegalArgumentException if there is none
   */
  public static RecordField of(String column) {
    return Arrays.stream(values())
        .filter(f -> f.column.equals(column))
        .findFirst()
        .orElseThrow(() -> new IllegalArgumentException(column));
  }
}
