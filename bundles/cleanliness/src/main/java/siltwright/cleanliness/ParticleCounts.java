package siltwright.cleanliness;

import java.util.Arrays;
import java.util.OptionalDouble;
import siltwright.model.SizeBands;

/**
 * What was counted in an oil sample: particles per mL at or above 4, 6, 14, 21, 38 and 70 µm(c),
 * some of the sizes perhaps not counted, and the volume that was looked at if it is known.
 */
public final class ParticleCounts {
  private final double[] perMl;
  private final double volumeMl;

  private ParticleCounts(double[] perMl, double volumeMl) {
    if (perMl.length != SizeBands.COUNT) {
      throw new IllegalArgumentException(
          "counts are given at 4, 6, 14, 21, 38 and 70 um(c), six numbers, not " + perMl.length);
    }
    int last = -1;
    for (int i = 0; i < perMl.length; i++) {
      if (Double.isNaN(perMl[i])) {
        continue;
      }
      if (!(perMl[i] >= 0) || Double.isInfinite(perMl[i])) {
        throw new IllegalArgumentException(
            "a count is 0 or more, not " + perMl[i] + " at " + SizeBands.edgeUmC(i) + " um(c)");
      }
      if (last >= 0 && perMl[i] > perMl[last]) {
        throw new IllegalArgumentException(
            "counts at or above a size do not rise with size, but "
                + perMl[i]
                + " at "
                + SizeBands.edgeUmC(i)
                + " um(c) is more than "
                + perMl[last]
                + " at "
                + SizeBands.edgeUmC(last)
                + " um(c)");
      }
      last = i;
    }
    if (last < 0) {
      throw new IllegalArgumentException("no size was counted: give a count at one size at least");
    }
    this.perMl = perMl;
    this.volumeMl = volumeMl;
  }

  /**
   * Returns counts of an unknown volume.
   *
   * @param cumulativePerMl particles per mL at or above 4, 6, 14, 21, 38, 70 µm(c), length 6, not
   *     increasing, NaN where not counted; copied
   * @throws IllegalArgumentException if a count is negative or infinite, counts rise with size, or
   *     nothing was counted
   */
  public static ParticleCounts perMl(double... cumulativePerMl) {
    return new ParticleCounts(cumulativePerMl.clone(), Double.NaN);
  }

  /**
   * Returns counts of a known volume, so that low counts can be reported as such.
   *
   * @param particles particles counted at or above 4, 6, 14, 21, 38, 70 µm(c), length 6, not
   *     increasing, NaN where not counted; copied
   * @param volumeMl volume in which they were counted, mL, above 0
   * @throws IllegalArgumentException as {@link #perMl}, or if the volume is not above 0
   */
  public static ParticleCounts inVolume(double[] particles, double volumeMl) {
    requireVolume(volumeMl);
    return new ParticleCounts(
        Arrays.stream(particles).map(count -> count / volumeMl).toArray(), volumeMl);
  }

  /**
   * Returns the same counts with the volume that was looked at.
   *
   * @param volumeMl volume in which the particles were counted, mL, above 0
   * @throws IllegalArgumentException if the volume is not above 0
   */
  public ParticleCounts countedIn(double volumeMl) {
    requireVolume(volumeMl);
    return new ParticleCounts(perMl, volumeMl);
  }

  private static void requireVolume(double volumeMl) {
    if (!(volumeMl > 0) || Double.isInfinite(volumeMl)) {
      throw new IllegalArgumentException("the counted volume is above 0 mL, not " + volumeMl);
    }
  }

  /** Returns whether the size of edge {@code i} (0 to 5) was counted. */
  public boolean counted(int i) {
    return !Double.isNaN(perMl[i]);
  }

  /** Returns the particles per mL at or above edge {@code i} (0 to 5), NaN if not counted. */
  public double perMl(int i) {
    return perMl[i];
  }

  /** Returns all six counts, NaN where not counted; a copy. */
  public double[] cumulativePerMl() {
    return perMl.clone();
  }

  /** Returns the counted volume in mL, empty if unknown. */
  public OptionalDouble volumeMl() {
    return Double.isNaN(volumeMl) ? OptionalDouble.empty() : OptionalDouble.of(volumeMl);
  }

  /** Returns whether all six sizes were counted. */
  public boolean complete() {
    return Arrays.stream(perMl).noneMatch(Double::isNaN);
  }

  /**
   * Returns the particles per mL in each of the six bands.
   *
   * @throws IllegalStateException if a size was not counted
   */
  public double[] bandsPerMl() {
    if (!complete()) {
      throw new IllegalStateException("band counts need all six sizes counted");
    }
    return SizeBands.toBands(perMl);
  }

  /**
   * Returns the mass concentration of the counted particles.
   *
   * <p>Each particle is a sphere of its band's mean size with the density of test dust; what is
   * above 100 µm(c) counts as if it were in the last band, what is below 4 µm(c) does not count.
   * The few largest particles carry most of the mass, so the figure is rough. Own convention, see
   * {@link SizeBands}.
   *
   * @return mg/L
   * @throws IllegalStateException if a size was not counted
   */
  public double massMgPerL() {
    // g per mL to mg per L
    return SizeBands.massG(bandsPerMl()) * 1e6;
  }
}
