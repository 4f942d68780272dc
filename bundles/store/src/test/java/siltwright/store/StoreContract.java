package siltwright.store;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.ByteArrayInputStream;
import java.io.ByteArrayOutputStream;
import java.nio.file.Path;
import java.sql.Connection;
import java.sql.SQLException;
import java.sql.Statement;
import java.time.Clock;
import java.time.Instant;
import java.time.ZoneOffset;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Random;
import java.util.concurrent.Callable;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import java.util.concurrent.Future;
import java.util.function.Supplier;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import siltwright.model.InputException;
import siltwright.model.history.FleetHistory;
import siltwright.model.history.MeterMend;
import siltwright.model.history.OilSample;
import siltwright.model.history.RecordField;
import siltwright.model.history.RecordKind;

/** What every store keeps, whatever database it is in; expectations are by hand. */
abstract class StoreContract {
  static final Clock CLOCK = Clock.fixed(Instant.parse("2026-03-01T12:00:00Z"), ZoneOffset.UTC);
  static final long DAY_MS = 86_400_000;
  static final long START_MS = Instant.parse("2021-01-04T12:00:00Z").toEpochMilli();
  static final RecordField COUNT4 = RecordKind.SAMPLE.field("count4_per_mL").orElseThrow();
  static final RecordField NO = RecordKind.SAMPLE.field("sample_no").orElseThrow();

  @TempDir Path folder;
  String where;

  /** Returns where a store may be made that is not there. */
  abstract String fresh(Path folder);

  @BeforeEach
  void choose() {
    where = fresh(folder);
  }

  static long importSamples(Store store, String who, int from, int to) {
    return store.act(
        who,
        "import",
        "samples " + from + " to " + to,
        edits -> {
          long machine = edits.set("EX-1", "S1", "Excavator", "excavator", "pit").number();
          edits.site("pit", "The pit", "Europe/Berlin");
          List<String> refused = new ArrayList<>();
          try (RecordWriter w =
              edits.writer(
                  RecordKind.SAMPLE,
                  List.of(NO, COUNT4),
                  (row, column, found, expected) -> refused.add(row + column))) {
            for (int i = from; i < to; i++) {
              w.add(
                  i,
                  machine,
                  START_MS + i * DAY_MS,
                  true,
                  8.0 * i,
                  new Object[] {"L" + i, 1000.0 + i});
            }
            w.flush();
          }
          assertEquals(List.of(), refused);
          return edits.number();
        });
  }

  static List<OilSample> samples(String where) {
    List<OilSample> samples = new ArrayList<>();
    try (FleetHistory history = Store.read(where)) {
      history.samples("EX-1", samples::add);
    }
    return samples;
  }

  static String problem(Supplier<?> work) {
    return assertThrows(InputException.class, work::get).getMessage();
  }

  @Test
  void recordsComeBackAsTheyWentIn() {
    try (Store store = Store.open(where, CLOCK)) {
      importSamples(store, "ann", 0, 1234);
    }
    List<OilSample> samples = samples(where);
    assertEquals(1234, samples.size());
    OilSample one = samples.get(700);
    assertEquals(Instant.ofEpochMilli(START_MS + 700 * DAY_MS), one.moment().at());
    assertEquals("L700", one.sampleNo());
    assertEquals(1700, one.countsPerMl()[0]);
    assertTrue(Double.isNaN(one.countsPerMl()[1]) && Double.isNaN(one.waterPpm()));
    assertEquals(5600, one.moment().hoursH());
    assertEquals("", one.note());
    try (FleetHistory history = Store.read(where)) {
      assertEquals("Europe/Berlin", history.machines().get(0).zone().getId());
      assertEquals("S1", history.machines().get(0).serial());
      assertEquals(1234, history.count(RecordKind.SAMPLE, "EX-1"));
      assertEquals(1234, history.count(RecordKind.SAMPLE, ""));
    }
  }

