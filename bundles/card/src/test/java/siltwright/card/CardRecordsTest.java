package siltwright.card;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.ArrayList;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import siltwright.card.CardRecords.Fault;
import siltwright.card.CardRecords.Filled;
import siltwright.card.CardRecords.Remark;

/** What is missing on a filled card, and what cannot be true. */
class CardRecordsTest {
  private static final String CARD = "EX-11/ports-capped/standard-en/1/0123abcd";

  private static Filled filled(int line, String card, String date, String... changes) {
    Map<RecordField, String> values = new EnumMap<>(RecordField.class);
    values.put(RecordField.METER, "4310");
    values.put(RecordField.DROP_BEFORE, "118");
    values.put(RecordField.OIL, "60");
    values.put(RecordField.TANK_AT_ZERO, "yes");
    values.put(RecordField.PORTS_SHUT, "yes");
    values.put(RecordField.ELEMENT_STATE, "whole");
    values.put(RecordField.ELEMENT, "mat-m");
    values.put(RecordField.SEALS, "yes");
    values.put(RecordField.PORTS_OPEN, "yes");
    values.put(RecordField.LEAK, "no");
    values.put(RecordField.DROP_AFTER, "25");
    for (int i = 0; i < changes.length; i += 2) {
      RecordField f = RecordField.of(changes[i]);
      if (changes[i + 1].isEmpty()) {
        values.remove(f);
      } else {
        values.put(f, changes[i + 1]);
      }
    }
    return new Filled(line, card, date, "A", "B", values);
  }

  private static List<Remark> check(Filled... records) {
    return new CardRecords(Optional.of(DemoFleet.FLEET)).check(List.of(records));
  }

  @Test
  void aWholeRecordIsSound() {
    assertEquals(List.of(), check(filled(2, CARD, "2026-03-02")));
  }

  @ParameterizedTest
  @CsvSource({
    "meter_h,'',MISSING",
    "tankAtZero,'',MISSING",
    "portsShut,'',MISSING",
    "elementState,'',MISSING",
    "elementFitted,'',MISSING",
    "oil_degC,'',MISSING",
    "tankAtZero,perhaps,CONTRADICTION",
    "elementState,good,CONTRADICTION",
    "elementFitted,fine-s,CONTRADICTION",
    "portsOpen,no,CONTRADICTION",
    "portsShut,no,CONTRADICTION",
    "dropAfter_kPa,150,CONTRADICTION",
    "tankAtZero,no,ALARM",
    "leak,yes,ALARM",
    "sealsNew,no,ALARM",
    "elementState,torn,ALARM",
    "elementState,missing,ALARM"
  })
  void oneThingWrongIsTold(String column, String value, Fault fault) {
    List<Remark> remarks = check(filled(7, CARD, "2026-03-02", column, value));
    assertTrue(
        remarks.stream().anyMatch(r -> r.fault() == fault && r.line() == 7), remarks.toString());
  }

  @ParameterizedTest
  @CsvSource({
    "EX-11/ports-capped/standard-en/1,no id",
    "EX-99/ports-capped/standard-en/1/0123abcd,no machine",
    "EX-11/canister-whole/standard-en/1/0123abcd,does not allow"
  })
  void aCardThatIsNoneIsTold(String card, String said) {
    List<Remark> remarks = check(filled(2, card, "2026-03-02"));
    assertEquals(1, remarks.size(), remarks.toString());
    assertTrue(remarks.get(0).text().contains(said), remarks.toString());
  }

  @Test
  void recordsOfOneMachineFitTogether() {
    List<Remark> remarks =
        check(
            filled(2, CARD, "2026-03-02"),
            filled(3, CARD, "2026-03-09", "meter_h", "4300"),
            filled(4, CARD, "2026-03-10", "meter_h", "4900"),
            filled(5, CARD, "2026-03-02"));
    List<Integer> lines = new ArrayList<>();
    remarks.forEach(r -> lines.add(r.line()));
    assertEquals(List.of(3, 4, 5), lines, remarks.toString());
  }

  @Test
  void samplesComeInOrderAndPeopleDiffer() {
    Filled r =
        new Filled(
            2,
            CARD,
            "31.03.2026",
            "A",
            "a",
            filled(2, CARD, "", "sample1_min", "9", "sample2_min", "5").values());
    List<String> columns = check(r).stream().map(Remark::column).toList();
    assertEquals(List.of("date", "checkedBy", "sample2_min"), columns);
  }
}
