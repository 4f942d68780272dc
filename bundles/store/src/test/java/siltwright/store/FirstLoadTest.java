package siltwright.store;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertNotEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.file.Path;
import java.sql.Connection;
import java.util.HashSet;
import java.util.Set;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

class FirstLoadTest {
  @TempDir Path folder;

  private FirstLoad load(Connection c) throws Exception {
    return FirstLoad.begin(Database.of(where()), c, "oil_sample");
  }

  private String where() {
    return folder.resolve("l.db").toString();
  }

  @Test
  void recordsOfOneHashAreAllFound() throws Exception {
    Store.open(where(), StoreContract.CLOCK).close();
    try (Connection c = Database.of(where()).writer()) {
      FirstLoad load = load(c);
      for (int i = 0; i < 100_000; i++) {
        load.add(i % 3 == 0 ? 42 : i * 0x9E3779B97F4A7C15L | 1);
      }
      Set<Integer> found = new HashSet<>();
      for (int at = load.find(42, FirstLoad.start(42)); at >= 0; at = load.find(42, at + 1)) {
        assertTrue(found.add(load.number(at)));
      }
      assertEquals(33_334, found.size());
      assertTrue(found.stream().allMatch(n -> n % 3 == 1));
      assertEquals(100_000, load.size());
      load.end();
    }
  }

  @Test
  void hashesOfKeysDiffer() {
    Set<Long> hashes = new HashSet<>();
    for (int machine = 1; machine <= 50; machine++) {
      for (int day = 0; day < 200; day++) {
        for (String key : new String[] {"", "a", "b", "Aa", "BB"}) {
          hashes.add(FirstLoad.hash(machine, day * 86_400_000L, key));
        }
      }
    }
    assertEquals(50 * 200 * 5, hashes.size());
    assertNotEquals(0, FirstLoad.hash(0, 0, ""));
  }
}
