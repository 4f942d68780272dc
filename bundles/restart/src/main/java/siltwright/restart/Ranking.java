package siltwright.restart;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.apache.commons.math3.distribution.TDistribution;

/**
 * Groups of changes side by side, each drawn towards the mean of all by as much as it is unsure.
 *
 * <pre>
 *   y_i = mu_g + e_i,  var e_i = sigma² + s_i²       s_i the error of the grading itself
 *   mu_g ~ (mu, tau²)                                 tau² by moments (DerSimonian and Laird)
 *   shrunken mu_g = w y_g + (1 - w) mu,  w = tau²/(tau² + var y_g)
 * </pre>
 *
 * <p>Source: R. DerSimonian, N. Laird, Meta-analysis in clinical trials, Controlled Clinical Trials
 * 7 (1986) 177; empirical Bayes. sigma² is pooled over the groups.
 *
 * @param mean mean of all, ln g
 * @param between standard deviation between groups, ln g
 * @param within standard deviation from change to change within a group, ln g
 * @param groups groups, highest first
 */
public record Ranking(double mean, double between, double within, List<Group> groups) {
  private static final double TAIL = 0.05;

  /**
   * One group.
   *
   * @param name its name
   * @param changes number of changes
   * @param own mean of its own changes, ln g
   * @param shrunken mean drawn towards that of all, ln g
   * @param low lower end of the 90 % interval, ln g
   * @param high upper end
   * @param enough whether it has enough changes to say anything
   */
  public record Group(
      String name,
      int changes,
      double own,
      double shrunken,
      double low,
      double high,
      boolean enough) {
    /** Returns whether the interval lies wholly above a mean. */
    public boolean above(double mean) {
      return enough && low > mean;
    }

    /** Returns whether the interval lies wholly below a mean. */
    public boolean below(double mean) {
      return enough && high < mean;
    }
  }

  /**
   * Ranks groups.
   *
   * @param names group of each change
   * @param y what is ranked, such as ln g, of each change
   * @param error standard deviation of y from its grading
   * @param fewest changes that a group must have before anything is said of it
   */
  public static Ranking of(List<String> names, double[] y, double[] error, int fewest) {
    Map<String, List<Integer>> members = new LinkedHashMap<>();
    for (int i = 0; i < y.length; i++) {
      members.computeIfAbsent(names.get(i), k -> new ArrayList<>()).add(i);
    }
    int freedom = y.length - members.size();
    double squares = 0;
    double errors = 0;
    for (List<Integer> m : members.values()) {
      double mean = m.stream().mapToDouble(i -> y[i]).average().orElse(0);
      for (int i : m) {
        squares += (y[i] - mean) * (y[i] - mean);
      }
    }
    for (double e : error) {
      errors += e * e / error.length;
    }
    double within = freedom > 0 ? Math.max(0.01, squares / freedom - errors) : 1;
    double[] own = new double[members.size()];
    double[] variance = new double[own.length];
    int g = 0;
    for (List<Integer> m : members.values()) {
      double weights = 0;
      for (int i : m) {
        double w = 1 / (within + error[i] * error[i]);
        own[g] += w * y[i];
        weights += w;
      }
      own[g] /= weights;
      variance[g++] = 1 / weights;
    }
    double between = between(own, variance);
    double mean = 0;
    double weights = 0;
    for (int k = 0; k < own.length; k++) {
      double w = 1 / (between + variance[k]);
      mean += w * own[k];
      weights += w;
    }
    mean /= weights;
    double z = new TDistribution(Math.max(2, freedom)).inverseCumulativeProbability(1 - TAIL);
    List<Group> groups = new ArrayList<>();
    g = 0;
    for (Map.Entry<String, List<Integer>> e : members.entrySet()) {
      double w = between / (between + variance[g]);
      double shrunken = w * own[g] + (1 - w) * mean;
      // What is left of the group's own, and of the mean that it is drawn to.
      double left = w * variance[g] + (1 - w) * (1 - w) / weights;
      double half = z * Math.sqrt(left);
      groups.add(
          new Group(
              e.getKey(),
              e.getValue().size(),
              own[g],
              shrunken,
              shrunken - half,
              shrunken + half,
              e.getValue().size() >= fewest));
      g++;
    }
    groups.sort((a, b) -> Double.compare(b.shrunken(), a.shrunken()));
    return new Ranking(mean, Math.sqrt(between), Math.sqrt(within), List.copyOf(groups));
  }

  private static double between(double[] own, double[] variance) {
    if (own.length < 2) {
      return 0;
    }
    double sum = 0;
    double sumY = 0;
    double sumSquares = 0;
    for (int k = 0; k < own.length; k++) {
      double w = 1 / variance[k];
      sum += w;
      sumY += w * own[k];
      sumSquares += w * w;
    }
    double q = 0;
    for (int k = 0; k < own.length; k++) {
      double d = own[k] - sumY / sum;
      q += d * d / variance[k];
    }
    return Math.max(0, (q - (own.length - 1)) / (sum - sumSquares / sum));
  }
}
