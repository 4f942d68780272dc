package siltwright.interval;

/**
 * What an hour of operation costs, by what it is paid for, in money per hour.
 *
 * @param element elements
 * @param service seals, work, standstill and lost oil of the changes
 * @param equipment another breather or offline filter, where one is chosen
 * @param wear renewals by wear that would come with the bypass shut
 * @param acute failures by large particles that would come with the bypass shut
 * @param bypass renewals and failures added because oil goes through the bypass
 */
public record CostSplit(
    double element, double service, double equipment, double wear, double acute, double bypass) {
  /** Returns the sum, money per hour. */
  public double total() {
    return element + service + equipment + wear + acute + bypass;
  }
}
