package siltwright.samples;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import siltwright.analysis.RecordColumn;
import siltwright.analysis.Records;
import siltwright.analysis.Refusals;
import siltwright.cleanliness.ReportedCode;
import siltwright.model.InputException;
import siltwright.model.Problem;
import siltwright.model.SizeBands;

/**
 * The oil records of machines out of a table, row by row checked, in the order of machine and
 * hours.
 *
 * @param kept the sound rows, with all refusals
 * @param rows the rows as records, in the table's order
 */
public record OilRecords(Records kept, List<OilRecord> rows) {
  private static final List<String> WORDS =
      List.of("date", "procedure", "crew", "depot", "state", "laboratory");
  private static final List<String> METALS =
      List.of(
          "water_ppm", "iron_ppm", "copper_ppm", "silicon_ppm", "aluminium_ppm", "chromium_ppm");
  private static final int[] SIZES = {4, 6, 14, 21, 38, 70};

  /** Where a record may stand. */
  public OilRecords {
    rows = List.copyOf(rows);
  }

  /** Returns the column of the count at a size, by its place. */
  public static String countColumn(int i) {
    return "count" + SIZES[i] + "_per_mL";
  }

  /** Returns the columns that oil records have; only machine and hours are required. */
  public static List<RecordColumn> columns() {
    List<RecordColumn> columns =
        new ArrayList<>(
            List.of(
                RecordColumn.word("machine", true, "id of the machine"),
                RecordColumn.number("hours", 0, 1e7, true, "hour meter, h"),
                RecordColumn.word(
                    "event", false, "sample, change, reading or indicator; sample if empty"),
                RecordColumn.number(
                    "minutes_after_restart",
                    0,
                    1e5,
                    false,
                    "minutes of running since a change, for a restart sample"),
                RecordColumn.word("code", false, "code of ISO 4406 as the laboratory gave it"),
                RecordColumn.number("volume_mL", 1e-3, 1e5, false, "volume counted, mL"),
                RecordColumn.number("deltaP_kPa", 0, 1e4, false, "drop over the filter, kPa")));
    for (int i = 0; i < SIZES.length; i++) {
      columns.add(
          RecordColumn.number(
              countColumn(i),
              0,
              1e9,
              false,
              "particles per mL at or above " + SIZES[i] + " µm(c)"));
    }
    WORDS.forEach(w -> columns.add(RecordColumn.word(w, false, w)));
    METALS.forEach(m -> columns.add(RecordColumn.number(m, 0, 1e6, false, m)));
    return columns;
  }

  /** Returns the names of the further numbers that records may carry. */
  public static List<String> measures() {
    return METALS;
  }

  /**
   * Reads a table.
   *
   * @throws InputException if no row is sound
   */
  public static OilRecords of(Records table) {
    Refusals refusals = table.refusals();
    List<OilRecord> rows = new ArrayList<>();
    for (int i = 0; i < table.rows(); i++) {
      read(table, i, refusals).ifPresent(rows::add);
    }
    Records kept = table.where(i -> !refusals.refused(table.line(i)), refusals);
    if (rows.isEmpty()) {
      List<Problem> problems = new ArrayList<>(refusals.listed());
      problems.add(new Problem(table.source(), "", "no sound row", "at least one"));
      throw new InputException(problems);
    }
    return new OilRecords(kept, rows);
  }

  private static Optional<OilRecord> read(Records table, int i, Refusals refusals) {
    int line = table.line(i);
    String machine = text(table, "machine", i);
    double hours = number(table, "hours", i);
    if (machine.isEmpty()) {
      refusals.refuse(line, "machine", "", "the id of a machine");
      return Optional.empty();
    }
    if (Double.isNaN(hours)) {
      refusals.refuse(line, "hours", "", "a number");
      return Optional.empty();
    }
    String event = text(table, "event", i).toLowerCase(Locale.ROOT);
    OilRecord.Kind kind;
    switch (event) {
      case "", "sample" -> kind = OilRecord.Kind.SAMPLE;
      case "change" -> kind = OilRecord.Kind.CHANGE;
      case "reading" -> kind = OilRecord.Kind.READING;
      case "indicator" -> kind = OilRecord.Kind.INDICATOR;
      default -> {
        refusals.refuse(line, "event", event, "sample, change, reading or indicator");
        return Optional.empty();
      }
    }
    double[] perMl = new double[SizeBands.COUNT];
    for (int k = 0; k < perMl.length; k++) {
      perMl[k] = number(table, countColumn(k), i);
    }
    Optional<ReportedCode> code = Optional.empty();
    String given = text(table, "code", i);
    if (!given.isEmpty()) {
      try {
        code = Optional.of(ReportedCode.parse(given));
      } catch (IllegalArgumentException e) {
        refusals.refuse(line, "code", given, e.getMessage());
        return Optional.empty();
      }
    }
    Map<String, String> words = new LinkedHashMap<>();
    for (String w : WORDS) {
      String word = text(table, w, i);
      if (!word.isEmpty()) {
        words.put(w, word);
      }
    }
    Map<String, Double> numbers = new LinkedHashMap<>();
    for (String m : METALS) {
      double v = number(table, m, i);
      if (!Double.isNaN(v)) {
        numbers.put(m, v);
      }
    }
    OilRecord record =
        new OilRecord(
            line,
            machine,
            hours,
            kind,
            number(table, "minutes_after_restart", i),
            perMl,
            code,
            number(table, "volume_mL", i),
            number(table, "deltaP_kPa", i),
            words,
            numbers);
    if (kind == OilRecord.Kind.SAMPLE && !record.counted() && code.isEmpty() && numbers.isEmpty()) {
      refusals.refuse(line, "", "a sample without counts or code", "one of them");
      return Optional.empty();
    }
    if (kind == OilRecord.Kind.READING && Double.isNaN(record.dropKPa())) {
      refusals.refuse(line, "deltaP_kPa", "", "a number, since event says reading");
      return Optional.empty();
    }
    return Optional.of(record);
  }

  private static String text(Records table, String column, int row) {
    return table.find(column).map(c -> c.text(row)).orElse("").strip();
  }

  private static double number(Records table, String column, int row) {
    return table.numbers(column).map(v -> v[row]).orElse(Double.NaN);
  }

  /** Returns the machines in the table's order. */
  public Set<String> machines() {
    Set<String> ids = new LinkedHashSet<>();
    rows.forEach(r -> ids.add(r.machine()));
    return ids;
  }

  /** Returns the rows of a machine, earliest first; rows of one hour in the table's order. */
  public List<OilRecord> of(String machine) {
    return rows.stream()
        .filter(r -> r.machine().equals(machine))
        .sorted((a, b) -> Double.compare(a.hours(), b.hours()))
        .toList();
  }
}
