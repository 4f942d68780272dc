package siltwright.card.store.internal;

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
import java.util.Optional;
import java.util.function.BiFunction;
import java.util.stream.Collectors;
import org.osgi.annotation.bundle.Capability;
import org.osgi.service.component.annotations.Component;
import siltwright.analysis.Action;
import siltwright.analysis.Description;
import siltwright.analysis.Finding.Severity;
import siltwright.analysis.FleetFileParameter;
import siltwright.analysis.Progress;
import siltwright.analysis.Records;
import siltwright.analysis.Refusals;
import siltwright.analysis.Result;
import siltwright.analysis.Scope;
import siltwright.analysis.Values;
import siltwright.card.Card;
import siltwright.card.CardRecords;
import siltwright.card.CardRecords.Fault;
import siltwright.card.CardRecords.Filled;
import siltwright.card.CardRecords.Remark;
import siltwright.card.FilledCards;
import siltwright.card.RecordField;
import siltwright.exchange.RecordsReader;
import siltwright.model.Fleet;
import siltwright.model.history.FleetHistory;
import siltwright.model.history.KnownMachine;
import siltwright.model.history.RecordKind;
import siltwright.model.json.FleetReader;
import siltwright.store.Edits;
import siltwright.store.RecordWriter;
import siltwright.store.Store;
import siltwright.store.StoreOptions;

/**
 * Brings filled cards into a store as changes of the element, with what they say as evidence.
 *
 * <p>A card that cannot be true, or does not say which machine, day and meter it is of, is refused.
 * One that leaves something else open is kept and told: the change was made all the same.
 */
@Component
@Capability(namespace = "siltwright.command", name = "card-keep")
public final class KeepCards implements Action {
  private static final FleetFileParameter FLEET =
      new FleetFileParameter(
          "fleet", "the fleet of the cards, to check machines, procedures and elements; only read");

  private static final Description DESCRIPTION =
      Description.of(
          "card-keep",
          "Filled cards into a store",
          "Brings filled cards into a store as element changes, each with its evidence.",
          Scope.NONE,
          StoreOptions.STORE,
          FLEET,
          StoreOptions.WHO);

  private static final List<String> NEEDED = List.of("card", "date", RecordField.METER.column());

  @Override
  public Description description() {
    return DESCRIPTION;
  }

  @Override
  public String file() {
    return "Table of filled cards (CSV), as for card-record.";
  }

  @Override
  public Result run(String file, Values values, Progress progress) {
    progress.check(0, "cards");
    Records records = RecordsReader.read(StoreOptions.path("FILE", file), FilledCards.columns());
    Optional<Fleet> fleet =
        values
            .find(FLEET)
            .map(f -> FleetReader.read(StoreOptions.path("--fleet", f.toString())).fleet());
    List<Filled> cards = FilledCards.of(records);
    List<Remark> remarks = new CardRecords(fleet).check(cards);
    Refusals refusals = records.refusals();
    for (Remark r : remarks) {
      if (r.fault() == Fault.CONTRADICTION
          || r.fault() == Fault.MISSING && NEEDED.contains(r.column())) {
        refusals.refuse(r.line(), r.column(), "", "a card that can be true. " + r.text());
      }
    }
    String where = values.get(StoreOptions.STORE);
    Result.Builder result = Result.of(DESCRIPTION, "", values);
    long[] counts;
    try (Store store = Store.openExisting(where, Clock.systemUTC())) {
      Map<String, ZoneId> zones = new HashMap<>();
      try (FleetHistory history = store.history()) {
        for (KnownMachine m : history.machines()) {
          zones.put(m.id(), m.zone());
        }
      }
      counts =
          store.act(
              StoreOptions.who(values),
              "card-keep",
              file,
              edits -> keep(edits, cards, zones, refusals, progress));
    }
    boolean[] kept = new boolean[cards.size()];
    for (int i = 0; i < kept.length; i++) {
      kept[i] = !refusals.refused(cards.get(i).line());
    }
    result.records(records.where(i -> kept[i], refusals));
    result.value("added", "Changes added", "1", counts[0]);
    result.value("known", "There already", "1", counts[1]);
    for (Remark r : remarks) {
      if (!refusals.refused(r.line())) {
        result.finding(
            r.fault() == Fault.MISSING ? Severity.CAUTION : Severity.WARNING,
            "Row " + r.line() + ": " + r.text(),
            r.column());
      }
    }
    return result.build();
  }

  private static long[] keep(
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
      return new long[] {changes.added(), changes.known()};
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
