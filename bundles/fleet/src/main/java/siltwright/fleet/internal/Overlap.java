package siltwright.fleet.internal;

import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import siltwright.life.Covariate;

/**
 * How far two groups overlap in something that is allowed for: of the members of both, the share
 * whose value the other group has too: of words the word itself, of numbers one within its range.
 * Where they do not overlap, the adjustment rests on its form alone and not on the records.
 *
 * @param covariate what is allowed for
 * @param pair the groups
 * @param share of the members of both, 0 to 1
 */
record Overlap(String covariate, Groups.Pair pair, double share) {
  /** Below this an adjustment is an extrapolation (common practice, no source). */
  static final double LEAST = 0.5;

  static List<Overlap> of(Groups groups, Map<String, Covariate> adjust) {
    List<Overlap> all = new ArrayList<>();
    adjust.forEach(
        (name, covariate) -> {
          for (Groups.Pair pair : groups.pairs()) {
            int[] a = groups.members(pair.first());
            int[] b = groups.members(pair.second());
            double common = common(covariate, a, b) + common(covariate, b, a);
            all.add(new Overlap(name, pair, common / (a.length + b.length)));
          }
        });
    return all;
  }

  /** Returns how many of some have a value that others have too. */
  private static double common(Covariate covariate, int[] some, int[] others) {
    double n = 0;
    if (covariate instanceof Covariate.Categorical levels) {
      Set<Integer> there = new HashSet<>();
      for (int i : others) {
        there.add(levels.codes()[i]);
      }
      for (int i : some) {
        n += there.contains(levels.codes()[i]) ? 1 : 0;
      }
      return n;
    }
    double[] values = ((Covariate.Numeric) covariate).values();
    double low = Double.POSITIVE_INFINITY;
    double high = Double.NEGATIVE_INFINITY;
    for (int i : others) {
      low = Math.min(low, values[i]);
      high = Math.max(high, values[i]);
    }
    for (int i : some) {
      n += values[i] >= low && values[i] <= high ? 1 : 0;
    }
    return n;
  }
}
