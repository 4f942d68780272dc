package siltwright.store;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;

import java.io.ByteArrayInputStream;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.io.InputStream;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.time.Clock;
import java.time.Instant;
import java.time.ZoneOffset;
import java.util.Optional;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import siltwright.model.InputException;
import siltwright.model.history.FleetHistory;
import siltwright.model.history.KnownMachine;
import siltwright.model.history.RecordKind;
import siltwright.model.testing.Fuzz;
import siltwright.model.testing.Mutation;

/**
 * Whatever an archive holds, it fills a store that can be read, written to and archived again, or
 * is refused, and then the store is as empty as before.
 */
class ArchiveFuzzTest {
  private static final Clock CLOCK =
      Clock.fixed(Instant.parse("2026-01-02T03:04:05Z"), ZoneOffset.UTC);

  @TempDir Path folder;
  private Path empty;
  private byte[] nothing;

  @BeforeEach
  void makeStore() throws IOException {
    empty = folder.resolve("empty.db");
    try (Store store = Store.open(empty.toString(), CLOCK)) {
      nothing = archived(store);
    }
  }

  @Test
  void anyArchiveFillsAStoreOrIsRefused() throws Exception {
    Fuzz.of("archive", Mutation.ZIP, this::read).run(120);
  }

  private Optional<String> read(Path file) throws IOException {
    byte[] first;
    try (Store store = open("first.db")) {
      try (InputStream in = Files.newInputStream(file)) {
        store.archive().restore(in, file.toString());
      } catch (InputException e) {
        assertArrayEquals(nothing, archived(store));
        return Optional.of(e.getMessage());
      }
      first = archived(store);
      readAll(store);
      store.undo(store.act("ann", "import", "machines", ArchiveFuzzTest::add), "ann");
    }
    try (Store store = open("second.db")) {
      store.archive().restore(new ByteArrayInputStream(first), "first");
      assertArrayEquals(first, archived(store));
    }
    return Optional.empty();
  }

  private Store open(String name) throws IOException {
    Path file = folder.resolve(name);
    Files.copy(empty, file, StandardCopyOption.REPLACE_EXISTING);
    return Store.open(file.toString(), CLOCK);
  }

  private static byte[] archived(Store store) throws IOException {
    ByteArrayOutputStream bytes = new ByteArrayOutputStream();
    store.archive().write(bytes);
    return bytes.toByteArray();
  }

  private static long add(Edits edits) throws java.sql.SQLException {
    edits.set("a machine that no archive has", null, null, null, null);
    return edits.number();
  }

  private static void readAll(Store store) {
    store.journal().last(50).forEach(a -> store.journal().rows(a.number(), 50));
    store.mappings().forEach(store::mapping);
    try (FleetHistory history = store.history()) {
      history.mends();
      for (KnownMachine machine : history.machines()) {
        history.mends(machine.id());
        for (RecordKind kind : RecordKind.values()) {
          history.records(kind, machine.id(), (moment, values) -> moment.toString());
        }
      }
    }
  }
}
