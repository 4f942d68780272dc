package siltwright.card.store;

import java.sql.SQLException;
import java.time.Clock;
import java.time.Instant;
import java.time.LocalDate;
import java.time.LocalTime;
import java.time.ZoneId;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.function.BiFunction;
import java.util.stream.Collectors;
import siltwright.analysis.Progress;
import siltwright.analysis.Refusals;
import siltwright.card.Card;
import siltwright.card.CardRecords.Fault;
import siltwright.card.CardRecords.Filled;
import siltwright.card.CardRecords.Remark;
import siltwright.card.RecordField;
import siltwright.model.history.FleetHistory;
import siltwright.model.history.KnownMachine;
import siltwright.model.history.RecordKind;
import siltwright.store.Edits;
import siltwright.store.RecordWriter;
import siltwright.store.Store;

/**
 * Keeps filled cards as changes of the element.
 *
 * <p>A card that cannot be true, or does not say which machine, day and meter it is of, is refused.
 * One that leaves something else open is kept: the change was made all the same.
 */
public final class CardKeeping {
  private static final List<String> NEEDED = List.of("card", "date", RecordField.METER.column());

  private CardKeeping() {}

  /**
   * What became of cards.
   *
   * @param added changes that were added
   * @param known changes that the store had already
   */
  public record Kept(long added, long known) {}

  /** Returns whether a card is refused for what is wrong with it. */
  public static boolean refuses(Remark remark) {
    return remark.fault() == Fault.CONTRADICTION
        || remark.fault() == Fault.MISSING && NEEDED.contains(remark.column());
  }

  /**
   * Keeps cards in one action.
   *
   * @param where a store that is there
   * @param who who does it
   * @param source where the cards are from, for the journal
   * @param cards the cards
   * @param remarks what is wrong with them
   * @param refusals refused cards, by their lines; those that are refused here are added
   * @param progress told how far it is
   * @throws siltwright.model.InputException if there is no such store, or it cannot be written
   */
  public static Kept keep(
      String where,
      String who,
      String source,
      List<Filled> cards,
      List<Remark> remarks,
      Refusals refusals,
      Progress progress) {
    for (Remark r : remarks) {
      if (refuses(r)) {
        refusals.refuse(r.line(), r.column(), "", "a card that can be true. " + r.text());
      }
    }
    try (Store store = Store.openExisting(where, Clock.systemUTC())) {
      Map<String, ZoneId> zones = new HashMap<>();
      try (FleetHistory history = store.history()) {
        for (KnownMachine m : history.machines()) {
          zones.put(m.id(), m.zone());
        }
      }
      return store.act(
          who, "card-keep", source, edits -> keep(edits, cards, zones, refusals, progress));
    }
  }

  private static Kept keep(
      Edits edits,
      List<Filled> cards,
      Map<String, ZoneId> zones,
      Refusals refusals,
      Progress progress)
      throws SQLException {
    Map<String, Long> machines = edits.machines(false);
    RecordWriter.Refusal refusal =
        (row, column, found, expected) ->
            refusals.refuse(((Filled) row).line(), column, found, expected);
    try (RecordWriter changes =
        edits.writer(RecordKind.CHANGE, RecordKind.CHANGE.fields(), refusal)) {
      for (Filled card : cards) {
        progress.check(0.5, "row " + card.line());
        if (refusals.refused(card.line())) {
          continue;
        }
        Card.Id id = Card.Id.of(card.card());
        Long machine = machines.get(id.machine());
        if (machine == null) {
          refusals.refuse(card.line(), "card", id.machine(), "a machine that the store knows");
          continue;
        }
        Instant noon =
            LocalDate.parse(card.date())
                .atTime(LocalTime.NOON)
                .atZone(zones.get(id.machine()))
                .toInstant();
        double meter = Double.parseDouble(card.values().get(RecordField.METER));
        changes.add(card, machine, noon.toEpochMilli(), true, meter, values(card, id));
      }
      changes.flush();
      return new Kept(changes.added(), changes.known());
    }
  }

  private static Object[] values(Filled card, Card.Id id) {
    BiFunction<RecordField, String, String> text =
        (field, other) -> card.values().getOrDefault(field, other);
    String drop = text.apply(RecordField.DROP_BEFORE, null);
    Map<String, Object> values = new HashMap<>();
    values.put("filter", "return");
    values.put("element", text.apply(RecordField.ELEMENT, null));
    values.put("procedure", id.procedure());
    values.put("person", card.doneBy().isEmpty() ? null : card.doneBy());
    values.put("drop_kPa", drop == null ? null : Double.valueOf(drop));
    values.put("note", evidence(card));
    List<Object> inOrder = new ArrayList<>();
    RecordKind.CHANGE.fields().forEach(f -> inOrder.add(values.get(f.name())));
    return inOrder.toArray();
  }

  /** What the card says besides, in the words of its columns. */
  private static String evidence(Filled card) {
    String said =
        card.values().entrySet().stream()
            .filter(
                e ->
                    e.getKey() != RecordField.METER
                        && e.getKey() != RecordField.ELEMENT
                        && e.getKey() != RecordField.DROP_BEFORE)
            .map(e -> e.getKey().column() + " " + e.getValue())
            .collect(Collectors.joining("; "));
    return "card " + card.card() + "; checkedBy " + card.checkedBy() + "; " + said;
  }
}
