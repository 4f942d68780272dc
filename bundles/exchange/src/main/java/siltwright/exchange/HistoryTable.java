package siltwright.exchange;

import java.time.Instant;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.Comparator;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Set;
import java.util.TreeSet;
import java.util.function.Consumer;
import java.util.stream.Collectors;
import siltwright.analysis.RecordColumn;
import siltwright.analysis.Records;
import siltwright.analysis.Refusals;
import siltwright.model.InputException;
import siltwright.model.Problem;
import siltwright.model.history.FleetHistory;
import siltwright.model.history.KnownMachine;
import siltwright.model.history.Moment;

/**
 * The records of a history as a table that analyses take, with the columns that a file of the same
 * matter would have. Each row also has the machine's site, class and name, to make groups of.
 *
 * <p>Hours are those of the machine, across exchanged meters. What has none is left out, and the
 * table's notes say how much that is.
 */
public final class HistoryTable {
  /** What a row is. */
  private enum Rows {
    OIL("oil samples, element changes and pressure drops"),
    SAMPLES("oil samples alone"),
    LIVES("components from fitting to removal, or to the last hours known"),
    LIVES_FROM_NEW("the same, and those that were there first, taken to be as old as the machine"),
    REPLACEMENTS("components replaced, and the end of watching a machine"),
    FAULTS("faults reported, and the end of watching a machine"),
    CHANGES("elements changed, and the end of watching a machine");

    private final String meaning;

    Rows(String meaning) {
      this.meaning = meaning;
    }

    private String word() {
      return name().toLowerCase(Locale.ROOT).replace('_', '-');
    }
  }

  /** Hours are told to the thousandth, as meters are; the rest is rounding. */
  private static final double PER_THOUSANDTH = 1000;

  /** What was replaced, reported or changed. */
  private static final String WHAT = "what";

  private static final String[] COUNTS = {
    "count4_per_mL",
    "count6_per_mL",
    "count14_per_mL",
    "count21_per_mL",
    "count38_per_mL",
    "count70_per_mL"
  };

  private final String source;
  private final FleetHistory history;
  private final Rows rows;
  private final String only;
  private final Map<String, Filling> columns = new LinkedHashMap<>();
  private final List<String> notes = new ArrayList<>();
  private int count;
  private int withoutHours;
  private int firstLives;
  private int atBegin;
  private final Map<String, Set<String>> componentsOfClass = new HashMap<>();

  private HistoryTable(String source, FleetHistory history, Rows rows, String only) {
    this.source = source;
    this.history = history;
    this.rows = rows;
    this.only = only;
  }

  /** Returns the words that say what a row is, each with its meaning, in one clause. */
  public static String words() {
    return Arrays.stream(Rows.values())
        .map(r -> r.word() + " (" + r.meaning + ")")
        .collect(Collectors.joining(", "));
  }

  /**
   * Makes a table of a history.
   *
   * @param source name of the store in messages
   * @param history the history
   * @param rows what a row is, one of the {@link #words()}; after a slash, the only component, code
   *     of a fault or filter to take
   * @param wanted columns that the analysis takes
   * @return the table; lines count its rows from 1
   * @throws InputException if there is no such kind of row, none of it in the history, or no column
   *     that the analysis must have
   */
  public static Records read(
      String source, FleetHistory history, String rows, List<RecordColumn> wanted) {
    int slash = rows.indexOf('/');
    String word = slash < 0 ? rows : rows.substring(0, slash);
    Rows kind =
        Arrays.stream(Rows.values())
            .filter(r -> r.word().equals(word))
            .findFirst()
            .orElseThrow(() -> fault("option", "--rows", rows, "one of " + words()));
    String only = slash < 0 ? "" : rows.substring(slash + 1);
    if ((kind == Rows.OIL || kind == Rows.SAMPLES) && slash >= 0) {
      throw fault("option", "--rows", rows, word + " without a name: there is one oil");
    }
    HistoryTable table = new HistoryTable(source, history, kind, only);
    List<KnownMachine> machines = history.machines();
    if (kind == Rows.LIVES_FROM_NEW) {
      machines.forEach(table::learnComponents);
    }
    for (KnownMachine machine : machines) {
      table.add(machine);
    }
    return table.records(wanted);
  }

  private static InputException fault(String where, String field, String found, String expected) {
    return new InputException(new Problem(where, field, found, expected));
  }

  private void add(KnownMachine machine) {
    switch (rows) {
      case OIL, SAMPLES -> oil(machine);
      case LIVES, LIVES_FROM_NEW -> lives(machine);
      case REPLACEMENTS, FAULTS, CHANGES -> events(machine);
    }
  }

