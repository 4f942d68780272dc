package siltwright.transfer;

import java.io.IOException;
import java.nio.file.NoSuchFileException;
import java.nio.file.Path;
import java.security.MessageDigest;
import siltwright.model.InputException;
import siltwright.model.Problem;

/** The rows of a file, one at a time. */
public interface Table extends AutoCloseable {
  /**
   * Opens a table whose way of writing is found out.
   *
   * @param digest told all bytes that are read; null if nobody wants to know
   * @throws InputException if it is no table, or cannot be read
   */
  static Table open(Path file, MessageDigest digest) {
    try {
      return TableFile.of(file, Wishes.NONE).open(digest);
    } catch (NoSuchFileException e) {
      throw new InputException(new Problem(file.toString(), "", "no such file", "a table"));
    } catch (IOException e) {
      throw new InputException(
          new Problem(file.toString(), "", "a file that cannot be read", "a table"));
    }
  }

  /**
   * Returns the next row that is not empty, or null at the end.
   *
   * @throws InputException if what follows cannot be read
   */
  Row next();

  /** Returns how much of the file is read, 0 to 1. */
  double share();

  @Override
  void close();
}
