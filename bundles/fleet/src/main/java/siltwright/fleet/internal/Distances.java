package siltwright.fleet.internal;

import siltwright.life.Estimated;

/** How far an estimate is from saying nothing, and how many more hours would take it there. */
final class Distances {
  /** Standard normal quantiles of 97.5 % and of 80 %. */
  private static final double SURE = 1.959963984540054;

  private static final double POWER = 0.8416212335729143;

  /** More times the hours than this are no advice. */
  static final double MOST = 100;

  private Distances() {}

  static double z(Estimated ratio) {
    return Math.log(ratio.value()) / ratio.logStandardError();
  }

  /**
   * Returns how many times the hours watched would show, 8 times in 10, a difference that is what
   * it looks like now.
   *
   * <pre>  ((z of 97.5 % + z of 80 %)/z)²: an error falls with the root of the hours  </pre>
   */
  static double timesTheHours(double z) {
    double ratio = (SURE + POWER) / z;
    return ratio * ratio;
  }
}