  /** What came to a machine: when, at which hours, and what. */
  private record Event(Moment moment, Map<String, Object> cells) {}

  private void oil(KnownMachine machine) {
    List<Event> events = new ArrayList<>();
    history.samples(
        machine.id(),
        s -> {
          Map<String, Object> cells = new HashMap<>();
          cells.put("event", "sample");
          for (int i = 0; i < COUNTS.length; i++) {
            cells.put(COUNTS[i], s.countsPerMl()[i]);
          }
          cells.put("code", s.code());
          cells.put("water_ppm", s.waterPpm());
          cells.put("iron_ppm", s.ironPpm());
          cells.put("silicon_ppm", s.siliconPpm());
          events.add(new Event(s.moment(), cells));
        });
    if (rows == Rows.OIL) {
      addChangesAndDrops(machine, events);
    }
    events.sort(Comparator.comparing(e -> e.moment().at()));
    for (Event e : events) {
      if (known(e.moment())) {
        row(machine, e.moment(), e.moment().hoursH(), e.cells());
      }
    }
  }

  private void addChangesAndDrops(KnownMachine machine, List<Event> events) {
    history.changes(
        machine.id(),
        c ->
            events.add(
                new Event(
                    c.moment(),
                    Map.of(
                        "event", "change",
                        "procedure", c.procedure(),
                        "crew", c.person(),
                        "deltaP_kPa", c.dropKPa()))));
    history.drops(
        machine.id(),
        d ->
            events.add(
                new Event(d.moment(), Map.of("event", "reading", "deltaP_kPa", d.dropKPa()))));
  }

  private boolean known(Moment moment) {
    boolean known = !Double.isNaN(moment.hoursH());
    withoutHours += known ? 0 : 1;
    return known;
  }

  /** First and last hours known of a machine. */
  private static final class Watch {
    private Moment first;
    private Moment last;

    void take(Moment m) {
      if (!Double.isNaN(m.hoursH())) {
        first = first == null || m.at().isBefore(first.at()) ? m : first;
        last = last == null || !m.at().isBefore(last.at()) ? m : last;
      }
    }
  }

  private Watch watch(KnownMachine machine) {
    Watch watch = new Watch();
    history.moments(machine.id(), watch::take);
    return watch;
  }

  private void events(KnownMachine machine) {
    Watch watch = watch(machine);
    if (watch.first == null) {
      return;
    }
    double entry = watch.first.hoursH();
    Consumer<Event> each =
        e -> {
          if (taken((String) e.cells().get(WHAT)) && known(e.moment())) {
            watched(machine, e.moment(), e.moment().hoursH(), entry, true, e.cells());
          }
        };
    if (rows == Rows.REPLACEMENTS) {
      history.replacements(
          machine.id(),
          r -> each.accept(new Event(r.moment(), Map.of(WHAT, r.component(), "cause", r.cause()))));
    } else if (rows == Rows.FAULTS) {
      history.faults(
          machine.id(),
          f ->
              each.accept(new Event(f.moment(), Map.of(WHAT, f.code(), "severity", f.severity()))));
    } else {
      history.changes(
          machine.id(),
          c ->
              each.accept(
                  new Event(
                      c.moment(),
                      Map.of(WHAT, c.filter(), "procedure", c.procedure(), "cause", c.reason()))));
    }
    watched(machine, watch.last, watch.last.hoursH(), entry, false, Map.of());
  }

  /** Components may be replaced on one machine only, and yet each of its class has them. */
  private void learnComponents(KnownMachine machine) {
    Set<String> components =
        componentsOfClass.computeIfAbsent(machine.machineClass(), c -> new TreeSet<>());
    history.replacements(machine.id(), r -> components.add(r.component()));
  }

  /** A component from each replacement to the next. */
  private void lives(KnownMachine machine) {
    Watch watch = watch(machine);
    if (watch.last == null) {
      return;
    }
    double entry = watch.first.hoursH();
    Map<String, Double> fitted = new LinkedHashMap<>();
    if (rows == Rows.LIVES_FROM_NEW) {
      for (String component : componentsOfClass.get(machine.machineClass())) {
        if (taken(component)) {
          fitted.put(component, 0.0);
          firstLives++;
        }
      }
    }
    history.replacements(
        machine.id(),
        r -> {
          if (!taken(r.component()) || !known(r.moment())) {
            return;
          }
          Double since = fitted.put(r.component(), r.moment().hoursH());
          if (since == null) {
            firstLives++;
          } else {
            life(machine, r.component(), since, entry, r.moment(), r.cause().equals("failed"));
          }
        });
    fitted.forEach((component, since) -> life(machine, component, since, entry, watch.last, false));
  }

  private boolean taken(String what) {
    return only.isEmpty() || only.equals(what);
  }

