package siltwright.card;

import java.time.LocalDate;
import java.time.format.DateTimeParseException;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.stream.Stream;
import siltwright.analysis.Numbers;
import siltwright.model.Element;
import siltwright.model.Fleet;
import siltwright.model.Machine;

/**
 * Checks cards that came back filled: what is missing, and what cannot both be true.
 *
 * <p>Source: common practice, no source.
 */
public final class CardRecords {
  private final Optional<Fleet> fleet;

  /**
   * Makes a check.
   *
   * @param fleet the fleet whose machines the cards are for, where it is known
   */
  public CardRecords(Optional<Fleet> fleet) {
    this.fleet = fleet;
  }

  /**
   * One filled card as it was read: texts may be empty.
   *
   * @param line its line in the file
   * @param card id of the card
   * @param date day of the change
   * @param doneBy who did it
   * @param checkedBy who checked it
   * @param values what was written into each field; numbers with a decimal point
   */
  public record Filled(
      int line,
      String card,
      String date,
      String doneBy,
      String checkedBy,
      Map<RecordField, String> values) {
    private String text(RecordField field) {
      return values.getOrDefault(field, "");
    }

    private boolean is(RecordField field, String word) {
      return text(field).equalsIgnoreCase(word);
    }

    private OptionalDouble number(RecordField field) {
      String text = text(field);
      return text.isEmpty() ? OptionalDouble.empty() : OptionalDouble.of(Double.parseDouble(text));
    }

    private Optional<LocalDate> day() {
      try {
        return Optional.of(LocalDate.parse(date));
      } catch (DateTimeParseException e) {
        return Optional.empty();
      }
    }

    private Optional<Card.Id> id() {
      try {
        return Optional.of(Card.Id.of(card));
      } catch (IllegalArgumentException e) {
        return Optional.empty();
      }
    }
  }

  /** How grave a fault of a record is. */
  public enum Fault {
    /** Something is not there. */
    MISSING("incomplete"),
    /** Something cannot be true, or not together with something else. */
    CONTRADICTION("contradictory"),
    /** The record may be right; what it tells needs someone's attention. */
    ALARM("look at it");

    private final String word;

    Fault(String word) {
      this.word = word;
    }

    /** Returns the word for people. */
    public String word() {
      return word;
    }
  }

  /**
   * What is wrong with a record.
   *
   * @param line its line in the file
   * @param column column that it is about
   * @param fault how grave it is
   * @param text what is wrong, in a sentence
   */
  public record Remark(int line, String column, Fault fault, String text) {}

  /** Returns all that is wrong, in the order of the records. */
  public List<Remark> check(List<Filled> records) {
    List<Remark> remarks = new ArrayList<>();
    Map<String, Integer> before = new HashMap<>();
    for (Filled r : records) {
      new One(r, remarks).all();
      Integer first =
          r.card().isEmpty() ? null : before.putIfAbsent(r.card() + " " + r.date(), r.line());
      if (first != null) {
        remarks.add(
            new Remark(
                r.line(),
                "card",
                Fault.CONTRADICTION,
                "The same card of the same day stands in row " + first + " already."));
      }
    }
    meters(records, remarks);
    return remarks.stream()
        .sorted(Comparator.comparingInt(Remark::line).thenComparing(Remark::fault))
        .toList();
  }

  /** Hour meters only go forward. */
  private static void meters(List<Filled> records, List<Remark> remarks) {
    Map<String, List<Filled>> byMachine = new HashMap<>();
    for (Filled r : records) {
      if (r.id().isPresent() && r.day().isPresent() && r.number(RecordField.METER).isPresent()) {
        byMachine.computeIfAbsent(r.id().get().machine(), m -> new ArrayList<>()).add(r);
      }
    }
    for (List<Filled> ofOne : byMachine.values()) {
      ofOne.sort(Comparator.comparing(r -> r.day().orElseThrow()));
      for (int i = 1; i < ofOne.size(); i++) {
        Filled earlier = ofOne.get(i - 1);
        Filled later = ofOne.get(i);
        double from = earlier.number(RecordField.METER).getAsDouble();
        double to = later.number(RecordField.METER).getAsDouble();
        long hours = 24 * (later.day().get().toEpochDay() - earlier.day().get().toEpochDay() + 1);
        if (to < from) {
          remarks.add(
              contradiction(
                  later,
                  RecordField.METER,
                  "The hour meter, %s h, is below that of row %d, %s h, which is of an earlier day.",
                  Numbers.text(to),
                  earlier.line(),
                  Numbers.text(from)));
        } else if (to - from > hours) {
          remarks.add(
              contradiction(
                  later,
                  RecordField.METER,
                  "%s h since row %d are more than the days between have.",
                  Numbers.text(to - from),
                  earlier.line()));
        }
      }
    }
  }

