package siltwright.fleet;

import java.util.Comparator;

/** How p-values are told when several comparisons are made at once. */
public enum Multiplicity {
  /** As they are. */
  NONE,
  /**
   * Holm's: the chance of any false alarm stays below the level, whatever ties the comparisons.
   *
   * <pre>  p_(i)' = max over j up to i of min(1, (m - j + 1) p_(j))  </pre>
   *
   * <p>Source: S. Holm, Scandinavian Journal of Statistics 6 (1979) 65-70 (from memory).
   */
  HOLM,
  /**
   * Benjamini's and Hochberg's: the share of false alarms among alarms stays below the level.
   *
   * <pre>  p_(i)' = min over j from i on of min(1, m/j p_(j))  </pre>
   *
   * <p>Source: Y. Benjamini, Y. Hochberg, JRSS B 57 (1995) 289-300 (from memory).
   */
  FALSE_SHARE;

  /**
   * Returns adjusted p-values in the order given; what is not a number stays and is not counted.
   */
  public double[] adjusted(double... pValues) {
    double[] adjusted = pValues.clone();
    Integer[] order =
        java.util.stream.IntStream.range(0, pValues.length)
            .filter(i -> !Double.isNaN(pValues[i]))
            .boxed()
            .sorted(Comparator.comparingDouble(i -> pValues[i]))
            .toArray(Integer[]::new);
    int m = order.length;
    if (this == HOLM) {
      double most = 0;
      for (int i = 0; i < m; i++) {
        most = Math.max(most, Math.min(1, (m - i) * pValues[order[i]]));
        adjusted[order[i]] = most;
      }
    } else if (this == FALSE_SHARE) {
      double least = 1;
      for (int i = m - 1; i >= 0; i--) {
        least = Math.min(least, m / (i + 1.0) * pValues[order[i]]);
        adjusted[order[i]] = least;
      }
    }
    return adjusted;
  }
}
