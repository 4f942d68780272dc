package siltwright.transfer;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.HashMap;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import siltwright.model.InputException;
import siltwright.model.Problem;
import siltwright.model.history.RecordField;
import siltwright.model.history.RecordKind;

/**
 * What a table looks like: where its heading is, what its columns are, how its numbers and dates
 * are written.
 *
 * @param mapping what becomes of it
 * @param headRow line of the headings
 * @param dataFrom line after which the records begin
 * @param headings all headings
 * @param places column of each used column of the mapping
 * @param notes what was taken for granted, a sentence each
 * @param questions what the table leaves open and the user must say
 */
record Detection(
    Mapping mapping,
    long headRow,
    long dataFrom,
    List<String> headings,
    int[] places,
    List<String> notes,
    List<Problem> questions) {
  /** Rows looked at. */
  static final int LOOK = 2000;

  private static final int HEAD_LOOK = 40;
  private static final Pattern WISH =
      Pattern.compile("(.+)=([A-Za-z0-9_]+)(?:\\s*\\[([^\\]]+)\\])?");

  /**
   * Looks at the first rows of a table.
   *
   * @param source name of the file in messages
   * @param rows first rows, as many as {@link #LOOK}
   * @param wishes what the user says
   * @param kept the columns that are used, and no others; null where the headings say it
   * @param encoding encoding that it was read in, and
   * @param delimiter what parted its cells; both empty for a spreadsheet
   * @throws InputException if no records can be made of it
   */
  static Detection of(
      String source,
      List<Row> rows,
      Wishes wishes,
      List<Mapping.Column> kept,
      String encoding,
      String delimiter) {
    return new Looking(source, rows, wishes, kept, encoding, delimiter).look();
  }

  private static final class Looking {
    private final String source;
    private final List<Row> rows;
    private final Wishes wishes;
    private final List<Mapping.Column> kept;
    private final String encoding;
    private final String delimiter;
    private final List<String> notes = new ArrayList<>();
    private final List<Problem> questions = new ArrayList<>();

    Looking(
        String source,
        List<Row> rows,
        Wishes wishes,
        List<Mapping.Column> kept,
        String encoding,
        String delimiter) {
      this.source = source;
      this.rows = rows;
      this.wishes = wishes;
      this.kept = kept;
      this.encoding = encoding;
      this.delimiter = delimiter;
    }

    Detection look() {
      if (rows.isEmpty()) {
        throw refusal("", "nothing in it", "a table with headings");
      }
      int head = head();
      List<String> headings = new ArrayList<>();
      for (int c = 0; c < rows.get(head).cells().length; c++) {
        headings.add(rows.get(head).text(c).strip());
      }
      Row below = head + 1 < rows.size() ? rows.get(head + 1) : null;
      boolean units = below != null && isUnits(below);
      List<Row> records = rows.subList(Math.min(rows.size(), head + (units ? 2 : 1)), rows.size());
      if (head > 0) {
        notes.add(
            "The headings are in row " + rows.get(head).line() + "; what is above is left out.");
      }
      String kind = kind(headings);
      Map<Integer, Mapping.Column> used = columns(kind, headings, units ? below : null);
      checkComplete(kind, headings, used);
      checkEachOnce(used);
      List<String> unused = new ArrayList<>();
      for (int c = 0; c < headings.size(); c++) {
        if (!used.containsKey(c) && !headings.get(c).isEmpty()) {
          unused.add(headings.get(c));
        }
      }
      if (!unused.isEmpty()) {
        notes.add("Columns that are not used: " + String.join(", ", unused) + ".");
      }
      Mapping mapping =
          new Mapping(
              kind,
              wishes.sheet(),
              encoding,
              delimiter,
              decimal(kind, used, records),
              dates(used, records),
              zone(),
              wishes.match(),
              rule(),
              List.copyOf(used.values()));
      return new Detection(
          mapping,
          rows.get(head).line(),
          units ? below.line() : rows.get(head).line(),
          headings,
          used.keySet().stream().mapToInt(Integer::intValue).toArray(),
          notes,
          questions);
    }

    private InputException refusal(String place, String found, String expected) {
      return new InputException(new Problem(source, place, found, expected));
    }

    /** The row with the most headings that are known; the first of several. */
    private int head() {
      int best = 0;
      int most = 0;
      Set<String> wished = new HashSet<>();
      wishes.columns().forEach(w -> wished.add(wish(w).group(1).strip()));
      if (kept != null) {
        kept.forEach(c -> wished.add(c.heading()));
      }
      for (int r = 0; r < Math.min(HEAD_LOOK, rows.size()); r++) {
        int known = 0;
        for (int c = 0; c < rows.get(r).cells().length; c++) {
          String text = rows.get(r).text(c).strip();
          if (wished.contains(text) || Headings.isKnown(text)) {
            known++;
          }
        }
        if (known > most) {
          most = known;
          best = r;
        }
      }
      if (most < 2 && wishes.machine().isEmpty() || most == 0) {
        throw refusal(
            "row " + rows.get(0).line(),
            shortened(rows.get(0)),
            "headings such as machine, date and meter_h; --column HEADING=FIELD says what others"
                + " mean");
      }
      return best;
    }

    private static String shortened(Row row) {
      StringBuilder text = new StringBuilder();
      for (int c = 0; c < Math.min(6, row.cells().length); c++) {
        text.append(c == 0 ? "" : " | ").append(row.text(c));
      }
      return text.toString();
    }

    private static boolean isUnits(Row row) {
      int units = 0;
      for (int c = 0; c < row.cells().length; c++) {
        String text = row.text(c).strip().replaceAll("^[\\[(]|[\\])]$", "");
        if (!text.isEmpty() && !text.equals("-")) {
          if (!Units.isUnit(text)) {
            return false;
          }
          units++;
        }
      }
      return units > 0;
    }

    private Matcher wish(String text) {
      Matcher m = WISH.matcher(text);
      if (!m.matches()) {
        throw new InputException(
            new Problem("option", "--column", text, "HEADING=FIELD or HEADING=FIELD [UNIT]"));
      }
      return m;
    }

    /** The kind whose fields most of the headings are, if it has all that it must have. */
    private String kind(List<String> headings) {
      if (!wishes.kind().isEmpty()) {
        if (!wishes.kind().equals(Mapping.MACHINES) && RecordKind.of(wishes.kind()).isEmpty()) {
          throw new InputException(
              new Problem("option", "--kind", wishes.kind(), "one of " + kinds()));
        }
        return wishes.kind();
      }
      boolean dated = headings.stream().anyMatch(h -> Headings.means(h, Headings.DATE));
      Set<String> wished = new HashSet<>();
      wishes.columns().forEach(w -> wished.add(wish(w).group(2)));
      if (!dated && !wished.contains(Headings.DATE)) {
        return Mapping.MACHINES;
      }
      String best = RecordKind.METER.word();
      long most = 0;
      boolean tie = false;
      for (RecordKind kind : RecordKind.values()) {
        Set<RecordField> found = new HashSet<>();
        for (String h : headings) {
          Headings.field(kind, h).filter(f -> f != RecordKind.METER_H).ifPresent(found::add);
        }
        kind.fields().stream().filter(f -> wished.contains(f.name())).forEach(found::add);
        boolean whole = kind.fields().stream().allMatch(f -> !f.isRequired() || found.contains(f));
        // what every table has says little
        found.removeIf(f -> f.name().equals("note") || f.name().equals("source"));
        // a field that a kind must have says more than one that it may
        long score = found.size() + found.stream().filter(RecordField::isRequired).count();
        if (whole && score > most) {
          most = score;
          best = kind.word();
          tie = false;
        } else if (whole && most > 0 && score == most) {
          tie = true;
        }
      }
      if (tie) {
        notes.add("Taken as " + best + " records; --kind says if they are of another kind.");
      }
      return best;
    }

    private static String kinds() {
      return String.join(", ", RecordKind.words()) + ", " + Mapping.MACHINES;
    }

    private Map<Integer, Mapping.Column> columns(String kind, List<String> headings, Row units) {
      Map<Integer, Mapping.Column> used = new java.util.TreeMap<>();
      Set<String> taken = new HashSet<>();
      if (kept != null) {
        for (Mapping.Column c : kept) {
          int at = headings.indexOf(c.heading());
          if (at < 0) {
            throw refusal("", "no column " + c.heading(), "the columns of the kept mapping");
          }
          String unit = c.unit().isEmpty() ? null : c.unit();
          used.put(at, column(kind, c.heading(), c.field(), unit, null));
          taken.add(c.field());
        }
      }
      for (String w : wishes.columns()) {
        Matcher m = wish(w);
        int at = headings.indexOf(m.group(1).strip());
        if (at < 0) {
          throw new InputException(
              new Problem(
                  "option", "--column", m.group(1), "one of " + String.join(", ", headings)));
        }
        String field = m.group(2);
        if (kept != null) {
          used.values().removeIf(c -> c.field().equals(field)); // what is said now counts
        }
        used.put(at, column(kind, headings.get(at), field, m.group(3), null));
        taken.add(field);
      }
      if (kept != null) {
        return used;
      }
      // what a heading says best goes first: names of fields, then words
      for (int c = 0; c < headings.size(); c++) {
        if (!used.containsKey(c)) {
          String unit = units == null ? null : units.text(c).strip();
          Optional<String> field = field(kind, headings.get(c), taken);
          if (field.isPresent()) {
            taken.add(field.get());
            used.put(c, column(kind, headings.get(c), field.get(), null, unit));
          }
        }
      }
      return used;
    }

    private static Optional<String> field(String kind, String heading, Set<String> taken) {
      List<String> names = new ArrayList<>();
      Optional<RecordKind> of = RecordKind.of(kind);
      // of two columns that may be the machine, the first is taken; a serial number comes second
      names.add(Headings.MACHINE);
      if (of.isPresent()) {
        names.add(Headings.DATE);
        of.get().fields().forEach(f -> names.add(f.name()));
        names.add(RecordKind.METER_H.name());
        names.add(Headings.TIME);
      } else {
        names.addAll(List.of("serial", "name", "class", "site_name", "site", "zone"));
        if (Headings.means(heading, "serial")) {
          return taken.contains("serial") ? Optional.empty() : Optional.of("serial");
        }
      }
      for (String name : names) {
        if (!taken.contains(name) && heading.strip().equalsIgnoreCase(name)) {
          return Optional.of(name);
        }
      }
      return names.stream()
          .filter(n -> !taken.contains(n) && Headings.means(heading, n))
          .findFirst();
    }

    private Mapping.Column column(
        String kind, String heading, String field, String wished, String below) {
      Optional<RecordField> f = RecordKind.of(kind).flatMap(k -> k.field(field));
      List<String> fields = Mapping.fields(kind);
      if (!fields.contains(field)) {
        throw new InputException(
            new Problem("option", "--column", field, "one of " + String.join(", ", fields)));
      }
      if (f.isEmpty() || f.get().type() == RecordField.Type.TEXT) {
        return new Mapping.Column(heading, field, "");
      }
      String stated = wished;
      if (stated == null && below != null && !below.isEmpty()) {
        stated = below.replaceAll("^[\\[(]|[\\])]$", "");
      }
      if (stated == null) {
        stated = Headings.parts(heading).unit();
      }
      Units.Unit own = Units.own(f.get());
      if (stated.isEmpty()) {
        if (!own.name().isEmpty() && !heading.equalsIgnoreCase(field)) {
          notes.add(
              "Column "
                  + heading
                  + " states no unit: taken as "
                  + own.name()
                  + ". --column \""
                  + heading
                  + "="
                  + field
                  + " [UNIT]\" says if it is another.");
        }
        return new Mapping.Column(heading, field, own.name());
      }
      String unit = stated;
      return Units.find(f.get(), unit)
          .map(u -> new Mapping.Column(heading, field, u.name()))
          .orElseThrow(
              () ->
                  refusal(
                      "column " + heading,
                      "the unit " + unit,
                      Units.choices(f.get()) + "; --column HEADING=FIELD [UNIT] names another"));
    }

    private void checkComplete(
        String kind, List<String> headings, Map<Integer, Mapping.Column> used) {
      Set<String> fields = new HashSet<>();
      used.values().forEach(c -> fields.add(c.field()));
      List<String> missing = new ArrayList<>();
      if (!fields.contains(Headings.MACHINE) && wishes.machine().isEmpty()) {
        missing.add("machine");
      }
      RecordKind.of(kind)
          .ifPresent(
              k -> {
                if (!fields.contains(Headings.DATE)) {
                  missing.add("date");
                }
                if (k == RecordKind.METER && !fields.contains("meter_h")) {
                  missing.add("meter_h");
                }
                k.fields().stream()
                    .filter(f -> f.isRequired() && !fields.contains(f.name()))
                    .forEach(f -> missing.add(f.name()));
              });
      if (!missing.isEmpty()) {
        throw refusal(
            "",
            "no column for " + String.join(", ", missing) + " of " + kind + " records",
            "one among "
                + String.join(", ", headings)
                + "; --column HEADING=FIELD says which, --kind if they are other records");
      }
    }

    private void checkEachOnce(Map<Integer, Mapping.Column> used) {
      Map<String, String> headings = new HashMap<>();
      for (Mapping.Column c : used.values()) {
        String other = headings.put(c.field(), c.heading());
        if (other != null) {
          throw refusal(
              "", "columns " + other + " and " + c.heading() + " for " + c.field(), "one of them");
        }
      }
    }

    private String zone() {
      if (!wishes.zone().isEmpty() && !MappingReader.isZone(wishes.zone())) {
        throw new InputException(
            new Problem("option", "--zone", wishes.zone(), "a time zone such as Europe/Lisbon"));
      }
      return wishes.zone();
    }

    private String rule() {
      if (!wishes.rule().isEmpty()) {
        MachineFinder.rule(wishes.rule());
      }
      return wishes.rule();
    }

    private String decimal(String kind, Map<Integer, Mapping.Column> used, List<Row> records) {
      switch (wishes.decimal()) {
        case "comma":
          return ",";
        case "point":
          return ".";
        default:
      }
      int comma = 0;
      int point = 0;
      int either = 0;
      for (Map.Entry<Integer, Mapping.Column> e : used.entrySet()) {
        Optional<RecordField> f = RecordKind.of(kind).flatMap(k -> k.field(e.getValue().field()));
        if (f.isEmpty() || f.get().type() != RecordField.Type.NUMBER) {
          continue;
        }
        for (Row row : records) {
          if (e.getKey() < row.cells().length && row.cells()[e.getKey()] instanceof String s) {
            String text = s.strip();
            if (text.matches("[+-]?[\\d.'’ ]*,(\\d{1,2}|\\d{4,})")
                || text.matches(".*\\.\\d{3},\\d*")) {
              comma++;
            } else if (text.matches("[+-]?[\\d,'’ ]*\\.(\\d{1,2}|\\d{4,})")
                || text.matches(".*,\\d{3}\\.\\d*")) {
              point++;
            } else if (text.matches("[+-]?\\d{1,3},\\d{3}")) {
              either++;
            }
          }
        }
      }
      if (comma > 0 && point > 0) {
        String more = comma > point ? "comma" : "point";
        notes.add(
            "Numbers with a decimal comma ("
                + comma
                + ") and with a decimal point ("
                + point
                + "): taken as "
                + more
                + "; --decimal says otherwise.");
        return comma > point ? "," : ".";
      }
      if (comma + point == 0 && either > 0) {
        boolean taken = !delimiter.equals(",");
        notes.add(
            "Numbers such as 1,234 are taken as "
                + (taken ? "1.234" : "1234")
                + "; --decimal says otherwise.");
        return taken ? "," : ".";
      }
      return comma > 0 ? "," : ".";
    }

    private DateOrder dates(Map<Integer, Mapping.Column> used, List<Row> records) {
      if (!wishes.dates().isEmpty()) {
        return DateOrder.of(wishes.dates())
            .orElseThrow(
                () ->
                    new InputException(
                        new Problem("option", "--dates", wishes.dates(), "ymd, dmy or mdy")));
      }
      Map<DateOrder, Integer> read = new LinkedHashMap<>();
      int texts = 0;
      String example = "";
      for (Map.Entry<Integer, Mapping.Column> e : used.entrySet()) {
        if (!e.getValue().field().equals(Headings.DATE)) {
          continue;
        }
        for (Row row : records) {
          if (e.getKey() < row.cells().length
              && row.cells()[e.getKey()] instanceof String s
              && !s.isBlank()) {
            texts++;
            example = s.strip();
            for (DateOrder order : DateOrder.values()) {
              if (new Dates(order).read(s, java.time.ZoneOffset.UTC) != null) {
                read.merge(order, 1, Integer::sum);
              }
            }
          }
        }
      }
      int first = read.getOrDefault(DateOrder.YEAR_FIRST, 0);
      int day = read.getOrDefault(DateOrder.DAY_FIRST, 0);
      int month = read.getOrDefault(DateOrder.MONTH_FIRST, 0);
      if (texts == 0 || (first >= day && first >= month && first > 0)) {
        return DateOrder.YEAR_FIRST;
      }
      if (day == month && day > 0) {
        questions.add(
            new Problem(
                source,
                "dates",
                example + ", which can be read two ways",
                "--dates dmy (day first) or --dates mdy (month first)"));
      }
      return day >= month ? DateOrder.DAY_FIRST : DateOrder.MONTH_FIRST;
    }
  }

  @Override
  public String toString() {
    return mapping + " " + Arrays.toString(places);
  }
}
