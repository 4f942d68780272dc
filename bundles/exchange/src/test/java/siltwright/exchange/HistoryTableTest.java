package siltwright.exchange;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.time.Instant;
import java.time.ZoneId;
import java.util.ArrayList;
import java.util.List;
import java.util.function.BiConsumer;
import java.util.function.Consumer;
import java.util.function.Function;
import org.junit.jupiter.api.Test;
import siltwright.analysis.RecordColumn;
import siltwright.analysis.Records;
import siltwright.model.InputException;
import siltwright.model.history.ComponentReplacement;
import siltwright.model.history.DropReading;
import siltwright.model.history.ElementChange;
import siltwright.model.history.FaultReport;
import siltwright.model.history.FleetHistory;
import siltwright.model.history.KnownMachine;
import siltwright.model.history.MeterMend;
import siltwright.model.history.MeterReading;
import siltwright.model.history.Moment;
import siltwright.model.history.OilSample;
import siltwright.model.history.RecordKind;

/** Tables of a small history, each row worked out by hand. */
class HistoryTableTest {
  private static final double NONE = Double.NaN;
  private static final List<RecordColumn> COLUMNS =
      List.of(
          word("machine"),
          number("hours"),
          word("event"),
          number("entry_hours"),
          word("component"),
          word("date"),
          word("site"),
          word("class"),
          word("code"),
          word("procedure"),
          number("count4_per_mL"),
          number("deltaP_kPa"));

  private final Kept history = new Kept();

  private static RecordColumn word(String name) {
    return RecordColumn.word(name, false, name);
  }

  private static RecordColumn number(String name) {
    return RecordColumn.number(name, 0, 1e9, false, name);
  }

  /** A machine's history: its meter from 1000 h on, 10 h a day. */
  private void machine(String id, String site) {
    ZoneId zone = ZoneId.of("Asia/Tokyo");
    history.machines.add(new KnownMachine(id, "", id, "loader", site, zone));
    history.readings.add(new MeterReading(moment(id, 0), "book"));
    history.readings.add(new MeterReading(moment(id, 500), "book"));
  }

  private static Moment moment(String machine, int day) {
    Instant at = Instant.parse("2024-01-01T20:00:00Z").plusSeconds(86_400L * day);
    return new Moment(machine, at, false, NONE, 1000 + 10 * day);
  }

  private void replaced(String machine, int day, String component, String cause) {
    history.replacements.add(
        new ComponentReplacement(moment(machine, day), component, cause, "", ""));
  }

  private Records read(String rows) {
    return HistoryTable.read("kept.db", history, rows, COLUMNS);
  }

  private static List<String> column(Records records, String name) {
    Records.Column column = records.find(name).orElseThrow();
    List<String> texts = new ArrayList<>();
    for (int i = 0; i < records.rows(); i++) {
      texts.add(column.text(i));
    }
    return texts;
  }

  @Test
  void oilComesInTheOrderOfTimeWithTheDayOfTheSite() {
    machine("A", "north");
    double[] counts = {1950, 420, 61, NONE, NONE, NONE};
    history.samples.add(
        new OilSample(
            moment("A", 30), "1", "", NONE, counts, "18/16/13", NONE, NONE, NONE, NONE, ""));
    history.changes.add(
        new ElementChange(moment("A", 10), "return", "m", "slow", "", "crew", 90, ""));
    history.drops.add(new DropReading(moment("A", 20), 55, NONE, NONE, ""));
    Records oil = read("oil");
    assertEquals(List.of("change", "reading", "sample"), column(oil, "event"));
    assertArrayEquals(new double[] {1100, 1200, 1300}, oil.numbers("hours").orElseThrow());
    // 20:00 in UTC is the next morning in Tokyo
    assertEquals(List.of("2024-01-12", "2024-01-22", "2024-02-01"), column(oil, "date"));
    assertEquals(List.of("90", "55", ""), column(oil, "deltaP_kPa"));
    assertEquals(List.of("", "", "1950"), column(oil, "count4_per_mL"));
    assertEquals(List.of("slow", "", ""), column(oil, "procedure"));
    assertEquals(List.of("18/16/13"), column(read("samples"), "code"));
  }

  @Test
  void eventsEndWithTheEndOfWatching() {
    machine("A", "north");
    machine("B", "south");
    replaced("A", 100, "pump", "failed");
    replaced("A", 200, "valve", "failed");
    Records all = read("replacements");
    assertEquals(List.of("A", "A", "A", "B"), column(all, "machine"));
    assertEquals(List.of("2000", "3000", "6000", "6000"), column(all, "hours"));
    assertEquals(List.of("1", "1", "0", "0"), column(all, "event"));
    assertEquals(List.of("1000", "1000", "1000", "1000"), column(all, "entry_hours"));
    assertEquals(List.of("north", "north", "north", "south"), column(all, "site"));
    assertEquals(List.of("2000", "6000", "6000"), column(read("replacements/pump"), "hours"));
  }

