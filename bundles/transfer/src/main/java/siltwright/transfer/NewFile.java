package siltwright.transfer;

import java.io.IOException;
import java.nio.file.AccessDeniedException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import siltwright.model.InputException;
import siltwright.model.Problem;

/** A file that is written whole or not at all, and never over another one. */
public final class NewFile implements AutoCloseable {
  private final Path file;
  private final Path part;

  private NewFile(Path file, Path part) {
    this.file = file;
    this.part = part;
  }

  /**
   * Begins a file.
   *
   * @throws InputException if it is there already, or its folder is not
   */
  public static NewFile at(Path file) {
    Path folder = file.toAbsolutePath().getParent();
    if (folder == null || !Files.isDirectory(folder)) {
      throw problem(file, "", "a file in a folder that is there");
    }
    if (Files.exists(file)) {
      throw problem(file, "a file that is there", "a name not in use");
    }
    Path part = folder.resolve("." + file.getFileName() + "." + ProcessHandle.current().pid());
    part.toFile().deleteOnExit();
    return new NewFile(file, part);
  }

  private static InputException problem(Path file, String found, String expected) {
    return new InputException(new Problem(file.toString(), "", found, expected));
  }

  /** Returns the exception for a file that cannot be written. */
  public static InputException notWritten(Path file, IOException e) {
    String why = e instanceof AccessDeniedException ? "not permitted" : e.getMessage();
    return problem(file, "", "a place that can be written to (" + why + ")");
  }

  /** Returns where it is written to until it is whole. */
  public Path part() {
    return part;
  }

  /** Puts the file in its place. */
  public void keep() throws IOException {
    Files.move(part, file, StandardCopyOption.ATOMIC_MOVE);
  }

  @Override
  public void close() {
    try {
      Files.deleteIfExists(part);
    } catch (IOException e) {
      // a part of a file that nobody needs
    }
  }
}
