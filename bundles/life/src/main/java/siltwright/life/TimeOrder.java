package siltwright.life;

/**
 * Sorts row numbers by time in linear time: least-significant-digit radix sort on the bits of
 * non-negative doubles, which are in the order of their values.
 *
 * <p>The leading bits of the range that the times span order nearly all of them; what is left is
 * put right by insertion, or where that takes long by all bits. The arrays are handed out as they
 * are: read them, don't write to them.
 */
public final class TimeOrder {
  private static final int BITS = 11;
  private static final int BUCKETS = 1 << BITS;
  private static final int LEADING = 3 * BITS;

  /** Insertions for each time beyond which all bits are sorted instead. */
  private static final int MOST_MOVES = 4;

  /** Times in order; copied keys, so reading them in order is reading memory in order. */
  public final double[] times;

  /** What came with each time. */
  public final int[] payloads;

  private TimeOrder(double[] times, int[] payloads) {
    this.times = times;
    this.payloads = payloads;
  }

  /**
   * Sorts, stably.
   *
   * @param times at least 0; not modified
   * @param payloads carried along; not modified
   */
  public static TimeOrder of(double[] times, int[] payloads) {
    int n = times.length;
    long[] keys = new long[n];
    long least = Long.MAX_VALUE;
    long most = 0;
    for (int i = 0; i < n; i++) {
      long key = Double.doubleToRawLongBits(times[i] + 0.0);
      keys[i] = key;
      least = Math.min(least, key);
      most = Math.max(most, key);
    }
    int[] carried = payloads.clone();
    if (n > 0) {
      for (int i = 0; i < n; i++) {
        keys[i] -= least;
      }
      int bits = Long.SIZE - Long.numberOfLeadingZeros(most - least);
      Sort sort = new Sort(keys, carried);
      sort.byBits(Math.max(0, bits - LEADING), bits);
      if (bits > LEADING && !sort.byInsertion()) {
        sort.byBits(0, bits);
      }
      keys = sort.keys;
      carried = sort.carried;
    }
    double[] sorted = new double[n];
    for (int i = 0; i < n; i++) {
      sorted[i] = Double.longBitsToDouble(keys[i] + least);
    }
    return new TimeOrder(sorted, carried);
  }

  private static final class Sort {
    long[] keys;
    int[] carried;
    private long[] keysTo;
    private int[] carriedTo;

    Sort(long[] keys, int[] carried) {
      this.keys = keys;
      this.carried = carried;
      keysTo = new long[keys.length];
      carriedTo = new int[keys.length];
    }

    /** Sorts, stably, by the bits from one to before another. */
    void byBits(int from, int to) {
      for (int shift = from; shift < to; shift += BITS) {
        byDigit(shift);
      }
    }

    private void byDigit(int shift) {
      int n = keys.length;
      int[] at = new int[BUCKETS];
      for (int i = 0; i < n; i++) {
        at[(int) (keys[i] >>> shift) & BUCKETS - 1]++;
      }
      if (at[(int) (keys[0] >>> shift) & BUCKETS - 1] == n) {
        return; // all share this digit
      }
      int sum = 0;
      for (int b = 0; b < BUCKETS; b++) {
        int c = at[b];
        at[b] = sum;
        sum += c;
      }
      for (int i = 0; i < n; i++) {
        long key = keys[i];
        int to = at[(int) (key >>> shift) & BUCKETS - 1]++;
        keysTo[to] = key;
        carriedTo[to] = carried[i];
      }
      long[] k = keys;
      keys = keysTo;
      keysTo = k;
      int[] c = carried;
      carried = carriedTo;
      carriedTo = c;
    }

    /** Puts right what is nearly sorted; returns whether that took few moves. */
    boolean byInsertion() {
      long moves = (long) MOST_MOVES * keys.length;
      for (int i = 1; i < keys.length; i++) {
        long key = keys[i];
        if (key >= keys[i - 1]) {
          continue;
        }
        int payload = carried[i];
        int j = i;
        while (j > 0 && keys[j - 1] > key) {
          keys[j] = keys[j - 1];
          carried[j] = carried[j - 1];
          j--;
        }
        keys[j] = key;
        carried[j] = payload;
        moves -= i - j;
        if (moves < 0) {
          return false;
        }
      }
      return true;
    }
  }
}
