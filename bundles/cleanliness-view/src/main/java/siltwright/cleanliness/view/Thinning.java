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
    return within(xs, ys, 0, xs.length, ranges);
  }

  /**
   * The same with those between two x drawn as if they were all, so that what is left out comes
   * back where one looks closer.
   *
   * @param low least x that is looked at
   * @param high greatest x that is looked at
   */
  static int[] near(double[] xs, double[] ys, double low, double high, int ranges) {
    int from = Math.max(0, place(xs, low) - 1);
    int to = Math.min(xs.length, place(xs, Math.nextUp(high)) + 1);
    if (from == 0 && to == xs.length) {
      return of(xs, ys, ranges);
    }
    IntStream inside = Arrays.stream(within(xs, ys, from, to, ranges));
    IntStream outside = Arrays.stream(of(xs, ys, ranges)).filter(i -> i < from || i >= to);
    return IntStream.concat(inside, outside).sorted().toArray();
  }

  /** Returns whether points between two x are left out. */
  static boolean thins(double[] xs, double low, double high, int ranges) {
    return between(xs, low, high) + 2 > 2 * ranges;
  }

  /** Returns how many points lie between two x. */
  static int between(double[] xs, double low, double high) {
    return place(xs, Math.nextUp(high)) - place(xs, low);
  }

  /** Returns the place of the first x that is not less than a number. */
  private static int place(double[] xs, double x) {
    int low = 0;
    int high = xs.length;
    while (low < high) {
      int middle = (low + high) >>> 1;
      if (xs[middle] < x) {
        low = middle + 1;
      } else {
        high = middle;
      }
    }
    return low;
  }

  private static int[] within(double[] xs, double[] ys, int begin, int n, int ranges) {
    if (n - begin <= 2 * ranges) {
      return IntStream.range(begin, n).toArray();
    }
    double width = (xs[n - 1] - xs[begin]) / ranges;
    int[] kept = new int[2 * ranges];
    int size = 0;
    for (int from = begin; from < n; ) {
      int range = range(xs[from], xs[begin], width, ranges);
      int low = from;
      int high = from;
      int to = from;
      while (to < n && range(xs[to], xs[begin], width, ranges) == range) {
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