  @Test
  void livesOfUnknownAgeAreLeftOutAndTold() {
    machine("A", "north");
    replaced("A", 100, "pump", "failed");
    replaced("A", 300, "pump", "planned");
    Records lives = read("lives");
    assertEquals(List.of("2000", "2000"), column(lives, "hours"));
    assertEquals(List.of("0", "0"), column(lives, "event"));
    assertTrue(
        lives.notes().get(0).startsWith("Left out, since nobody knows their age: 1 of"),
        lives::toString);
  }

  @Test
  void livesFromNewEnterWhenWatchingBegan() {
    machine("A", "north");
    machine("B", "south");
    replaced("A", 100, "pump", "failed");
    Records lives = read("lives-from-new");
    // A's first pump failed at 2000 h, seen from 1000 h on; its second and B's first still run
    assertEquals(List.of("2000", "4000", "6000"), column(lives, "hours"));
    assertEquals(List.of("1", "0", "0"), column(lives, "event"));
    assertEquals(List.of("1000", "0", "1000"), column(lives, "entry_hours"));
    assertEquals(List.of("pump", "pump", "pump"), column(lives, "component"));
  }

  @Test
  void whatStandsAtTheBeginOfWatchingIsLeftOutAndTold() {
    machine("A", "north");
    replaced("A", 0, "pump", "failed");
    replaced("A", 500, "pump", "failed");
    Records events = read("replacements");
    assertEquals(List.of("6000", "6000"), column(events, "hours"));
    assertEquals(List.of("1", "0"), column(events, "event"));
    assertEquals(
        List.of("Left out, since nothing is known of the machine before: 1."), events.notes());
    // nor does the second pump, fitted at the last hour known, say anything
    assertEquals(List.of("5000"), column(read("lives"), "hours"));
  }

  @Test
  void recordsWithoutHoursAreLeftOutAndTold() {
    machine("A", "north");
    Moment unknown = new Moment("A", Instant.parse("2023-01-01T00:00:00Z"), false, NONE, NONE);
    history.faults.add(new FaultReport(unknown, "F1", "", "", ""));
    history.faults.add(new FaultReport(moment("A", 5), "F1", "", "", ""));
    Records faults = read("faults");
    assertEquals(List.of("1", "0"), column(faults, "event"));
    assertEquals(List.of("Left out for want of hours of the machine: 1."), faults.notes());
  }

  @Test
  void whatIsNotThereIsSaid() {
    machine("A", "north");
    InputException kind = assertThrows(InputException.class, () -> read("tyres"));
    assertTrue(kind.getMessage().contains("--rows: found tyres; expected one of oil"));
    InputException none = assertThrows(InputException.class, () -> read("lives/pump"));
    assertTrue(none.getMessage().contains("lives of pump"), none::getMessage);
    InputException column =
        assertThrows(
            InputException.class,
            () ->
                HistoryTable.read(
                    "kept.db",
                    history,
                    "changes",
                    List.of(RecordColumn.word("duty", true, "the duty"))));
    assertTrue(
        column.getMessage().contains("no duty; expected rows with the duty; these have machine"),
        column::getMessage);
  }

  /** A history in memory. */
  private static final class Kept implements FleetHistory {
    private final List<KnownMachine> machines = new ArrayList<>();
    private final List<MeterReading> readings = new ArrayList<>();
    private final List<ElementChange> changes = new ArrayList<>();
    private final List<OilSample> samples = new ArrayList<>();
    private final List<DropReading> drops = new ArrayList<>();
    private final List<ComponentReplacement> replacements = new ArrayList<>();
    private final List<FaultReport> faults = new ArrayList<>();

    private static <T> void tell(
        List<T> records, String machine, Function<T, Moment> of, Consumer<? super T> each) {
      records.stream().filter(r -> of.apply(r).machine().equals(machine)).forEach(each);
    }

    @Override
    public List<KnownMachine> machines() {
      return machines;
    }

    @Override
    public long count(RecordKind kind, String machine) {
      throw new UnsupportedOperationException();
    }

    @Override
    public List<MeterMend> mends() {
      return List.of();
    }

    @Override
    public List<MeterMend> mends(String machine) {
      return List.of();
    }

    @Override
    public void readings(String machine, Consumer<? super MeterReading> each) {
      tell(readings, machine, MeterReading::moment, each);
    }

    @Override
    public void changes(String machine, Consumer<? super ElementChange> each) {
      tell(changes, machine, ElementChange::moment, each);
    }

    @Override
    public void samples(String machine, Consumer<? super OilSample> each) {
      tell(samples, machine, OilSample::moment, each);
    }

    @Override
    public void drops(String machine, Consumer<? super DropReading> each) {
      tell(drops, machine, DropReading::moment, each);
    }

    @Override
    public void replacements(String machine, Consumer<? super ComponentReplacement> each) {
      tell(replacements, machine, ComponentReplacement::moment, each);
    }

    @Override
    public void faults(String machine, Consumer<? super FaultReport> each) {
      tell(faults, machine, FaultReport::moment, each);
    }

    @Override
    public void records(
        RecordKind kind, String machine, BiConsumer<? super Moment, Object[]> each) {
      throw new UnsupportedOperationException();
    }

    @Override
    public void close() {
      // nothing is open
    }
  }
}
