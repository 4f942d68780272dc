package siltwright.cleanliness;

import java.util.Arrays;
import siltwright.model.Bands;
import siltwright.model.SizeBands;
import siltwright.model.SizeDistribution;

/**
 * How the mass of a dirt is shared among the size bands, from a count of its particles; the way
 * back is {@link SizeDistribution#particlesPerG}.
 */
public final class MassShares {
  private MassShares() {}

  /**
   * Returns the mass shares of a dirt whose particles were counted, each particle a sphere of its
   * band's mean size and all of one density.
   *
   * @param cumulative relative counts at or above 4, 6, 14, 21, 38, 70 µm(c), any unit, length 6,
   *     not increasing, the first above 0; not modified
   * @return share of the mass in each band, adding to 1
   * @throws IllegalArgumentException if there are not six, one is negative or not a number, they
   *     rise with size, or all are 0
   */
  public static Bands ofCounts(double... cumulative) {
    ParticleCounts counts = ParticleCounts.perMl(cumulative);
    if (!counts.complete() || counts.perMl(0) == 0) {
      throw new IllegalArgumentException(
          "mass shares come from a count at each of six sizes, the first above 0, not from "
              + Arrays.toString(cumulative));
    }
    double[] mass = counts.bandsPerMl();
    for (int j = 0; j < mass.length; j++) {
      mass[j] *= SizeBands.particleG(j);
    }
    return Bands.of(mass).times(1 / Arrays.stream(mass).sum());
  }
}
