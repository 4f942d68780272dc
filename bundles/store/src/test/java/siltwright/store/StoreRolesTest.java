package siltwright.store;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;
import static siltwright.store.StoreContract.CLOCK;
import static siltwright.store.StoreContract.importSamples;
import static siltwright.store.StoreContract.problem;
import static siltwright.store.StoreContract.samples;

import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.attribute.PosixFilePermissions;
import java.sql.Connection;
import java.sql.DriverManager;
import java.sql.SQLException;
import java.sql.Statement;
import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.AfterAll;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import siltwright.analysis.Context;
import siltwright.analysis.Progress;
import siltwright.analysis.Values;
import siltwright.model.history.FleetHistory;
import siltwright.store.internal.HistoryAnalysis;

/** The roles of {@code docs/store-roles.sql} on a real server that asks for passwords. */
class StoreRolesTest {
  private static final Path SCRIPT = Path.of("../../docs/store-roles.sql");
  private static final String REFUSED = "a user without the right to do that";
  private static final String PASSWORDS = "org.postgresql.pgpassfile";
  private static final String SECRET = "tin-Whistle-77";

  @TempDir static Path folder;
  private static String admin;
  private static String owner;
  private static String writer;
  private static String reader;

  @BeforeAll
  static void grant() throws Exception {
    admin = PostgresCluster.newDatabase();
    owner = admin.replace("user=crew", "user=siltwright_owner");
    writer = admin.replace("user=crew", "user=ann");
    reader = admin.replace("user=crew", "user=ben");
    Path passwords = Files.writeString(folder.resolve("passwords"), "*:*:*:*:" + SECRET + "\n");
    Files.setPosixFilePermissions(passwords, PosixFilePermissions.fromString("rw-------"));
    System.setProperty(PASSWORDS, passwords.toString());
    asAdmin(Files.readString(SCRIPT));
    asAdmin("ALTER ROLE siltwright_owner PASSWORD '" + SECRET + "'");
    asAdmin("CREATE ROLE ann LOGIN IN ROLE siltwright_writer PASSWORD '" + SECRET + "'");
    asAdmin("CREATE ROLE ben LOGIN IN ROLE siltwright_reader PASSWORD '" + SECRET + "'");
    String early = problem(() -> Store.open(writer, CLOCK));
    assertTrue(early.contains(REFUSED), early);
    Store.open(owner, CLOCK).close();
    asAdmin(Files.readString(SCRIPT));
    try (Store store = Store.open(writer, CLOCK)) {
      importSamples(store, "ann", 0, 50);
    }
  }

  @AfterAll
  static void forget() {
    System.clearProperty(PASSWORDS);
  }

  private static void asAdmin(String statements) throws SQLException {
    execute(admin, statements);
  }

  private static void execute(String where, String statements) throws SQLException {
    try (Connection c = DriverManager.getConnection(where);
        Statement s = c.createStatement()) {
      s.execute(statements);
    }
  }

