package siltwright.fleet.internal;

import java.util.ArrayList;
import java.util.HashSet;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import siltwright.analysis.Numbers;
import siltwright.analysis.RecordColumn;
import siltwright.analysis.Records;
import siltwright.fleet.internal.Settings.Kind;
import siltwright.model.InputException;
import siltwright.model.Problem;

/** The columns of the tables that can be compared, and what tells their kinds apart. */
final class Columns {
  static final String MACHINE = "machine";
  static final String HOURS = "hours";
  static final String EVENT = "event";
  static final String ENTRY = "entry_hours";
  static final String COST = "cost";
  static final String DATE = "date";
  private static final String COMPONENT = "component";
  static final double LONGEST_H = 1e7;
  private static final List<String> OURS =
      List.of(HOURS, EVENT, ENTRY, COST, "lower_hours", "upper_hours", "count");

  private Columns() {}

  /** Refuses options that name a column of the record itself, or one column twice. */
  static void check(Settings s) {
    Set<String> seen = new HashSet<>();
    List<String[]> named = new ArrayList<>();
    named.add(new String[] {"--by", s.by()});
    s.adjust().forEach(a -> named.add(new String[] {"--adjust", a}));
    s.stratum().ifPresent(a -> named.add(new String[] {"--stratum", a}));
    s.interventionColumn().ifPresent(a -> named.add(new String[] {"--intervention", a}));
    s.clean().ifPresent(a -> named.add(new String[] {"--clean-column", a}));
    for (String[] n : named) {
      if (OURS.contains(n[1]) || n[1].equals(MACHINE) && !n[0].equals("--by")) {
        throw CompareAnalysis.fault(n[0], n[1], "a column beside those of the record itself");
      }
      if (!seen.add(n[1])) {
        throw CompareAnalysis.fault(n[0], n[1], "each column for one purpose");
      }
    }
    if (s.selections().isPresent()
        && named.stream().noneMatch(n -> n[1].equals(Selections.COLUMN))) {
      throw CompareAnalysis.fault(
          "--selections", s.selections().get(), "--by " + Selections.COLUMN + " with it");
    }
    if (s.target().isPresent() != s.clean().isPresent()) {
      throw CompareAnalysis.fault(
          s.target().isPresent() ? "--target" : "--clean-column",
          s.target().map(Object::toString).or(s::clean).orElseThrow(),
          "--target and --clean-column together");
    }
    if (s.kind().filter(k -> k == Kind.SAMPLES).isPresent() && s.target().isEmpty()) {
      throw CompareAnalysis.fault("--records", "samples", "--target and --clean-column with it");
    }
  }

  static List<RecordColumn> of(Settings s) {
    List<RecordColumn> columns = new ArrayList<>();
    columns.add(RecordColumn.word(MACHINE, s.target().isPresent(), "name of the machine"));
    columns.add(
        RecordColumn.number(
            HOURS, 0, LONGEST_H, false, "hour meter at the event or at the end of watching, h"));
    columns.add(
        RecordColumn.word(EVENT, false, "1 at an event or a failure, 0 at the end of watching"));
    columns.add(
        RecordColumn.number(
            ENTRY, 0, LONGEST_H, false, "hour when watching began, h; empty for 0"));
    columns.add(RecordColumn.number(COST, -1e12, 1e12, false, "cost of the event, money"));
    if (s.intervention().isPresent()) {
      boolean needed = s.interventionColumn().isEmpty();
      columns.add(RecordColumn.word(DATE, needed, "date of the row, such as 2026-03-31"));
    }
    columns.add(
        RecordColumn.number(
            "lower_hours", 0, LONGEST_H, false, "age when last seen alive before it failed, h"));
    columns.add(
        RecordColumn.number("upper_hours", 0, LONGEST_H, false, "age when first seen failed, h"));
    columns.add(
        RecordColumn.word(COMPONENT, false, "component whose life the row is, if it is one"));
    columns.add(RecordColumn.number("count", 0, 1e9, false, "components the row stands for"));
    Set<String> more = new LinkedHashSet<>();
    more.add(s.by());
    s.adjust().forEach(more::add);
    s.stratum().ifPresent(more::add);
    s.clean().ifPresent(more::add);
    if (s.selections().isPresent()) {
      more.remove(Selections.COLUMN);
    }
    for (String name : more) {
      columns.removeIf(c -> c.name().equals(name));
      boolean words =
          s.stratum().filter(name::equals).isPresent()
              || s.clean().filter(name::equals).isPresent()
              || name.equals(s.by()) && s.cuts().isEmpty();
      columns.add(
          words
              ? RecordColumn.word(name, true, "what groups are made of or compared within")
              : RecordColumn.either(name, "what is compared or allowed for"));
    }
    s.interventionColumn()
        .ifPresent(
            name -> {
              columns.removeIf(c -> c.name().equals(name));
              columns.add(
                  RecordColumn.number(
                      name, 0, LONGEST_H, true, "hour of the intervention, h; empty for none"));
            });
    return columns;
  }

