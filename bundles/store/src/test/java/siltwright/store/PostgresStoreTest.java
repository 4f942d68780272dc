package siltwright.store;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.file.Path;
import org.junit.jupiter.api.Test;

/** The store on a real server. */
class PostgresStoreTest extends StoreContract {
  @Override
  String fresh(Path folder) {
    return PostgresCluster.newDatabase();
  }

  @Test
  void aServerThatGoesAndComesBackLosesNothing() {
    PostgresCluster cluster = PostgresCluster.start();
    String there = cluster.database();
    try (Store store = Store.open(there, CLOCK)) {
      importSamples(store, "ann", 0, 10);
      cluster.down();
      String told = problem(() -> importSamples(store, "ann", 10, 20));
      assertTrue(told.contains("no server, or one that went away"), told);
      cluster.up();
      importSamples(store, "ann", 10, 20);
      assertEquals(20, samples(there).size());
      String halfway =
          problem(
              () ->
                  store.act(
                      "ann",
                      "import",
                      "half",
                      edits -> {
                        edits.set("EX-9", null, null, null, null);
                        cluster.down();
                        cluster.up();
                        return edits.set("EX-10", null, null, null, null);
                      }));
      assertTrue(halfway.contains("went away"), halfway);
      assertEquals(2, store.journal().last(10).size());
      importSamples(store, "ann", 20, 30);
      assertEquals(30, samples(there).size());
    }
    cluster.down();
    assertTrue(problem(() -> Store.open(there, CLOCK)).contains("no server"));
  }

  @Test
  void aPasswordIsNotTold() {
    String told =
        problem(() -> Store.open("jdbc:postgresql://127.0.0.1:1/x?password=s3cret", CLOCK));
    assertTrue(told.startsWith("jdbc:postgresql://127.0.0.1:1/x: "), told);
  }
}