  private static byte[] archived(String where) {
    try (Store store = Store.openExisting(where, CLOCK)) {
      ByteArrayOutputStream bytes = new ByteArrayOutputStream();
      store.archive().write(bytes);
      return bytes.toByteArray();
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  /** What export and all analyses of records read, history, journal, archive, a mapping. */
  @Test
  void aReaderReadsAllThereIs() {
    assertEquals(samples(writer).size(), samples(reader).size());
    try (FleetHistory history = Store.read(reader)) {
      HistoryAnalysis analysis = new HistoryAnalysis();
      assertFalse(
          analysis
              .run(Context.of(history), Values.of(analysis.description(), Map.of()), Progress.NONE)
              .entries()
              .isEmpty());
    }
    try (Store store = Store.openExisting(reader, CLOCK)) {
      assertFalse(store.journal().last(10).isEmpty());
      assertTrue(store.mappings().size() <= 1);
      assertTrue(store.mapping("none").isEmpty());
    }
    assertTrue(archived(reader).length > 500);
  }

  @Test
  void aReaderIsRefusedWritingWithOneLine() {
    int before = samples(reader).size();
    try (Store store = Store.openExisting(reader, CLOCK)) {
      for (String told :
          List.of(
              problem(() -> importSamples(store, "ben", 100, 110)),
              problem(() -> store.undo(1, "ben")),
              problem(() -> store.act("ben", "import", "mapping", e -> kept(e))))) {
        assertTrue(told.startsWith(admin.replaceFirst("[?].*", "") + ": "), told);
        assertTrue(told.contains(REFUSED), told);
        assertEquals(1, told.lines().count(), told);
      }
    }
    assertEquals(before, samples(reader).size());
  }

  private static int kept(Edits edits) throws SQLException {
    edits.keepMapping("lab", "{}");
    return 0;
  }

  @Test
  void aWriterWritesAmendsAndUndoes() {
    int before = samples(reader).size();
    try (Store store = Store.openExisting(writer, CLOCK)) {
      long action = importSamples(store, "ann", 60, 70);
      store.act("ann", "import", "mapping", StoreRolesTest::kept);
      assertEquals(before + 10, samples(reader).size());
      store.undo(action, "ann");
    }
    assertEquals(before, samples(reader).size());
  }

  /** 42501 is the server's code of a right that is lacking. */
  @ParameterizedTest
  @ValueSource(
      strings = {
        "ALTER TABLE siltwright.oil_sample ADD COLUMN more TEXT",
        "DROP TABLE siltwright.fault_report",
        "CREATE TABLE siltwright.more (id INTEGER)",
        "CREATE TABLE public.more (id INTEGER)",
        "CREATE SCHEMA more",
        "DROP INDEX siltwright.oil_sample_live",
        "TRUNCATE siltwright.oil_sample",
        "DELETE FROM siltwright.oil_sample",
        "DELETE FROM siltwright.action",
        "UPDATE siltwright.oil_sample SET count4_per_ml = 1",
        "UPDATE siltwright.action SET who = 'another'",
        "INSERT INTO siltwright.store_version VALUES (99, 'x', 0)",
        "UPDATE siltwright.store_version SET version = 99"
      })
  void aWriterNeitherAltersTheTablesNorRewritesWhatIsThere(String statement) {
    for (String where : List.of(writer, reader)) {
      SQLException e = assertThrows(SQLException.class, () -> execute(where, statement));
      assertEquals("42501", e.getSQLState(), e.getMessage());
    }
  }

  @Test
  void onlyTheOwnerMakesAndMigratesTables() {
    Schema next = StoreContract.next("CREATE TABLE more (id INTEGER)");
    for (String where : List.of(writer, reader)) {
      String told = problem(() -> Store.open(Database.of(where), next, CLOCK));
      assertTrue(told.contains(REFUSED), told);
    }
  }

  /** An archive holds numbers of rows, after which the owner's tables go on. */
  @Test
  void onlyTheOwnerRestores() throws Exception {
    byte[] archive = archived(reader);
    String empty = PostgresCluster.newDatabase();
    String user = empty.replace("user=crew", "user=siltwright_owner");
    execute(empty, Files.readString(SCRIPT));
    Store.open(user, CLOCK).close();
    execute(empty, Files.readString(SCRIPT));
    try (Store store = Store.openExisting(empty.replace("user=crew", "user=ann"), CLOCK)) {
      String told = problem(() -> StoreContract.restore(store, archive));
      assertTrue(told.contains(REFUSED), told);
    }
    try (Store store = Store.openExisting(user, CLOCK)) {
      StoreContract.restore(store, archive);
    }
    assertEquals(samples(reader).size(), samples(empty.replace("user=crew", "user=ben")).size());
  }

  @Test
  void aStrangerSeesNothing() throws Exception {
    asAdmin("CREATE ROLE eve LOGIN PASSWORD '" + SECRET + "'");
    String told = problem(() -> Store.read(admin.replace("user=crew", "user=eve")));
    assertTrue(told.contains(REFUSED), told);
  }

  @Test
  void aPasswordThatLacksOrIsWrongIsSaidAndNotTold() throws Exception {
    String passwords = System.getProperty(PASSWORDS);
    try {
      Path wrong = Files.writeString(folder.resolve("wrong"), "*:*:*:*:" + SECRET + "x\n");
      Files.setPosixFilePermissions(wrong, PosixFilePermissions.fromString("rw-------"));
      System.setProperty(PASSWORDS, wrong.toString());
      String told = problem(() -> Store.read(reader));
      assertTrue(told.contains("a user or password refused"), told);
      assertFalse(told.contains(SECRET), told);
      System.setProperty(PASSWORDS, folder.resolve("none").toString());
      told = problem(() -> Store.read(reader));
      assertTrue(told.contains("wants a password and was given none"), told);
    } finally {
      System.setProperty(PASSWORDS, passwords);
    }
  }
}
