package siltwright.launcher;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertNotEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.channels.FileChannel;
import java.nio.channels.FileLock;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardOpenOption;
import java.util.List;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

class StorageTest {

  /** Above what any system gives: Linux stops at 2^22, Windows at 2^32. */
  private static final long NO_PROCESS = 1L << 40;

  @TempDir Path parent;

  @Test
  void foldersOfOneProcessDifferAndGoWithTheirContents() throws Exception {
    Storage first = Storage.create(parent);
    Storage second = Storage.create(parent);
    assertNotEquals(first.framework(), second.framework());
    Files.createDirectories(first.framework().resolve("bundle0"));
    Files.writeString(first.framework().resolve("bundle0/data"), "x");
    first.close();
    assertEquals(List.of(second.framework().getParent()), entries());
    second.close();
    assertEquals(List.of(), entries());
  }

  @Test
  void aPlaceThatTheUserNamesGoesFirst() {
    String before = System.setProperty("java.io.tmpdir", parent.toString());
    try {
      assertEquals(parent, Storage.place());
    } finally {
      System.setProperty("java.io.tmpdir", before);
    }
  }

  @Test
  void leftoverOfADeadProcessIsRemoved() throws Exception {
    Files.writeString(folder("siltwright-" + NO_PROCESS + "-1").resolve("lock"), "");
    Storage.create(parent).close();
    assertEquals(List.of(), entries());
  }

  @Test
  void whatIsLockedOrAliveOrStrangeStays() throws Exception {
    Path locked = folder("siltwright-" + NO_PROCESS + "-2");
    Path alive = folder("siltwright-" + ProcessHandle.current().pid() + "-3");
    Files.writeString(alive.resolve("lock"), "");
    Path unlockable = folder("siltwright-" + NO_PROCESS + "-4");
    Path strange = folder("siltwright-notes");
    Path elsewhere = folder("elsewhere");
    Files.writeString(elsewhere.resolve("lock"), "");
    Path link =
        Files.createSymbolicLink(parent.resolve("siltwright-" + NO_PROCESS + "-5"), elsewhere);
    try (FileChannel channel =
            FileChannel.open(
                locked.resolve("lock"), StandardOpenOption.CREATE, StandardOpenOption.WRITE);
        FileLock held = channel.lock()) {
      assertTrue(held.isValid());
      Storage.create(parent).close();
    }
    List<Path> expected =
        Stream.of(locked, alive, unlockable, strange, elsewhere, link).sorted().toList();
    assertEquals(expected, entries());
    assertTrue(Files.exists(elsewhere.resolve("lock")));
  }

  @Test
  void parentThatIsNoFolderIsRefused() throws IOException {
    Path file = Files.writeString(parent.resolve("file"), "");
    String message = assertThrows(LaunchException.class, () -> Storage.create(file)).getMessage();
    assertTrue(message.contains(file.toString()), message);
  }

  private Path folder(String name) throws IOException {
    return Files.createDirectory(parent.resolve(name));
  }

  private List<Path> entries() throws IOException {
    try (Stream<Path> entries = Files.list(parent)) {
      return entries.sorted().toList();
    }
  }
}
