package siltwright.samples;

import org.apache.commons.math3.special.Erf;

/** The standard normal distribution. */
final class Normal {
  private Normal() {}

  /** Returns the chance of at least so large a value on either side. */
  static double twoSided(double z) {
    return Erf.erfc(Math.abs(z) / Math.sqrt(2));
  }
}
