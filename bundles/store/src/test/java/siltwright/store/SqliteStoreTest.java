package siltwright.store;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.file.Files;
import java.nio.file.Path;
import org.junit.jupiter.api.Test;

/** The store in a file. */
class SqliteStoreTest extends StoreContract {
  private int stores;

  @Override
  String fresh(Path folder) {
    return folder.resolve("fleet" + ++stores + ".db").toString();
  }

  @Test
  void aFileDeletedMeanwhileIsNoticed() throws Exception {
    try (Store store = Store.open(where, CLOCK)) {
      importSamples(store, "ann", 0, 3);
      Files.delete(Path.of(where));
      String told = problem(() -> importSamples(store, "ann", 3, 6));
      assertTrue(told.contains("deleted or replaced while in use"), told);
    }
    assertFalse(Files.exists(Path.of(where)), "it is not made anew unasked");
    assertTrue(problem(() -> Store.openExisting(where, CLOCK)).contains("a store that is there"));
    assertTrue(problem(() -> Store.read(where)).contains("a store that is there"));
  }

  @Test
  void otherFilesAreLeftAsTheyAre() throws Exception {
    Path file = folder.resolve("letter.txt");
    Files.writeString(file, "Dear crew, this is no store at all.");
    assertTrue(
        problem(() -> Store.open(file.toString(), CLOCK)).contains("a file of another kind"));
    assertEquals("Dear crew, this is no store at all.", Files.readString(file));
    assertTrue(problem(() -> Store.open(folder.toString(), CLOCK)).contains("found a folder"));
    assertTrue(
        problem(() -> Store.open(folder.resolve("no/store.db").toString(), CLOCK))
            .contains("no folder"));
    assertTrue(problem(() -> Store.open("a?b", CLOCK)).contains("option --store"));
    assertTrue(problem(() -> Store.open("jdbc:other:x", CLOCK)).contains("option --store"));
  }

  @Test
  void aDamagedFileIsTold() throws Exception {
    try (Store store = Store.open(where, CLOCK)) {
      importSamples(store, "ann", 0, 3000);
    }
    byte[] bytes = Files.readAllBytes(Path.of(where));
    for (int i = 4096; i < bytes.length; i++) {
      bytes[i] = (byte) (i * 31);
    }
    Files.write(Path.of(where), bytes);
    assertTrue(problem(() -> samples(where)).contains("damaged"));
  }

  @Test
  void aCopyFromBeforeAMigrationOpens() throws Exception {
    try (Store store = Store.open(where, CLOCK)) {
      importSamples(store, "ann", 0, 3);
    }
    Store.open(Database.of(where), next("CREATE TABLE more (n INTEGER)"), CLOCK).close();
    assertEquals(3, samples(where + ".v1").size());
  }
}