  @Test
  void rowsOfTheFirstImportAreToldApartToo() {
    try (Store store = Store.open(where, CLOCK)) {
      List<String> refused = new ArrayList<>();
      // one that fails leaves the table as it was
      problem(
          () ->
              store.act(
                  "ann",
                  "import",
                  "none",
                  edits -> {
                    edits
                        .writer(RecordKind.SAMPLE, List.of(NO, COUNT4), (r, c, f, e) -> {})
                        .close();
                    throw new InputException(
                        new siltwright.model.Problem("test", "", "a fault", "none"));
                  }));
      store.act(
          "ann",
          "import",
          "first",
          edits -> {
            long machine = edits.set("EX-1", null, null, null, null).number();
            try (RecordWriter w =
                edits.writer(
                    RecordKind.SAMPLE,
                    List.of(NO, COUNT4),
                    (row, column, found, expected) ->
                        refused.add(row + " " + column + " " + found + " " + expected))) {
              for (int i = 0; i < 9000; i++) {
                // every third row again at once, every fifth again much later
                for (int again = 0; again < (i % 3 == 0 ? 2 : 1); again++) {
                  addSample(w, i, machine, 1000.0 + i);
                }
                if (i > 4000 && i % 5 == 0) {
                  addSample(w, i - 4000, machine, 1000.0 + i - 4000);
                }
              }
              addSample(w, 17, machine, 3);
              w.flush();
              assertEquals(9000, w.added());
              assertEquals(3000 + 999, w.known());
            }
            return null;
          });
      assertEquals(1, refused.size());
      assertTrue(refused.get(0).startsWith("17 count4_per_mL 3.0 1017.0"), refused.get(0));
      assertEquals(9000 + 1, store.journal().last(1).get(0).made()); // and the machine
      // the index is there again
      importSamples(store, "ann", 9000, 9001);
    }
    assertEquals(9001, samples(where).size());
    try (Connection c = Database.of(where).writer();
        Statement s = c.createStatement()) {
      assertThrows(
          SQLException.class,
          () ->
              s.execute(
                  "INSERT INTO oil_sample (id, machine_id, at_ms, whole_day, sample_no, made_by)"
                      + " SELECT 99999, machine_id, at_ms, whole_day, sample_no, made_by"
                      + " FROM oil_sample WHERE id = 1"));
    } catch (SQLException e) {
      throw new IllegalStateException(e);
    }
  }

  private static void addSample(RecordWriter w, int i, long machine, double count)
      throws SQLException {
    w.add(i, machine, START_MS + i * DAY_MS, true, 8.0 * i, new Object[] {"L" + i, count});
  }

  @Test
  void theSameRowAgainIsKnownAndAnotherOfItsKeyIsRefused() {
    try (Store store = Store.open(where, CLOCK)) {
      importSamples(store, "ann", 0, 900);
      List<String> refused = new ArrayList<>();
      store.act(
          "ann",
          "import",
          "again",
          edits -> {
            long machine = edits.machines(false).get("EX-1");
            assertEquals(machine, edits.machines(true).get("S1"));
            try (RecordWriter w =
                edits.writer(
                    RecordKind.SAMPLE,
                    List.of(NO, COUNT4),
                    (row, column, found, expected) ->
                        refused.add(row + " " + column + " " + found + " " + expected))) {
              for (int i = 0; i < 1000; i++) {
                double count = i == 5 ? 7 : 1000.0 + i;
                w.add(
                    i,
                    machine,
                    START_MS + i * DAY_MS,
                    true,
                    8.0 * i,
                    new Object[] {"L" + i, count});
              }
              w.flush();
              assertEquals(100, w.added());
              assertEquals(899, w.known());
            }
            return null;
          });
      assertEquals(1, refused.size());
      assertTrue(refused.get(0).startsWith("5 count4_per_mL 7.0 1005.0"), refused.get(0));
      assertEquals(100, store.journal().last(1).get(0).made());
    }
    assertEquals(1000, samples(where).size());
  }

  @Test
  void whatFailsLeavesNothing() {
    try (Store store = Store.open(where, CLOCK)) {
      importSamples(store, "ann", 0, 10);
      assertThrows(
          IllegalStateException.class,
          () ->
              store.act(
                  "ann",
                  "import",
                  "half",
                  edits -> {
                    long machine = edits.set("EX-2", null, null, null, null).number();
                    try (RecordWriter w =
                        edits.writer(RecordKind.SAMPLE, List.of(COUNT4), (r, c, f, e) -> {})) {
                      for (int i = 0; i < 2000; i++) {
                        w.add(i, machine, START_MS + i, false, i, new Object[] {1.0});
                      }
                    }
                    throw new IllegalStateException("power cut");
                  }));
      assertEquals(1, store.journal().last(10).size());
      try (FleetHistory history = store.history()) {
        assertEquals(1, history.machines().size());
        assertEquals(10, history.count(RecordKind.SAMPLE, ""));
      }
    }
  }

