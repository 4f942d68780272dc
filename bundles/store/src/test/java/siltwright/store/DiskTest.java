package siltwright.store;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.sql.SQLException;
import java.util.Random;
import java.util.concurrent.TimeUnit;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import siltwright.model.InputException;

/** A store on a disk that is full, and one killed while it is migrated. */
class DiskTest {
  private static final int KILLS = Integer.getInteger("siltwright.kills", 2);

  @TempDir Path folder;

  /** Mounts a disk of 2 MiB in memory; false without the right to. */
  private static boolean mount(Path disk) throws Exception {
    return new ProcessBuilder("mount", "-t", "tmpfs", "-o", "size=2m", "tmpfs", disk.toString())
            .redirectErrorStream(true)
            .start()
            .waitFor()
        == 0;
  }

  /** What a store does that has no more room: nothing, and then goes on. */
  private static String fill(Store store, String where) {
    StoreContract.importSamples(store, "ann", 0, 100);
    String told =
        StoreContract.problem(() -> StoreContract.importSamples(store, "ann", 100, 100_000));
    assertTrue(told.contains("nothing was saved"), told);
    assertEquals(100, count(where));
    StoreContract.importSamples(store, "ann", 100, 110);
    return told;
  }

  /** The database itself finds no room: a limit of its pages stands for the end of the disk. */
  @Test
  void aFullDatabaseLosesNothing() {
    String where = folder.resolve("fleet.db").toString();
    var limited = StoreContract.next("PRAGMA max_page_count = 500");
    try (Store store = Store.open(Database.of(where), limited, StoreContract.CLOCK)) {
      assertTrue(fill(store, where).contains("a full disk"));
    }
    assertEquals(110, count(where));
  }

  /** Fills the store that it is given, and prints what it told. */
  public static final class Filler {
    private Filler() {}

    /**
     * Runs.
     *
     * @param arguments the store
     */
    public static void main(String[] arguments) {
      try (Store store = Store.open(arguments[0], StoreContract.CLOCK)) {
        System.out.println(fill(store, arguments[0]));
      }
    }
  }

  /** The system refuses to write on: a process whose files may have 4 MiB (POSIX ulimit). */
  @Test
  void aDiskThatRefusesLosesNothing() throws Exception {
    String where = folder.resolve("fleet.db").toString();
    Path said = folder.resolve("said");
    Process process =
        new ProcessBuilder(
                "sh",
                "-c",
                "ulimit -f 8192 && exec \"$@\"",
                "sh",
                Path.of(System.getProperty("java.home"), "bin", "java").toString(),
                "-XX:TieredStopAtLevel=1",
                "-cp",
                System.getProperty("java.class.path"),
                Filler.class.getName(),
                where)
            .redirectErrorStream(true)
            .redirectOutput(said.toFile())
            .start();
    assertEquals(0, process.waitFor(), () -> read(said));
    assertTrue(read(said).contains("a disk that fails or is full"), read(said));
    assertEquals(110, count(where));
  }

  private static int count(String where) {
    try (var c = Database.of(where).reader()) {
      return Database.number(c, "SELECT count(*) FROM oil_sample");
    } catch (SQLException e) {
      throw new IllegalStateException(e);
    }
  }

