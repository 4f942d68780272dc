package siltwright.cleanliness.view;

import java.util.Arrays;
import java.util.stream.IntStream;

/**
 * Fewer points that look the same: of each of a number of even ranges of x, the lowest and the
 * highest, so that no extreme is lost.
 */
final class Thinning {
  private Thinning() {}

  /**
   * Returns which points to draw.
   *
   * @param xs x, rising
   * @param ys y, numbers
   * @param ranges ranges of x, about as many as there are pixels
   * @return their places in order, at most two of a range; all if there are no more than that
   */
  static int[] of(double[] xs, double[] ys, int ranges) {
    int n = xs.length;
    if (n <= 2 * ranges) {
      return IntStream.range(0, n).toArray();
    }
    double width = (xs[n - 1] - xs[0]) / ranges;
    int[] kept = new int[2 * ranges];
    int size = 0;
    for (int from = 0; from < n; ) {
      int range = range(xs[from], xs[0], width, ranges);
      int low = from;
      int high = from;
      int to = from;
      while (to < n && range(xs[to], xs[0], width, ranges) == range) {
        low = ys[to] < ys[low] ? to : low;
        high = ys[to] > ys[high] ? to : high;
        to++;
      }
      kept[size++] = Math.min(low, high);
      if (low != high) {
        kept[size++] = Math.max(low, high);
      }
      from = to;
    }
    return Arrays.copyOf(kept, size);
  }

  private static int range(double x, double first, double width, int ranges) {
    return width > 0 ? (int) Math.min(ranges - 1, (x - first) / width) : 0;
  }

  /** Returns the values at places. */
  static double[] at(double[] values, int[] places) {
    return IntStream.of(places).mapToDouble(i -> values[i]).toArray();
  }
}
