package siltwright.transfer;

import java.sql.SQLException;
import java.util.List;
import siltwright.store.Edits;

/** Brings the rows of one file in and counts them. */
abstract class FileImport {
  /** Rows read. */
  long rows;

  /** Records that are new. */
  long added;

  /** Records that the store had already. */
  long known;

  /** Machines added or changed. */
  long machines;

  /** Ids of the machines that got records. */
  List<String> touched = List.of();

  /** Does it, within the transaction of an action. */
  abstract void run(Edits edits) throws SQLException;
}
