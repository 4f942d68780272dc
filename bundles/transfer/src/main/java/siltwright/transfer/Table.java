package siltwright.transfer;

import siltwright.model.InputException;

/** The rows of a file, one at a time. */
interface Table extends AutoCloseable {
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
