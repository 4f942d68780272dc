package siltwright.samples;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.SplittableRandom;

/**
 * Where the level of a series changes.
 *
 * <p>The largest standardised difference of means over all places that cut the series in two
 * (binary segmentation; A. J. Scott, M. Knott, Biometrics 30 (1974) 507) is held against what the
 * same values show in random order. A change is told if no more than a stated share of orders show
 * as much; each part is then looked through in the same way. So the share of series without any
 * change in which one is told is at most that share, whatever the distribution (permutation test).
 */
public final class ChangePoints {
  private static final int LEAST_PART = 3;
  private static final int ORDERS = 999;

  private ChangePoints() {}

  /**
   * A change of level.
   *
   * @param first index of the first value behind it
   * @param before mean of the part before
   * @param behind mean of the part behind
   * @param pValue share of random orders that show as much
   */
  public record Change(int first, double before, double behind, double pValue) {}

  /**
   * Finds changes.
   *
   * @param values the series in order
   * @param falseAlarms share of series without a change in which one may be told
   * @param seed seed of the orders
   * @return changes in order
   */
  public static List<Change> in(double[] values, double falseAlarms, long seed) {
    List<Change> found = new ArrayList<>();
    look(values, 0, values.length, falseAlarms, new SplittableRandom(seed), found);
    found.sort((a, b) -> Integer.compare(a.first(), b.first()));
    return List.copyOf(found);
  }

  private static void look(
      double[] values,
      int from,
      int to,
      double falseAlarms,
      SplittableRandom random,
      List<Change> found) {
    if (to - from < 2 * LEAST_PART) {
      return;
    }
    double[] part = Arrays.copyOfRange(values, from, to);
    int[] at = new int[1];
    double seen = largest(part, at);
    double[] shuffled = part.clone();
    int as = 1;
    for (int i = 0; i < ORDERS; i++) {
      for (int k = shuffled.length - 1; k > 0; k--) {
        int other = random.nextInt(k + 1);
        double swap = shuffled[k];
        shuffled[k] = shuffled[other];
        shuffled[other] = swap;
      }
      as += largest(shuffled, new int[1]) >= seen ? 1 : 0;
      if (as > falseAlarms * (ORDERS + 1)) {
        return;
      }
    }
    int cut = from + at[0];
    found.add(
        new Change(
            cut,
            Arrays.stream(values, from, cut).average().orElse(0),
            Arrays.stream(values, cut, to).average().orElse(0),
            as / (ORDERS + 1.0)));
    look(values, from, cut, falseAlarms, random, found);
    look(values, cut, to, falseAlarms, random, found);
  }

  /** Largest difference of means in units of its standard error, and where. */
  private static double largest(double[] y, int[] at) {
    int n = y.length;
    double all = Arrays.stream(y).sum();
    double sum = 0;
    double best = -1;
    for (int k = 1; k < n; k++) {
      sum += y[k - 1];
      if (k < LEAST_PART || n - k < LEAST_PART) {
        continue;
      }
      double d = Math.abs(sum / k - (all - sum) / (n - k)) * Math.sqrt(k * (n - k) / (double) n);
      if (d > best) {
        best = d;
        at[0] = k;
      }
    }
    return best;
  }
}
