package siltwright.workbench.internal;

import java.io.IOException;
import java.nio.file.AtomicMoveNotSupportedException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;

/** Writes files whole or not at all. */
final class Store {
  private Store() {}

  /** Writes a file under another name beside it and moves it into place, through links. */
  static void write(Path file, byte[] bytes) throws IOException {
    Path target = Files.exists(file) ? file.toRealPath() : file.toAbsolutePath();
    Files.createDirectories(target.getParent());
    Path part =
        target.resolveSibling("." + target.getFileName() + "." + ProcessHandle.current().pid());
    try {
      Files.write(part, bytes);
      try {
        Files.move(
            part, target, StandardCopyOption.ATOMIC_MOVE, StandardCopyOption.REPLACE_EXISTING);
      } catch (AtomicMoveNotSupportedException e) {
        Files.move(part, target, StandardCopyOption.REPLACE_EXISTING);
      }
    } finally {
      Files.deleteIfExists(part);
    }
  }
}