  @Test
  void undoReachesAcrossSessionsAndCanBeUndone() {
    long first;
    try (Store store = Store.open(where, CLOCK)) {
      importSamples(store, "ann", 0, 10);
      first = importSamples(store, "bob", 10, 1500);
    }
    assertEquals(1500, samples(where).size());
    try (Store store = Store.openExisting(where, CLOCK)) {
      assertEquals("bob", store.undo(first, "cid").who());
    }
    assertEquals(10, samples(where).size());
    try (Store store = Store.openExisting(where, CLOCK)) {
      assertTrue(problem(() -> store.undo(first, "cid")).contains("taken back by"));
      Action undo = store.journal().last(1).get(0);
      assertEquals("undo", undo.verb());
      assertEquals(first, undo.undoes().getAsLong());
      store.undo(undo.number(), "ann");
    }
    List<OilSample> again = samples(where);
    assertEquals(1500, again.size());
    assertEquals(2499, again.get(1499).countsPerMl()[0]);
  }

  @Test
  void anUndoThatLaterWorkBuildsOnIsRefused() {
    try (Store store = Store.open(where, CLOCK)) {
      long first = importSamples(store, "ann", 0, 10);
      importSamples(store, "bob", 10, 20);
      assertTrue(
          problem(() -> store.undo(first, "cid")).contains("10 sample records of machines"),
          "the machine came with the first import");
      assertTrue(problem(() -> store.undo(99, "cid")).contains("action 99"));
    }
    assertEquals(20, samples(where).size());
  }

  @Test
  void anEditKeepsWhatWasBefore() {
    try (Store store = Store.open(where, CLOCK)) {
      importSamples(store, "ann", 0, 3);
      long record =
          store.journal().rows(1, 100).stream()
              .filter(r -> r.table().equals("oil_sample"))
              .findFirst()
              .orElseThrow()
              .number();
      long now =
          store.act(
              "bob",
              "amend",
              "sample",
              edits -> edits.amend(RecordKind.SAMPLE, record, Map.of(COUNT4, 5.0, NO, "L'0;--")));
      assertEquals(5, samples(where).get(0).countsPerMl()[0]);
      assertEquals("L'0;--", samples(where).get(0).sampleNo());
      List<Journal.Row> rows = store.journal().rows(2, 100);
      assertEquals(2, rows.size());
      assertFalse(rows.get(0).made());
      assertEquals("L0", rows.get(0).values().get("sample_no"));
      assertEquals("L'0;--", rows.get(1).values().get("sample_no"));
      assertEquals("EX-1", rows.get(1).values().get("machine"));
      store.undo(2, "bob");
      assertEquals(1000, samples(where).get(0).countsPerMl()[0]);
      String late =
          problem(
              () ->
                  store.act(
                      "cid",
                      "amend",
                      "sample",
                      edits -> edits.amend(RecordKind.SAMPLE, now, Map.of(COUNT4, 6.0))));
      assertTrue(late.contains("bob was first (undo, action 3"), late);
    }
  }

  @Test
  void twoWhoChangeOneRecordLoseNothing() {
    try (Store ann = Store.open(where, CLOCK);
        Store bob = Store.open(where, CLOCK)) {
      importSamples(ann, "ann", 0, 3);
      long record =
          ann.journal().rows(1, 100).stream()
              .filter(r -> r.table().equals("oil_sample"))
              .findFirst()
              .orElseThrow()
              .number();
      ann.act(
          "ann",
          "amend",
          "sample",
          edits -> edits.amend(RecordKind.SAMPLE, record, Map.of(COUNT4, 1.0)));
      String told =
          problem(
              () ->
                  bob.act(
                      "bob",
                      "remove",
                      "sample",
                      edits -> {
                        edits.remove(RecordKind.SAMPLE, record);
                        return null;
                      }));
      assertTrue(told.contains("ann was first (amend, action 2, 2026-03-01T12:00"), told);
      assertTrue(told.contains("nothing was saved, look again"), told);
      assertEquals(3, samples(where).size());
      assertEquals(1, samples(where).get(0).countsPerMl()[0]);
    }
  }