  private static String read(Path file) {
    try {
      return Files.readString(file);
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  /** A disk that is really full, where the test may mount one. */
  @Test
  void aFullDiskLosesNothing() throws Exception {
    Path disk = Files.createDirectory(folder.resolve("disk"));
    if (!mount(disk)) {
      return; // the two above stand for it
    }
    try {
      String where = disk.resolve("fleet.db").toString();
      try (Store store = Store.open(where, StoreContract.CLOCK)) {
        String told = fill(store, where);
        assertTrue(told.contains("full"), told);
      }
      assertEquals(110, count(where));
    } finally {
      new ProcessBuilder("umount", disk.toString()).start().waitFor();
    }
  }

  /** The user may not write: by the file's permissions, or for one who may all, by the disk's. */
  @Test
  void aReadOnlyStoreIsReadAndLeftAsItIs() throws Exception {
    Path disk = Files.createDirectory(folder.resolve("disk"));
    boolean mounted = mount(disk);
    Path file = disk.resolve("fleet.db");
    try {
      try (Store store = Store.open(file.toString(), StoreContract.CLOCK)) {
        StoreContract.importSamples(store, "ann", 0, 10);
      }
      assertTrue(file.toFile().setReadOnly());
      if (mounted) {
        new ProcessBuilder("mount", "-o", "remount,ro", disk.toString()).start().waitFor();
      }
      String told = StoreContract.problem(() -> Store.open(file.toString(), StoreContract.CLOCK));
      assertTrue(told.contains("cannot be written"), told);
      assertEquals(10, StoreContract.samples(file.toString()).size());
    } finally {
      if (mounted) {
        new ProcessBuilder("umount", disk.toString()).start().waitFor();
      }
    }
  }

  /** Migrates the store that it is given. */
  public static final class Victim {
    private Victim() {}

    /**
     * Runs.
     *
     * @param arguments the store
     */
    public static void main(String[] arguments) {
      StringBuilder statements = new StringBuilder("ALTER TABLE oil_sample ADD COLUMN colour TEXT");
      for (int i = 0; i < 40; i++) {
        statements.append("; UPDATE oil_sample SET colour = 'amber ").append(i).append("'");
      }
      System.out.println("begun");
      Store.open(
              Database.of(arguments[0]),
              StoreContract.next(statements.toString()),
              StoreContract.CLOCK)
          .close();
    }
  }

  private static long migrate(Path store, long killMs) throws Exception {
    Process process =
        new ProcessBuilder(
                Path.of(System.getProperty("java.home"), "bin", "java").toString(),
                "-XX:TieredStopAtLevel=1",
                "-cp",
                System.getProperty("java.class.path"),
                Victim.class.getName(),
                store.toString())
            .redirectError(ProcessBuilder.Redirect.DISCARD)
            .start();
    process.getInputStream().read();
    long begun = System.nanoTime();
    if (killMs >= 0) {
      process.waitFor(killMs, TimeUnit.MILLISECONDS);
      process.destroyForcibly();
    }
    process.waitFor();
    return (System.nanoTime() - begun) / 1_000_000;
  }

  @Test
  void aMigrationIsAllOrNothing() throws Exception {
    Path old = folder.resolve("old.db");
    try (Store store = Store.open(old.toString(), StoreContract.CLOCK)) {
      StoreContract.importSamples(store, "ann", 0, 5000);
    }
    Path whole = folder.resolve("whole.db");
    Files.copy(old, whole);
    long time = migrate(whole, -1);
    long seed = System.nanoTime();
    Random random = new Random(seed);
    int nothing = 0;
    for (int i = 0; i < KILLS; i++) {
      Path store = folder.resolve("m" + i + ".db");
      Files.copy(old, store, StandardCopyOption.REPLACE_EXISTING);
      migrate(store, (long) (1.2 * time * random.nextDouble()));
      boolean migrated;
      try {
        Store.open(store.toString(), StoreContract.CLOCK).close();
        migrated = false;
      } catch (InputException e) {
        assertTrue(e.getMessage().contains("found version 2"), e.getMessage());
        migrated = true;
      }
      if (!migrated) {
        assertEquals(5000, StoreContract.samples(store.toString()).size());
      }
      assertEquals(
          migrated ? 1 : 0, columns(store), "the column goes with the version, seed " + seed);
      nothing += migrated ? 0 : 1;
    }
    System.out.println(KILLS + " migrations killed, " + nothing + " left nothing");
  }

  private static int columns(Path store) throws Exception {
    try (var c = Database.of(store.toString()).reader();
        var s = c.createStatement();
        var r =
            s.executeQuery(
                "SELECT count(*) FROM pragma_table_info('oil_sample') WHERE name = 'colour'")) {
      r.next();
      return r.getInt(1);
    }
  }
}