  private void life(
      KnownMachine machine,
      String component,
      double since,
      double entry,
      Moment end,
      boolean failed) {
    watched(
        machine,
        end,
        end.hoursH() - since,
        Math.max(0, entry - since),
        failed,
        Map.of("component", component));
  }

  /** A row that ends a time of watching; without any such time it says nothing. */
  private void watched(
      KnownMachine machine,
      Moment end,
      double hours,
      double entry,
      boolean event,
      Map<String, Object> cells) {
    if (hours <= entry) {
      atBegin += event ? 1 : 0;
      return;
    }
    Map<String, Object> all = new HashMap<>(cells);
    all.put("event", event ? "1" : "0");
    all.put("entry_hours", entry);
    row(machine, end, hours, all);
  }

  private void row(KnownMachine machine, Moment moment, double hours, Map<String, Object> cells) {
    put("machine", machine.id());
    put("hours", Math.round(hours * PER_THOUSANDTH) / PER_THOUSANDTH);
    put("date", date(machine, moment.at()));
    cells.forEach(this::put);
    put("site", machine.site());
    put("class", machine.machineClass());
    put("name", machine.name());
    count++;
  }

  private static String date(KnownMachine machine, Instant at) {
    return at.atZone(machine.zone()).toLocalDate().toString();
  }

  private void put(String name, Object cell) {
    Filling column =
        columns.computeIfAbsent(
            name, n -> cell instanceof Double ? new FillingNumbers() : new FillingWords());
    column.put(count, cell);
  }

  private Records records(List<RecordColumn> wanted) {
    if (count == 0) {
      String what = only.isEmpty() ? rows.meaning : rows.word() + " of " + only;
      throw fault(source, "", "nothing", what + ", with hours of the machine");
    }
    for (RecordColumn column : wanted) {
      if (column.required() && !columns.containsKey(column.name())) {
        throw fault(
            "option",
            "--rows",
            rows.word() + ", which have no " + column.name(),
            "rows with "
                + column.meaning()
                + "; these have "
                + String.join(", ", columns.keySet()));
      }
    }
    if (withoutHours > 0) {
      notes.add("Left out for want of hours of the machine: " + withoutHours + ".");
    }
    if (atBegin > 0) {
      notes.add("Left out, since nothing is known of the machine before: " + atBegin + ".");
    }
    if (firstLives > 0) {
      notes.add(
          rows == Rows.LIVES
              ? "Left out, since nobody knows their age: "
                  + firstLives
                  + " of the components, which were there when the records begin. --rows"
                  + " lives-from-new takes them to be as old as the machine."
              : "Taken to be as old as their machine: "
                  + firstLives
                  + " of the components, which were there when the records begin. Each machine is"
                  + " taken to have every component that was ever replaced on one of its class.");
    }
    int[] lines = new int[count];
    Arrays.setAll(lines, i -> i + 1);
    List<Records.Column> filled = new ArrayList<>();
    for (RecordColumn column : wanted) {
      Filling filling = columns.get(column.name());
      if (filling != null) {
        filled.add(filling.filled(column.name(), count));
      }
    }
    return new Records(source, lines, filled, new Refusals(source), notes);
  }

  /** A column that grows. */
  private interface Filling {
    void put(int row, Object cell);

    Records.Column filled(String name, int rows);
  }

  private static final class FillingNumbers implements Filling {
    private double[] values = {};

    @Override
    public void put(int row, Object cell) {
      grow(row + 1);
      values[row] = (Double) cell;
    }

    private void grow(int rows) {
      int before = values.length;
      if (rows > before) {
        values = Arrays.copyOf(values, Math.max(rows, 2 * before));
        Arrays.fill(values, before, values.length, Double.NaN);
      }
    }

    @Override
    public Records.Column filled(String name, int rows) {
      grow(rows);
      return new Records.Numbers(name, Arrays.copyOf(values, rows));
    }
  }

  private static final class FillingWords implements Filling {
    private final Map<String, Integer> words = new LinkedHashMap<>();
    private int[] codes = {};

    @Override
    public void put(int row, Object cell) {
      grow(row + 1);
      String word = (String) cell;
      codes[row] = word.isEmpty() ? -1 : words.computeIfAbsent(word, w -> words.size());
    }

    private void grow(int rows) {
      int before = codes.length;
      if (rows > before) {
        codes = Arrays.copyOf(codes, Math.max(rows, 2 * before));
        Arrays.fill(codes, before, codes.length, -1);
      }
    }

    @Override
    public Records.Column filled(String name, int rows) {
      grow(rows);
      return new Records.Words(name, List.copyOf(words.keySet()), Arrays.copyOf(codes, rows));
    }
  }
}
