package siltwright.life;

/**
 * Sorts row numbers by time in linear time: least-significant-digit radix sort on the bits of
 * non-negative doubles, which are in the order of their values. The arrays are handed out as they
 * are: read them, don't write to them.
 */
public final class TimeOrder {
  private static final int BITS = 11;
  private static final int BUCKETS = 1 << BITS;
  private static final int PASSES = 6;

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
    int[][] counts = new int[PASSES][BUCKETS];
    for (int i = 0; i < n; i++) {
      long key = Double.doubleToRawLongBits(times[i] + 0.0);
      keys[i] = key;
      for (int p = 0; p < PASSES; p++) {
        counts[p][(int) (key >>> p * BITS) & BUCKETS - 1]++;
      }
    }
    int[] carried = payloads.clone();
    long[] keysTo = new long[n];
    int[] carriedTo = new int[n];
    for (int p = 0; p < PASSES; p++) {
      int[] at = counts[p];
      int shift = p * BITS;
      if (n == 0 || at[(int) (keys[0] >>> shift) & BUCKETS - 1] == n) {
        continue; // all share this digit
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
    double[] sorted = new double[n];
    for (int i = 0; i < n; i++) {
      sorted[i] = Double.longBitsToDouble(keys[i]);
    }
    return new TimeOrder(sorted, carried);
  }
}
