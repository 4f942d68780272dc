package siltwright.transfer;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.BufferedReader;
import java.io.IOException;
import java.io.InputStreamReader;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.time.Clock;
import java.util.Random;
import java.util.concurrent.TimeUnit;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import siltwright.model.history.FleetHistory;
import siltwright.model.history.RecordKind;
import siltwright.store.Store;

/**
 * A process killed at a random moment leaves all of what it did, or nothing. {@code
 * -Dsiltwright.kills=50} kills as often; the seed is that of the run.
 */
class KillTest {
  private static final int KILLS = Integer.getInteger("siltwright.kills", 2);
  private static final int ROWS = 60_000;

  @TempDir Path folder;

  private Path table() throws IOException {
    StringBuilder text = new StringBuilder("machine,date,sample_no,meter_h,count4_per_mL\n");
    for (int i = 0; i < ROWS; i++) {
      text.append("EX-").append(i % 50).append(",2024-01-01,L").append(i).append(",8,1000\n");
    }
    return Files.writeString(folder.resolve("samples.csv"), text);
  }

  /** Runs the victim; kills it after a time from its beginning, unless that is negative. */
  private static long run(String what, Path store, Path file, long killMs)
      throws IOException, InterruptedException {
    Process process =
        new ProcessBuilder(
                Path.of(System.getProperty("java.home"), "bin", "java").toString(),
                "-Xmx256m",
                "-XX:TieredStopAtLevel=1",
                "-cp",
                System.getProperty("java.class.path"),
                Victim.class.getName(),
                what,
                store.toString(),
                file.toString())
            .redirectError(ProcessBuilder.Redirect.DISCARD)
            .start();
    try (BufferedReader out = new BufferedReader(new InputStreamReader(process.getInputStream()))) {
      assertEquals("begun", out.readLine());
      long begun = System.nanoTime();
      if (killMs >= 0) {
        process.waitFor(killMs, TimeUnit.MILLISECONDS);
        process.destroyForcibly();
      }
      process.waitFor();
      return (System.nanoTime() - begun) / 1_000_000;
    }
  }

  private static long[] held(Path store) {
    long[] held = new long[2];
    try (Store s = Store.open(store.toString(), Clock.systemUTC());
        FleetHistory history = s.history()) {
      held[0] = history.count(RecordKind.SAMPLE, "");
      held[1] = s.journal().last(10).size();
    }
    return held;
  }

  @Test
  void importsAreAllOrNothing() throws Exception {
    Path file = table();
    long whole = run("import", folder.resolve("whole.db"), file, -1);
    long seed = System.nanoTime();
    Random random = new Random(seed);
    int nothing = 0;
    for (int i = 0; i < KILLS; i++) {
      Path store = folder.resolve("k" + i + ".db");
      run("import", store, file, (long) (1.2 * whole * random.nextDouble()));
      long[] held = held(store);
      boolean none = held[0] == 0 && held[1] == 0;
      nothing += none ? 1 : 0;
      assertTrue(none || held[0] == ROWS && held[1] == 1, held[0] + " rows, seed " + seed);
      // and it can go on
      if (i == 0) {
        run("import", store, file, -1);
        assertEquals(ROWS, held(store)[0]);
      }
    }
    System.out.println(KILLS + " imports killed, " + nothing + " left nothing");
  }

  @Test
  void editsAreAllOrNothing() throws Exception {
    Path file = table();
    Path whole = folder.resolve("whole.db");
    run("import", whole, file, -1);
    Path edited = folder.resolve("edited.db");
    Files.copy(whole, edited);
    long time = run("amend", edited, file, -1);
    long seed = System.nanoTime();
    Random random = new Random(seed);
    int nothing = 0;
    for (int i = 0; i < KILLS; i++) {
      Path store = folder.resolve("e.db");
      Files.copy(whole, store, StandardCopyOption.REPLACE_EXISTING);
      Files.deleteIfExists(folder.resolve("e.db-journal"));
      run("amend", store, file, (long) (1.2 * time * random.nextDouble()));
      long[] held = held(store);
      assertEquals(ROWS, held[0], "seed " + seed);
      long[] changed = new long[1];
      try (FleetHistory history = Store.read(store.toString())) {
        for (var m : history.machines()) {
          history.samples(m.id(), s -> changed[0] += s.countsPerMl()[0] < 0 ? 1 : 0);
        }
      }
      assertTrue(
          changed[0] == 0 && held[1] == 1 || changed[0] == 20_000 && held[1] == 2,
          changed[0] + " changed, seed " + seed);
      nothing += changed[0] == 0 ? 1 : 0;
    }
    System.out.println(KILLS + " edits killed, " + nothing + " left nothing");
  }
}
