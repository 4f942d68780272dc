package siltwright.workbench.internal;

import java.io.IOException;
import java.nio.channels.FileChannel;
import java.nio.channels.FileLock;
import java.nio.channels.OverlappingFileLockException;
import java.nio.charset.StandardCharsets;
import java.nio.file.DirectoryStream;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardOpenOption;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import siltwright.model.InputException;
import siltwright.model.json.Extensions;
import siltwright.model.json.FleetText;

/**
 * Copies of unsaved work, so that nothing is lost if the process is killed.
 *
 * <p>Each window has a copy of its own, {@code NUMBER.json}, with the name of its file in {@code
 * NUMBER.name}, and holds a lock on {@code NUMBER.lock}. A copy whose lock is free was left by a
 * window that died.
 */
final class Recovery implements AutoCloseable {
  private final Path folder;
  private final Path copy;
  private final Path name;
  private final Path lockFile;
  private final FileChannel lock;

  /**
   * What a killed window left.
   *
   * @param text the work
   * @param file the file it belongs to, if it had one
   * @param copy where it lies
   */
  record Left(FleetText text, Optional<Path> file, Path copy) {}

  Recovery(Path folder) throws IOException {
    this.folder = folder;
    Files.createDirectories(folder);
    String number = ProcessHandle.current().pid() + "-" + System.nanoTime();
    copy = folder.resolve(number + ".json");
    name = folder.resolve(number + ".name");
    lockFile = folder.resolve(number + ".lock");
    lock = FileChannel.open(lockFile, StandardOpenOption.CREATE_NEW, StandardOpenOption.WRITE);
    lock.lock();
  }

  /** Keeps a copy of unsaved work. */
  void keep(FleetText text, Optional<Path> file) throws IOException {
    Store.write(name, file.map(Path::toString).orElse("").getBytes(StandardCharsets.UTF_8));
    Store.write(copy, text.bytes());
  }

  /** Forgets the copy: there is nothing unsaved. */
  void forget() throws IOException {
    Files.deleteIfExists(copy);
    Files.deleteIfExists(name);
  }

  /** Returns what killed windows left, the newest first; unreadable copies stay where they are. */
  List<Left> left(Extensions extensions) {
    List<Path> copies = new ArrayList<>();
    try (DirectoryStream<Path> files = Files.newDirectoryStream(folder, "*.json")) {
      for (Path file : files) {
        if (!file.equals(copy) && isFree(sibling(file, ".lock"))) {
          copies.add(file);
        }
      }
    } catch (IOException e) {
      return List.of();
    }
    copies.sort((a, b) -> Long.compare(b.toFile().lastModified(), a.toFile().lastModified()));
    List<Left> left = new ArrayList<>();
    for (Path file : copies) {
      try {
        String of = Files.readString(sibling(file, ".name"));
        Optional<Path> path = of.isEmpty() ? Optional.empty() : Optional.of(Path.of(of));
        String source = path.map(Path::toString).orElse(Texts.of("document.unnamed"));
        left.add(new Left(FleetText.of(Files.readAllBytes(file), source, extensions), path, file));
      } catch (IOException | InputException e) {
        // a copy that was cut off; the one before it was replaced whole
      }
    }
    return left;
  }

  /** Throws away what a killed window left. */
  static void discard(Left left) throws IOException {
    for (String ending : List.of(".json", ".name", ".lock")) {
      Files.deleteIfExists(sibling(left.copy(), ending));
    }
  }

  private static Path sibling(Path file, String ending) {
    String own = file.getFileName().toString();
    return file.resolveSibling(own.substring(0, own.lastIndexOf('.')) + ending);
  }

  private static boolean isFree(Path lockFile) {
    if (!Files.exists(lockFile)) {
      return true;
    }
    try (FileChannel channel = FileChannel.open(lockFile, StandardOpenOption.WRITE);
        FileLock free = channel.tryLock()) {
      return free != null;
    } catch (IOException | OverlappingFileLockException e) {
      return false;
    }
  }

  @Override
  public void close() throws IOException {
    forget();
    lock.close();
    Files.deleteIfExists(lockFile);
  }
}
