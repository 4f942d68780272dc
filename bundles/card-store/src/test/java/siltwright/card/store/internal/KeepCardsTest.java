package siltwright.card.store.internal;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Clock;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import siltwright.analysis.Cell;
import siltwright.analysis.Entry;
import siltwright.analysis.Finding;
import siltwright.analysis.Progress;
import siltwright.analysis.Result;
import siltwright.analysis.Values;
import siltwright.model.InputException;
import siltwright.model.history.ElementChange;
import siltwright.model.history.FleetHistory;
import siltwright.store.Store;

/** Cards are invented. */
class KeepCardsTest {
  private static final String HEAD =
      "card,date,doneBy,checkedBy,meter_h,dropBefore_kPa,oil_degC,tankAtZero,portsShut,elementState,"
          + "elementFitted,sealsNew,portsOpen,spilled_L,leak,dropAfter_kPa\n";
  private static final String SOUND =
      "EX-1/capped/standard-en/1/a47b7a08,2026-03-02,crew A,lead A,4310,118,61,yes,yes,whole,mat-m,"
          + "yes,yes,0.4,no,27\n";

  @TempDir Path folder;
  private String store;

  @BeforeEach
  void machineIsKnown() {
    store = folder.resolve("kept.db").toString();
    try (Store s = Store.open(store, Clock.systemUTC())) {
      s.act(
          "test",
          "set",
          "",
          edits -> {
            edits.site("north", "North", "Asia/Tokyo");
            return edits.set("EX-1", null, null, null, "north");
          });
    }
  }

  private Result keep(String rows) throws Exception {
    Path cards = folder.resolve("cards.csv");
    Files.writeString(cards, HEAD + rows);
    KeepCards action = new KeepCards();
    return action.run(
        cards.toString(),
        Values.of(action.description(), Map.of("store", store, "who", "office")),
        Progress.NONE);
  }

  private List<ElementChange> changes() {
    List<ElementChange> changes = new ArrayList<>();
    try (FleetHistory history = Store.read(store)) {
      history.changes("EX-1", changes::add);
    }
    return changes;
  }

  private static double value(Result result, String name) {
    return result.entries().stream()
        .filter(e -> e.name().equals(name))
        .map(e -> ((Cell.Num) ((Entry.Value) e).cell()).value())
        .findFirst()
        .orElseThrow();
  }

  @Test
  void soundCardBecomesAChangeWithItsEvidence() throws Exception {
    Result result = keep(SOUND);
    assertEquals(1, value(result, "added"));
    ElementChange change = changes().get(0);
    // noon in Tokyo
    assertEquals(Instant.parse("2026-03-02T03:00:00Z"), change.moment().at());
    assertTrue(change.moment().wholeDay());
    assertEquals(4310, change.moment().meterH());
    assertEquals("return", change.filter());
    assertEquals("mat-m", change.element());
    assertEquals("capped", change.procedure());
    assertEquals("crew A", change.person());
    assertEquals(118, change.dropKPa());
    assertTrue(
        change.note().startsWith("card EX-1/capped/standard-en/1/a47b7a08; checkedBy lead A; "),
        change::note);
    assertTrue(change.note().contains("portsShut yes; elementState whole"), change::note);
    assertTrue(change.note().contains("dropAfter_kPa 27"), change::note);
  }

  @Test
  void cardThatComesTwiceIsKnown() throws Exception {
    keep(SOUND);
    Result again = keep(SOUND);
    assertEquals(0, value(again, "added"));
    assertEquals(1, value(again, "known"));
    assertEquals(1, changes().size());
  }

  @Test
  void cardThatCannotBeTrueIsRefusedAndTheOthersAreKept() throws Exception {
    Result result =
        keep(
            SOUND.replace("2026-03-02", "2026-03-20").replace("lead A", "crew A")
                + SOUND.replace("EX-1/", "EX-9/")
                + SOUND.replace("4310", "").replace("03-02", "03-11")
                + SOUND);
    assertEquals(1, changes().size());
    assertEquals(3, result.rows().orElseThrow().refused());
    assertEquals(
        List.of("checkedBy", "card", "meter_h"),
        result.rows().orElseThrow().refusals().stream()
            .map(p -> p.place().replaceAll(".*column ", ""))
            .toList());
  }

  @Test
  void cardThatLeavesSomethingOpenIsKeptAndTold() throws Exception {
    Result result = keep(SOUND.replace(",no,27", ",,27"));
    assertEquals(1, changes().size());
    Finding finding = result.findings().get(0);
    assertEquals(Finding.Severity.CAUTION, finding.severity());
    assertEquals("leak", finding.pointsAt());
  }

  @Test
  void storeHasToBeThere() {
    store = folder.resolve("none.db").toString();
    InputException e = assertThrows(InputException.class, () -> keep(SOUND));
    assertTrue(e.getMessage().contains("a store that is there"), e::getMessage);
  }
}
