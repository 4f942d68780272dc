package siltwright.transfer;

import java.sql.SQLException;
import java.util.BitSet;
import java.util.List;
import java.util.Map;
import siltwright.store.Edits;

/** The machines that got records in an action, whatever they are called in the file. */
final class Touched {
  private final BitSet numbers = new BitSet();

  void add(long machine) {
    numbers.set((int) machine);
  }

  /** Returns their ids. */
  List<String> ids(Edits edits) throws SQLException {
    return edits.machines(false).entrySet().stream()
        .filter(m -> numbers.get(m.getValue().intValue()))
        .map(Map.Entry::getKey)
        .sorted()
        .toList();
  }
}