  /** Returns what a row is. */
  static Kind kind(Records table, Settings s) {
    Kind kind =
        s.kind()
            .orElseGet(
                () ->
                    s.target().isPresent()
                        ? Kind.SAMPLES
                        : repeats(table) && table.find(COMPONENT).isEmpty()
                            ? Kind.EVENTS
                            : Kind.LIVES);
    if (kind != Kind.SAMPLES && s.target().isPresent()) {
      throw CompareAnalysis.fault(
          "--target", s.target().get().toString(), "records that are samples");
    }
    String events = "records of events: a machine with a row an event, and one at the end";
    refuse(kind != Kind.EVENTS, "--intervention", s.intervention(), events);
    refuse(kind != Kind.EVENTS, "--at", s.atH().map(Numbers::text), events);
    refuse(kind == Kind.SAMPLES, "--stratum", s.stratum(), "records of events or of lives");
    refuse(
        kind == Kind.SAMPLES,
        "--adjust",
        s.adjust().stream().findFirst(),
        "records of events or of lives");
    refuse(
        kind == Kind.SAMPLES,
        "--event-cost",
        s.eventCost().map(Numbers::text),
        "records of events or of lives");
    refuse(
        kind != Kind.LIVES && s.weight() != 0,
        "--weight",
        Optional.of(Numbers.text(s.weight())),
        "records of lives, whose log-rank test it weighs");
    refuse(
        table.find(COST).isPresent() && kind == Kind.EVENTS,
        "--event-cost",
        s.eventCost().map(Numbers::text),
        "nothing, since the table has a column cost");
    if (kind != Kind.LIVES) {
      List<String> needed =
          kind == Kind.EVENTS ? List.of(MACHINE, HOURS, EVENT) : List.of(MACHINE, HOURS);
      for (String name : needed) {
        if (table.find(name).isEmpty()) {
          throw new InputException(
              new Problem(
                  table.source(),
                  "row 1",
                  "no column " + name,
                  "columns " + String.join(", ", needed)));
        }
      }
    }
    return kind;
  }

  private static void refuse(
      boolean unfit, String option, Optional<String> found, String expected) {
    if (unfit && found.isPresent()) {
      throw CompareAnalysis.fault(option, found.get(), expected);
    }
  }

  /** Returns whether any machine has more than one row. */
  private static boolean repeats(Records table) {
    Optional<Records.Column> machine = table.find(MACHINE);
    if (machine.isEmpty() || !(machine.get() instanceof Records.Words words)) {
      return false;
    }
    boolean[] seen = new boolean[words.words().size()];
    for (int code : words.codes()) {
      if (code >= 0 && seen[code]) {
        return true;
      }
      if (code >= 0) {
        seen[code] = true;
      }
    }
    return false;
  }

  /** Returns whether a word says that something happened (1) or not (0); -1 for neither. */
  static int event(String word) {
    return switch (word) {
      case "1", "1.0", "1,0" -> 1;
      case "0", "0.0", "0,0" -> 0;
      default -> -1;
    };
  }
}