  private static Remark contradiction(
      Filled r, RecordField field, String text, Object... arguments) {
    return new Remark(
        r.line(), field.column(), Fault.CONTRADICTION, String.format(Locale.ROOT, text, arguments));
  }

  /** The check of one record. */
  private final class One {
    private final Filled r;
    private final List<Remark> remarks;

    One(Filled record, List<Remark> remarks) {
      this.r = record;
      this.remarks = remarks;
    }

    void all() {
      missing();
      card();
      words();
      people();
      change();
      drops();
      samples();
    }

    private void add(String column, Fault fault, String text) {
      remarks.add(new Remark(r.line(), column, fault, text));
    }

    private void missing() {
      Map<String, String> signed =
          Map.of(
              "card", r.card(), "date", r.date(), "doneBy", r.doneBy(), "checkedBy", r.checkedBy());
      List.of("card", "date", "doneBy", "checkedBy").stream()
          .filter(c -> signed.get(c).isEmpty())
          .forEach(c -> add(c, Fault.MISSING, "Nothing stands under " + c + "."));
      Stream.of(RecordField.values())
          .filter(f -> f.required() && r.text(f).isEmpty())
          .forEach(f -> add(f.column(), Fault.MISSING, "Nothing is said of: " + f.meaning() + "."));
      if (r.number(RecordField.DROP_BEFORE).isPresent() != r.number(RecordField.OIL).isPresent()) {
        add(
            RecordField.OIL.column(),
            Fault.MISSING,
            "A pressure drop and the oil temperature at it belong together; one of them is missing.");
      }
    }

    private void card() {
      if (r.card().isEmpty()) {
        return;
      }
      if (r.id().isEmpty()) {
        add(
            "card",
            Fault.CONTRADICTION,
            "This is no id of a card: machine/procedure/template/version/check sum.");
        return;
      }
      Card.Id id = r.id().get();
      fleet.ifPresent(f -> known(f, id));
    }

    private void known(Fleet f, Card.Id id) {
      Optional<Machine> machine = f.machine(id.machine());
      if (machine.isEmpty()) {
        add("card", Fault.CONTRADICTION, "The fleet has no machine " + id.machine() + ".");
        return;
      }
      Machine m = machine.get();
      if (m.procedure(id.procedure()).isEmpty()) {
        add(
            "card",
            Fault.CONTRADICTION,
            "The housing of " + m.id() + " does not allow the procedure " + id.procedure() + ".");
      }
      String fitted = r.text(RecordField.ELEMENT);
      boolean fits =
          Stream.concat(Stream.of(m.returnFilter().element()), m.alternatives().elements().stream())
              .map(Element::id)
              .anyMatch(fitted::equals);
      if (!fitted.isEmpty() && !fits) {
        add(
            RecordField.ELEMENT.column(),
            Fault.CONTRADICTION,
            "The fleet file knows no element " + fitted + " for " + m.id() + ".");
      }
    }

    private void words() {
      if (!r.date().isEmpty() && r.day().isEmpty()) {
        add("date", Fault.CONTRADICTION, "This is no day such as 2026-03-31.");
      }
      for (RecordField f : RecordField.values()) {
        List<String> allowed =
            switch (f.kind()) {
              case YES_NO -> List.of("yes", "no");
              case STATE -> RecordField.STATES;
              case NUMBER, WORD -> List.of();
            };
        if (!allowed.isEmpty()
            && !r.text(f).isEmpty()
            && allowed.stream().noneMatch(w -> r.is(f, w))) {
          add(
              f.column(),
              Fault.CONTRADICTION,
              "This is none of " + String.join(", ", allowed) + ".");
        }
      }
    }

