package siltwright.large;

import java.io.Serializable;
import java.util.Arrays;
import java.util.Map;
import java.util.TreeMap;
import siltwright.life.LifeData;
import siltwright.life.LogRank;

/**
 * Lives counted on a grid of hours, by group: as many numbers as there are different rows on the
 * grid, however many rows. That is all that the log-rank test needs; on hours that are multiples of
 * the grid it is exact.
 */
final class LifeGrid {
  private static final int MOST = 2_000_000;
  private static final long HIGHEST = (1L << 31) - 1;

  private final double gridH;
  private final TreeMap<String, TreeMap<Long, Double>> groups = new TreeMap<>();
  private long size;

  LifeGrid(double gridH) {
    this.gridH = gridH;
  }

  /**
   * What a group's lives in a part come to.
   *
   * @param rows entry, end and whether it failed, in one number, sorted
   * @param counts components of each
   * @param whole whether that is all of them: not where a failure is known within an interval only
   */
  record Counts(long[] rows, double[] counts, boolean whole) implements Serializable {
    /** Counts lives. */
    static Counts of(LifeData data, double gridH) {
      TreeMap<Long, Double> rows = new TreeMap<>();
      boolean whole = true;
      for (int i = 0; i < data.rows(); i++) {
        whole &= !data.failed(i) || data.lowerH(i) == data.upperH(i);
        long end = Math.max(1, Math.round(data.lowerH(i) / gridH));
        long entry = Math.min(end - 1, Math.round(data.entryH(i) / gridH));
        whole &= end < HIGHEST;
        rows.merge(entry << 32 | end << 1 | (data.failed(i) ? 1 : 0), data.countAt(i), Double::sum);
      }
      return new Counts(
          rows.keySet().stream().mapToLong(r -> r).toArray(),
          rows.values().stream().mapToDouble(c -> c).toArray(),
          whole);
    }
  }

  /** Adds what a group's lives in a part come to. */
  void add(String group, Counts counts) {
    if (!counts.whole() || size > MOST) {
      size = Long.MAX_VALUE;
      groups.clear();
      return;
    }
    Map<Long, Double> rows = groups.computeIfAbsent(group, g -> new TreeMap<>());
    long before = rows.size();
    for (int i = 0; i < counts.rows().length; i++) {
      rows.merge(counts.rows()[i], counts.counts()[i], Double::sum);
    }
    size += rows.size() - before;
  }

  /** Returns whether the test can be made. */
  boolean usable() {
    return size <= MOST;
  }

  /** Tests whether groups live alike. */
  LogRank test() {
    int n = groups.values().stream().mapToInt(Map::size).sum();
    double[] lower = new double[n];
    double[] upper = new double[n];
    double[] entry = new double[n];
    double[] count = new double[n];
    String[] group = new String[n];
    int[] at = {0};
    groups.forEach(
        (name, rows) ->
            rows.forEach(
                (row, c) -> {
                  int i = at[0]++;
                  lower[i] = (row >>> 1 & HIGHEST) * gridH;
                  upper[i] = (row & 1) == 1 ? lower[i] : Double.POSITIVE_INFINITY;
                  entry[i] = (row >>> 32) * gridH;
                  count[i] = c;
                  group[i] = name;
                }));
    return LogRank.of(
        LifeData.ofColumns(lower, upper, entry, count)
            .withCovariate("group", group, Arrays.stream(group).distinct().toList()),
        "group",
        0,
        null);
  }
}
