package siltwright.card.view;

import java.util.EnumMap;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import siltwright.analysis.ExactNumber;
import siltwright.card.Card;
import siltwright.card.CardRecords.Filled;
import siltwright.card.RecordField;

/** A card while it is filled in: what stands in each place, numbers in the units of the files. */
final class Draft {
  /** What became of a card when it was to be kept. */
  enum State {
    OPEN,
    KEPT,
    REFUSED
  }

  private final int line;
  private final boolean typed;
  private final Map<RecordField, String> values = new EnumMap<>(RecordField.class);
  private final Map<RecordField, String> faults = new EnumMap<>(RecordField.class);
  private String card = "";
  private String date = "";
  private String doneBy = "";
  private String checkedBy = "";
  private State state = State.OPEN;

  /**
   * Makes an empty one, to be typed in.
   *
   * @param line its number among the cards here
   */
  Draft(int line) {
    this(line, true);
  }

  private Draft(int line, boolean typed) {
    this.line = line;
    this.typed = typed;
  }

  /** Makes one of a row of a table. */
  Draft(Filled filled) {
    this(filled.line(), false);
    take(filled);
  }

  /** Makes a copy with another number. */
  Draft(int line, Draft of) {
    this(line, of.typed);
    take(of.filled());
    faults.putAll(of.faults);
    state = of.state;
  }

  private void take(Filled filled) {
    card = filled.card();
    date = filled.date();
    doneBy = filled.doneBy();
    checkedBy = filled.checkedBy();
    values.putAll(filled.values());
  }

  int line() {
    return line;
  }

  String card() {
    return card;
  }

  String date() {
    return date;
  }

  String doneBy() {
    return doneBy;
  }

  String checkedBy() {
    return checkedBy;
  }

  void setCard(String text) {
    card = text.strip();
    state = State.OPEN;
  }

  void setDate(String text) {
    date = text.strip();
    state = State.OPEN;
  }

  void setDoneBy(String text) {
    doneBy = text.strip();
    state = State.OPEN;
  }

  void setCheckedBy(String text) {
    checkedBy = text.strip();
    state = State.OPEN;
  }

  /** Returns what stands in a field; empty if nothing does. */
  String text(RecordField field) {
    return values.getOrDefault(field, "");
  }

  OptionalDouble number(RecordField field) {
    String text = text(field);
    return text.isEmpty() ? OptionalDouble.empty() : OptionalDouble.of(Double.parseDouble(text));
  }

  /** Puts a word into a field; an empty one empties it. */
  void put(RecordField field, String word) {
    state = State.OPEN;
    faults.remove(field);
    if (word.isBlank()) {
      values.remove(field);
    } else {
      values.put(field, word.strip());
    }
  }

  /** Puts a number into a field. */
  void put(RecordField field, double number) {
    put(field, ExactNumber.text(number));
  }

  /** Says why what was typed into a field cannot stand there. */
  void refuse(RecordField field, String why) {
    put(field, "");
    faults.put(field, why);
  }

  Map<RecordField, String> faults() {
    return faults;
  }

  Optional<Card.Id> id() {
    try {
      return Optional.of(Card.Id.of(card));
    } catch (IllegalArgumentException e) {
      return Optional.empty();
    }
  }

  boolean isEmpty() {
    return card.isEmpty()
        && date.isEmpty()
        && doneBy.isEmpty()
        && checkedBy.isEmpty()
        && values.isEmpty()
        && faults.isEmpty();
  }

  /** Returns whether it is nowhere but here. */
  boolean isOnlyHere() {
    return typed && state != State.KEPT && !isEmpty();
  }

  /** Returns it as a text, a line for each place where something stands. */
  String asText() {
    StringBuilder text = new StringBuilder();
    Map<String, String> head =
        Map.of("card", card, "date", date, "doneBy", doneBy, "checkedBy", checkedBy);
    head.forEach((key, value) -> text.append(key).append('\t').append(value).append('\n'));
    values.forEach(
        (field, value) -> text.append(field.column()).append('\t').append(value).append('\n'));
    return text.toString();
  }

  /** Reads {@link #asText}; what it does not know is passed over. */
  static Draft of(int line, String text) {
    Draft draft = new Draft(line);
    for (String each : text.split("\n")) {
      int tab = each.indexOf('\t');
      String key = each.substring(0, Math.max(0, tab));
      String value = each.substring(tab + 1);
      switch (key) {
        case "card" -> draft.setCard(value);
        case "date" -> draft.setDate(value);
        case "doneBy" -> draft.setDoneBy(value);
        case "checkedBy" -> draft.setCheckedBy(value);
        default -> {
          if (RecordField.columns().contains(key)) {
            draft.put(RecordField.of(key), value);
          }
        }
      }
    }
    return draft;
  }

  State state() {
    return state;
  }

  void become(State now) {
    state = now;
  }

  Filled filled() {
    return new Filled(line, card, date, doneBy, checkedBy, Map.copyOf(values));
  }
}
