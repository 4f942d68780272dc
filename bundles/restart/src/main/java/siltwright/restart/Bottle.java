package siltwright.restart;

import siltwright.samples.BandCounts;

/**
 * One count of the oil.
 *
 * @param minute minutes of running since the restart; not a number for a sample from before the
 *     change, which tells the counts that the oil settles at
 * @param counts what was counted
 */
public record Bottle(double minute, BandCounts counts) {
  /** Returns whether the bottle is from before the change. */
  public boolean before() {
    return Double.isNaN(minute);
  }
}
