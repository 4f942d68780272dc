package siltwright.store;

import java.sql.Connection;
import java.sql.SQLException;
import java.sql.Statement;
import java.util.Arrays;

/**
 * The keys of the records that are being written into an empty table. Meanwhile the table has no
 * index: to sort all keys once at the end takes a fraction of the time that it takes to keep them
 * sorted. The index is unique, so its making checks every key once more.
 *
 * <p>It knows a key by a hash of 64 bits. Records of equal hashes are to be compared by whoever
 * asks.
 */
final class FirstLoad {
  /** Most keys: 12 bytes each, in tables that are at most half full. */
  private static final int MOST = 1 << 23;

  private final Connection c;
  private final String index;
  private long[] hashes = new long[1 << 12];
  private int[] numbers = new int[1 << 12];
  private int size;

  private FirstLoad(Connection c, String index) {
    this.c = c;
    this.index = index;
  }

  /** Begins to load a table, or returns null if it is not empty or gains nothing by it. */
  static FirstLoad begin(Database database, Connection c, String table) throws SQLException {
    String index = database.dropIndexIfEmpty(c, table);
    return index == null ? null : new FirstLoad(c, index);
  }

  /** Makes the index again. */
  void end() throws SQLException {
    try (Statement s = c.createStatement()) {
      s.execute(index);
    }
  }

  boolean isFull() {
    return size == MOST;
  }

  /** Returns the hash of a key; never 0. */
  static long hash(long machine, long atMs, String key) {
    long h = 0xcbf29ce484222325L ^ machine;
    h = (h ^ atMs) * 0x9E3779B97F4A7C15L;
    h ^= h >>> 29;
    for (int i = 0; i < key.length(); i++) {
      h = (h ^ key.charAt(i)) * 0x100000001b3L;
    }
    h = (h ^ h >>> 32) * 0xD6E8FEB86659FD93L;
    h ^= h >>> 32;
    return h == 0 ? 1 : h;
  }

  /** Returns the place of a record of this hash at or after a place; -1 if there is none. */
  int find(long hash, int from) {
    int mask = hashes.length - 1;
    for (int at = from & mask; hashes[at] != 0; at = at + 1 & mask) {
      if (hashes[at] == hash) {
        return at;
      }
    }
    return -1;
  }

  /** Returns where to look for a hash first. */
  static int start(long hash) {
    return (int) (hash >>> 20);
  }

  /** Returns the number of the record at a place. */
  int number(int at) {
    return numbers[at];
  }

  /** Returns how many records there are, which is the number of the last one. */
  int size() {
    return size;
  }

  /**
   * Takes note of the next record.
   *
   * @return its number, from 1
   */
  int add(long hash) {
    if (2 * size >= hashes.length) {
      long[] old = hashes;
      int[] oldNumbers = numbers;
      hashes = new long[2 * old.length];
      numbers = Arrays.copyOf(numbers, 2 * old.length);
      for (int i = 0; i < old.length; i++) {
        if (old[i] != 0) {
          put(old[i], oldNumbers[i]);
        }
      }
    }
    put(hash, ++size);
    return size;
  }

  private void put(long hash, int number) {
    int mask = hashes.length - 1;
    int at = start(hash) & mask;
    while (hashes[at] != 0) {
      at = at + 1 & mask;
    }
    hashes[at] = hash;
    numbers[at] = number;
  }
}