  @Test
  void manyAtOnceLoseNothing() throws Exception {
    Store.open(where, CLOCK).close();
    ExecutorService pool = Executors.newFixedThreadPool(4);
    try {
      List<Callable<Long>> work = new ArrayList<>();
      for (int t = 0; t < 4; t++) {
        int from = t * 500;
        work.add(
            () -> {
              try (Store store = Store.open(where, CLOCK)) {
                for (int i = 0; i < 10; i++) {
                  importSamples(store, "user" + from, from + 50 * i, from + 50 * i + 50);
                }
              }
              return 0L;
            });
      }
      for (Future<Long> f : pool.invokeAll(work)) {
        f.get();
      }
    } finally {
      pool.shutdown();
    }
    assertEquals(2000, samples(where).size());
  }

  /** A clock that was set back, stands still or jumps ahead: what came later stays later. */
  @Test
  void theOrderOfActionsIsNoMatterOfTheClock() {
    List<String> times =
        List.of("2026-03-01T12:00:00Z", "2019-01-01T00:00:00Z", "2099-02-28T23:59:59Z");
    for (int i = 0; i < times.size(); i++) {
      Clock clock = Clock.fixed(Instant.parse(times.get(i)), ZoneOffset.UTC);
      try (Store store = Store.open(where, clock)) {
        importSamples(store, "ann", 10 * i, 10 * i + 10);
      }
    }
    try (Store store = Store.open(where, CLOCK)) {
      List<Action> last = store.journal().last(10);
      assertEquals(List.of(3L, 2L, 1L), last.stream().map(Action::number).toList());
      assertEquals(
          List.of(times.get(2), times.get(1), times.get(0)),
          last.stream().map(a -> a.at().toString()).toList());
      assertEquals(30, samples(where).size());
      store.undo(2, "ann");
      List<OilSample> left = samples(where);
      assertEquals(20, left.size());
      assertEquals("L20", left.get(10).sampleNo());
    }
  }

  @Test
  void aSerialNumberBelongsToOneMachine() {
    try (Store store = Store.open(where, CLOCK)) {
      importSamples(store, "ann", 0, 3);
      String told =
          problem(
              () -> store.act("ann", "add", "EX-2", e -> e.set("EX-2", "S1", null, null, null)));
      assertTrue(told.contains("machine EX-1 has it"), told);
    }
  }

  @Test
  void readersSeeOneMoment() {
    try (Store store = Store.open(where, CLOCK)) {
      importSamples(store, "ann", 0, 3);
      try (FleetHistory history = store.history()) {
        assertEquals(3, history.count(RecordKind.SAMPLE, ""));
        List<String> nested = new ArrayList<>();
        history.samples("EX-1", s -> history.samples("EX-1", t -> nested.add(t.sampleNo())));
        assertEquals(9, nested.size());
      }
    }
  }

  @Test
  void anArchiveHoldsEverythingAndNeedsAnEmptyStore() throws Exception {
    ByteArrayOutputStream bytes = new ByteArrayOutputStream();
    try (Store store = Store.open(where, CLOCK)) {
      importSamples(store, "ann", 0, 700);
      store.act(
          "ann",
          "keep",
          "mapping",
          e -> {
            e.keepMapping("lab", "{}");
            return null;
          });
      store.undo(importSamples(store, "bob", 700, 900), "bob");
      assertEquals(900, store.archive().write(bytes).get("oil_sample"));
      String full = problem(() -> restore(store, bytes.toByteArray()));
      assertTrue(full.contains("expected an empty one"), full);
    }
    String copy = fresh(folder);
    try (Store store = Store.open(copy, CLOCK)) {
      byte[] cut = java.util.Arrays.copyOf(bytes.toByteArray(), bytes.size() / 2);
      assertThrows(Exception.class, () -> restore(store, cut));
      assertEquals(0, store.journal().last(10).size());
      restore(store, bytes.toByteArray());
      assertEquals(700, samples(copy).size());
      assertEquals("{}", store.mapping("lab").orElseThrow());
      importSamples(store, "cid", 900, 910);
      store.undo(4, "cid");
      ByteArrayOutputStream again = new ByteArrayOutputStream();
      store.archive().write(again);
      assertTrue(again.size() > bytes.size());
    }
  }

  static Map<String, Long> restore(Store store, byte[] bytes) {
    try {
      return store.archive().restore(new ByteArrayInputStream(bytes), "archive.zip");
    } catch (java.io.IOException e) {
      throw new java.io.UncheckedIOException(e);
    }
  }

