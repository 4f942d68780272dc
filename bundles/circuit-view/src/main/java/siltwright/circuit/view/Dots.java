package siltwright.circuit.view;

import siltwright.model.Bands;
import siltwright.model.SizeBands;

/**
 * How many dots stand for the dirt in the oil. There are three sizes of them, for 4 to 6, 6 to 14
 * and from 14 µm(c) on; their number goes with the square root of the count, so that four times the
 * count gives twice the dots, and counts a thousand times apart fit on one picture.
 */
final class Dots {
  /** Sizes of dots. */
  static final int SIZES = 3;

  /** Radius of each. */
  static final double[] RADIUS = {1.5, 2.2, 3.2};

  private static final double PER_ROOT = 0.07;
  private static final double MOST_PER_100 = 30;
  private static final double PER_ROOT_OF_MG_PER_H = 0.5;

  private Dots() {}

  /** Returns the count of a size of dot, 1/mL. */
  static double perMl(Bands perMl, int size) {
    double sum = 0;
    for (int j = 0; j < SizeBands.COUNT; j++) {
      if (Math.min(j, SIZES - 1) == size) {
        sum += perMl.get(j);
      }
    }
    return sum;
  }

  /** Returns the dots on 100 of a line with oil of some counts. */
  static double per100(Bands perMl, int size) {
    return Math.min(MOST_PER_100, PER_ROOT * Math.sqrt(Math.max(0, perMl(perMl, size))));
  }

  /** Returns the dots on 100 of a way in for dirt. */
  static double per100OfDirt(double mgPerH) {
    return Math.min(MOST_PER_100, PER_ROOT_OF_MG_PER_H * Math.sqrt(Math.max(0, mgPerH)));
  }

  /** Returns a number from 0 to 1 that looks random and belongs to two others for good. */
  static double scatter(long a, long b) {
    long z = a * 0x9E3779B97F4A7C15L + b * 0xC2B2AE3D27D4EB4FL + 0x165667B19E3779F9L;
    z = (z ^ (z >>> 30)) * 0xBF58476D1CE4E5B9L;
    z = (z ^ (z >>> 27)) * 0x94D049BB133111EBL;
    z ^= z >>> 31;
    return (z >>> 11) * 0x1.0p-53;
  }
}
