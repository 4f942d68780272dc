package siltwright.command;

import java.io.IOException;
import java.io.Writer;
import java.nio.charset.StandardCharsets;
import java.nio.file.AtomicMoveNotSupportedException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;

/** Writes a file whole or not at all: under another name beside it, then moved into place. */
final class WholeFile {
  private WholeFile() {}

  /** What is written. */
  interface Content {
    void write(Writer out) throws IOException;
  }

  /** What is written, byte by byte. */
  private interface Bytes {
    void write(Path part) throws IOException;
  }

  /** Writes a file as UTF-8; one that is there is replaced. */
  static void write(Path file, Content content) throws IOException {
    replace(
        file,
        part -> {
          try (Writer out = Files.newBufferedWriter(part, StandardCharsets.UTF_8)) {
            content.write(out);
          }
        });
  }

  /**
   * Writes bytes to a file; one that is there is replaced, what a link points to rather than it.
   */
  static void write(Path file, byte[] content) throws IOException {
    replace(file.toRealPath(), part -> Files.write(part, content));
  }

  /** Writes bytes to a file; one that is there is replaced. */
  static void put(Path file, byte[] content) throws IOException {
    replace(file, part -> Files.write(part, content));
  }

  private static void replace(Path file, Bytes bytes) throws IOException {
    Path part = file.resolveSibling("." + file.getFileName() + "." + ProcessHandle.current().pid());
    // Also removed when the run is interrupted from outside.
    part.toFile().deleteOnExit();
    try {
      bytes.write(part);
      move(part, file);
    } finally {
      Files.deleteIfExists(part);
    }
  }

  private static void move(Path part, Path file) throws IOException {
    try {
      Files.move(part, file, StandardCopyOption.ATOMIC_MOVE, StandardCopyOption.REPLACE_EXISTING);
    } catch (AtomicMoveNotSupportedException e) {
      Files.move(part, file, StandardCopyOption.REPLACE_EXISTING);
    }
  }
}