  @Test
  void anOlderStoreIsMigratedAfterACopyIsMade() throws Exception {
    try (Store store = Store.open(where, CLOCK)) {
      importSamples(store, "ann", 0, 3);
    }
    Schema next = next("ALTER TABLE oil_sample ADD COLUMN colour TEXT");
    try (Store store = Store.open(Database.of(where), next, CLOCK)) {
      String note = store.note().orElseThrow();
      assertTrue(note.contains("brought from version 1 to 2"), note);
    }
    String told = problem(() -> Store.open(where, CLOCK));
    assertTrue(told.contains("found version 2 of a store; expected at most 1"), told);
    assertTrue(told.contains("use Siltwright 9.1 or later"), told);
    assertTrue(problem(() -> Store.read(where)).contains("use Siltwright 9.1"));
  }

  @Test
  void aMigrationThatFailsChangesNothing() {
    try (Store store = Store.open(where, CLOCK)) {
      importSamples(store, "ann", 0, 3);
    }
    Schema bad = next("ALTER TABLE oil_sample ADD COLUMN colour TEXT; NO SUCH STATEMENT");
    assertThrows(RuntimeException.class, () -> Store.open(Database.of(where), bad, CLOCK));
    assertEquals(3, samples(where).size());
  }

  static Schema next(String statements) {
    String first;
    try (var in = Schema.class.getResourceAsStream("schema/1.sql")) {
      first = new String(in.readAllBytes(), java.nio.charset.StandardCharsets.UTF_8);
    } catch (java.io.IOException e) {
      throw new java.io.UncheckedIOException(e);
    }
    return new Schema(List.of(first, "-- needs Siltwright 9.1\n" + statements));
  }

  @Test
  void tablesOfAnotherProgramAreLeftAlone() throws SQLException {
    Database database = Database.of(where);
    try (Connection c = database.writer();
        Statement s = c.createStatement()) {
      database.begin(c);
      database.lockToPrepare(c);
      s.execute("CREATE TABLE theirs (n INTEGER)");
      database.commit(c);
    }
    assertTrue(problem(() -> Store.open(where, CLOCK)).contains("tables of another program"));
  }

  @Test
  void columnsAreThoseOfTheRecords() throws SQLException {
    try (Store store = Store.open(where, CLOCK)) {
      assertTrue(store.note().isEmpty());
    }
    try (Connection c = Database.of(where).reader();
        Statement s = c.createStatement()) {
      for (Versioned table : Versioned.all()) {
        s.executeQuery("SELECT id, " + table.list() + ", made_by, ended_by FROM " + table.table())
            .close();
      }
    }
  }

  @Test
  void aMeterIsMendedFromAllRecordsThatShowIt() {
    try (Store store = Store.open(where, CLOCK)) {
      store.act(
          "ann",
          "import",
          "meter",
          edits -> {
            long machine = edits.set("EX-1", null, null, null, null).number();
            try (RecordWriter w = edits.writer(RecordKind.METER, List.of(), (r, c, f, e) -> {})) {
              double[] shown = {1000, 1100, 30, 130};
              for (int i = 0; i < shown.length; i++) {
                w.add(i, machine, START_MS + 10 * i * DAY_MS, true, shown[i], new Object[0]);
              }
              w.flush();
            }
            return null;
          });
    }
    try (FleetHistory history = Store.read(where)) {
      List<MeterMend> mends = history.mends("EX-1");
      assertEquals(1, mends.size());
      assertEquals(MeterMend.Taken.REPLACED, mends.get(0).taken());
      List<Double> hours = new ArrayList<>();
      history.readings("EX-1", r -> hours.add(r.moment().hoursH()));
      assertEquals(List.of(1000.0, 1100.0, 1130.0, 1230.0), hours);
    }
  }

  @Test
  void anyOrderOfEditsAndUndosKeepsOneLiveRowAKey() {
    Random random = new Random(5);
    try (Store store = Store.open(where, CLOCK)) {
      importSamples(store, "ann", 0, 20);
      int failed = 0;
      for (int i = 0; i < 60; i++) {
        try {
          int from = random.nextInt(40);
          if (random.nextBoolean()) {
            importSamples(store, "bob", from, from + random.nextInt(10));
          } else {
            store.undo(1 + random.nextInt(store.journal().last(1000).size()), "cid");
          }
        } catch (InputException e) {
          failed++;
        }
        List<OilSample> now = samples(where);
        assertEquals(now.size(), now.stream().map(OilSample::sampleNo).distinct().count());
      }
      assertTrue(failed < 60);
    }
  }
}
