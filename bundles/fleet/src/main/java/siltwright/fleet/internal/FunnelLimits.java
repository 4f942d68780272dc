package siltwright.fleet.internal;

import org.apache.commons.math3.special.Gamma;

/**
 * Counts that chance alone seldom leaves, as a smooth function of the count expected.
 *
 * <p>Quantiles of a Poisson distribution, interpolated between whole counts so that the lines of a
 * funnel do not jump. Source: D. J. Spiegelhalter, Statistics in Medicine 24 (2005) 1185-1202,
 * appendix (from memory).
 */
final class FunnelLimits {
  private FunnelLimits() {}

  /**
   * Returns the count below which a share lies.
   *
   * <pre>  r - (P(r) - p)/(P(r) - P(r - 1)),  r the smallest whole number with P(r) above p  </pre>
   */
  static double count(double expected, double share) {
    // From where the normal law puts it, up or down to where it is.
    int r = (int) Math.max(0, expected - 4 * Math.sqrt(expected) - 4);
    while (below(r, expected) <= share) {
      r++;
    }
    double above = below(r, expected);
    double under = r == 0 ? 0 : below(r - 1, expected);
    return Math.max(0, r - (above - share) / (above - under));
  }

  /** Returns the probability of at most so many. */
  private static double below(int r, double expected) {
    return Gamma.regularizedGammaQ(r + 1.0, expected);
  }
}
