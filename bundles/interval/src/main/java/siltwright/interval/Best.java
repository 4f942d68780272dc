package siltwright.interval;

import java.util.List;
import java.util.Optional;

/**
 * The interval that costs least with one procedure and option, or the reason why there is none.
 *
 * @param interval the answer; empty where there is none
 * @param free the interval that would cost least without limits; empty where none does
 * @param reason why there is no interval; empty where there is one
 * @param limits what the limits allow
 */
public record Best(
    Optional<Interval> interval, Optional<Least> free, String reason, List<Limit> limits) {
  public Best {
    limits = List.copyOf(limits);
  }

  /**
   * An interval and what it costs.
   *
   * @param hours the interval, h
   * @param costPerH cost, money per hour
   * @param within1pct shortest and longest interval within 1 % of that cost, h; empty where the
   *     interval was only sought for comparison
   * @param within5pct shortest and longest interval within 5 % of that cost, h; likewise
   */
  public record Interval(double hours, double costPerH, double[] within1pct, double[] within5pct) {}

  /**
   * The least of a cost curve without limits.
   *
   * @param hours interval, h
   * @param costPerH cost there, money per hour
   */
  public record Least(double hours, double costPerH) {}

  /**
   * A limit on the interval.
   *
   * @param name what limits
   * @param longestH longest interval that it allows, h; 0 where it allows none
   * @param binds whether it keeps the interval from costing less
   */
  public record Limit(String name, double longestH, boolean binds) {}

  /** Cost per hour; infinite where there is no interval. */
  double costPerH() {
    return interval.map(Interval::costPerH).orElse(Double.POSITIVE_INFINITY);
  }
}
