package siltwright.model;

/**
 * How the mass of a dirt is shared among the size bands.
 *
 * @param id name in the file's catalogue
 * @param massShare share of the mass in each band, sums to 1
 */
public record SizeDistribution(String id, Bands massShare) {
  /**
   * Returns the particles of each band in one gram of the dirt, spheres of the band's mean size and
   * of the density of test dust.
   */
  public Bands particlesPerG() {
    double[] particles = new double[SizeBands.COUNT];
    for (int j = 0; j < SizeBands.COUNT; j++) {
      particles[j] = massShare.get(j) / SizeBands.particleG(j);
    }
    return Bands.of(particles);
  }
}