    private void people() {
      if (!r.doneBy().isEmpty() && r.doneBy().equalsIgnoreCase(r.checkedBy())) {
        add(
            "checkedBy",
            Fault.CONTRADICTION,
            "The one who did it cannot be the one who checked it.");
      }
    }

    private void change() {
      if (r.is(RecordField.TANK_AT_ZERO, "no")) {
        add(
            RecordField.TANK_AT_ZERO.column(),
            Fault.ALARM,
            "The housing was opened under pressure: talk with the crew before the next change.");
      }
      if (r.is(RecordField.PORTS_SHUT, "no")) {
        add(
            RecordField.PORTS_SHUT.column(),
            Fault.ALARM,
            "The ports stood open while the element was lifted: count on the dirt of the other way, and"
                + " take oil samples.");
      }
      boolean running =
          r.is(RecordField.LEAK, "yes")
              || r.is(RecordField.LEAK, "no")
              || r.number(RecordField.DROP_AFTER).isPresent();
      if (r.is(RecordField.PORTS_OPEN, "no")) {
        add(
            RecordField.PORTS_OPEN.column(),
            running ? Fault.CONTRADICTION : Fault.ALARM,
            running
                ? "The return line is said to be shut, and the machine to have run: one of them is"
                    + " wrong. Stop it and look."
                : "The return line is still shut: the machine must not start.");
      }
      if (r.is(RecordField.PORTS_SHUT, "no") && r.is(RecordField.PORTS_OPEN, "yes")) {
        add(
            RecordField.PORTS_OPEN.column(),
            Fault.CONTRADICTION,
            "What was never shut cannot have been opened again.");
      }
      if (r.is(RecordField.LEAK, "yes")) {
        add(RecordField.LEAK.column(), Fault.ALARM, "A leak was seen after the restart.");
      }
      if (r.is(RecordField.SEALS, "no")) {
        add(
            RecordField.SEALS.column(),
            Fault.ALARM,
            "Old seals went back: the check of a ring tells whether they may.");
      }
      Stream.of("torn", "collapsed", "loose", "missing")
          .filter(s -> r.is(RecordField.ELEMENT_STATE, s))
          .forEach(
              s ->
                  add(
                      RecordField.ELEMENT_STATE.column(),
                      Fault.ALARM,
                      "The old element was "
                          + s
                          + ": the oil went round it. Look for the cause, and take oil samples."));
    }

    private void drops() {
      OptionalDouble before = r.number(RecordField.DROP_BEFORE);
      OptionalDouble after = r.number(RecordField.DROP_AFTER);
      if (before.isPresent() && after.isPresent() && after.getAsDouble() > before.getAsDouble()) {
        add(
            RecordField.DROP_AFTER.column(),
            Fault.CONTRADICTION,
            "A new element reads higher than the old one did. Unless the oil was much colder, one"
                + " reading is wrong or the old element was open.");
      }
      if (before.isPresent()
          && before.getAsDouble() > 0
          && r.is(RecordField.ELEMENT_STATE, "missing")) {
        add(
            RecordField.DROP_BEFORE.column(),
            Fault.ALARM,
            "A housing without element still read "
                + Numbers.text(before.getAsDouble())
                + " kPa: gauge or housing need a look.");
      }
    }

    private void samples() {
      double last = Double.NEGATIVE_INFINITY;
      for (RecordField f :
          List.of(RecordField.SAMPLE_1, RecordField.SAMPLE_2, RecordField.SAMPLE_3)) {
        OptionalDouble minutes = r.number(f);
        if (minutes.isPresent()) {
          if (minutes.getAsDouble() <= last) {
            add(f.column(), Fault.CONTRADICTION, "Samples come one after the other.");
          }
          last = minutes.getAsDouble();
        }
      }
    }
  }
}
