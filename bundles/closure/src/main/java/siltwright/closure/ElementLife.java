package siltwright.closure;

import java.util.List;
import java.util.OptionalDouble;
import siltwright.samples.BandCounts;

/**
 * What is known of a machine while one element was in it.
 *
 * @param endH hours from its fitting to its change, or to the end of the record, h
 * @param changed whether it ended with a change
 * @param indicatorH hours at which the indicator tripped; empty if it did not
 * @param backFlush share of what it held that the change is said to have let go
 * @param handlingMg dirt that the change is said to have let in, mg
 * @param samples counts in running
 * @param readings drops over the filter
 */
public record ElementLife(
    double endH,
    boolean changed,
    OptionalDouble indicatorH,
    double backFlush,
    double handlingMg,
    List<Sample> samples,
    List<Reading> readings) {
  /**
   * A count in running.
   *
   * @param hours hours since the element was fitted, h
   * @param counts what was counted
   */
  public record Sample(double hours, BandCounts counts) {}

  /**
   * A drop over the filter.
   *
   * @param hours hours since the element was fitted, h
   * @param state duty state in which it was read
   * @param kPa the reading
   */
  public record Reading(double hours, int state, double kPa) {}

  public ElementLife {
    samples = List.copyOf(samples);
    readings = List.copyOf(readings);
  }
}
