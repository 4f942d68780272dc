package siltwright.fleet;

import java.util.Arrays;
import java.util.Comparator;

/**
 * Share of operating hours within a target, from samples at uneven distances.
 *
 * <p>The hours between two samples belong half to each, as the nearest sample is the best there is;
 * nothing is said of the hours before the first and behind the last. So ten samples in a bad week
 * weigh as a week and not as ten samples. Source: definition (own).
 *
 * @param hoursH hours between the first and the last sample of each machine
 * @param withinH those within the target
 * @param undecidedH hours between a sample within the target and one that is not: the state changed
 *     somewhere in them
 * @param samples samples of each machine
 * @param longestGapH longest distance of two samples of each machine
 */
public record Compliance(
    double[] hoursH, double[] withinH, double[] undecidedH, int[] samples, double[] longestGapH) {
  /**
   * Returns the hours.
   *
   * @param machines number of machines
   * @param machine index of the machine of each sample
   * @param atH hour of each sample, each hour of a machine once
   * @param within whether each sample is within the target
   */
  public static Compliance of(int machines, int[] machine, double[] atH, boolean[] within) {
    double[] hours = new double[machines];
    double[] good = new double[machines];
    double[] undecided = new double[machines];
    int[] samples = new int[machines];
    double[] longest = new double[machines];
    Integer[] order = new Integer[machine.length];
    Arrays.setAll(order, i -> i);
    Arrays.sort(
        order, Comparator.<Integer>comparingInt(i -> machine[i]).thenComparingDouble(i -> atH[i]));
    for (int k = 0; k < order.length; k++) {
      int i = order[k];
      int m = machine[i];
      samples[m]++;
      if (k > 0 && machine[order[k - 1]] == m) {
        int before = order[k - 1];
        double gap = atH[i] - atH[before];
        hours[m] += gap;
        good[m] += gap * ((within[i] ? 0.5 : 0) + (within[before] ? 0.5 : 0));
        undecided[m] += within[i] == within[before] ? 0 : gap;
        longest[m] = Math.max(longest[m], gap);
      }
    }
    return new Compliance(hours, good, undecided, samples, longest);
  }

  /**
   * Returns the share of hours within the target of some machines, with the machine as the unit.
   */
  public MachineRatio share(int[] machines) {
    return MachineRatio.of(
        Arrays.stream(machines).mapToDouble(m -> withinH[m]).toArray(),
        Arrays.stream(machines).mapToDouble(m -> hoursH[m]).toArray());
  }
}
