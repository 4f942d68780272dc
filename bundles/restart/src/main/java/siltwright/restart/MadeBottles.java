package siltwright.restart;

import java.util.SplittableRandom;
import siltwright.model.SizeBands;
import siltwright.samples.BandCounts;
import siltwright.samples.CountError;

/**
 * Bottles as they might come: the unknown numbers drawn once a change, laboratory errors once a
 * bottle and a band. For planning and for studies.
 */
public final class MadeBottles {
  private static final int MOST_BY_ONE = 60;

  private final WashOut wash;
  private final CountError error;
  private final double[] cumulativeCounted;
  private final SplittableRandom random;
  private final double[] u;

  /**
   * Draws what is unknown of one change.
   *
   * @param wash how a release shows
   * @param doubt how well the rest is known
   * @param error how far counts lie off
   * @param sizes counted sizes, 1 to 6: 4, 6, 14, 21, 38, 70 µm(c)
   * @param seed same seed, same bottles
   */
  public MadeBottles(WashOut wash, Doubt doubt, CountError error, int sizes, long seed) {
    this.wash = wash;
    this.error = error;
    this.cumulativeCounted = new double[SizeBands.COUNT];
    for (int i = sizes; i < SizeBands.COUNT; i++) {
      cumulativeCounted[i] = Double.NaN;
    }
    random = new SplittableRandom(seed);
    u =
        new double[] {
          doubt.base() * normal(),
          doubt.sizes() * normal(),
          doubt.rate() * normal(),
          doubt.baseSlope() * normal(),
          error.all() * normal()
        };
  }

  private double normal() {
    return random.nextGaussian();
  }

  /** Returns a bottle from before the change, when the oil has settled. */
  public Bottle before() {
    return bottle(0, Double.NaN);
  }

  /**
   * Returns a bottle from after the restart.
   *
   * @param grams grams released
   * @param minute minutes of running since the restart
   */
  public Bottle after(double grams, double minute) {
    return bottle(grams, minute);
  }

  private Bottle bottle(double grams, double minute) {
    double mass = 0;
    double[] z = new double[SizeBands.COUNT];
    for (int j = 0; j < z.length; j++) {
      z[j] = Math.log(SizeBands.meanUmC(j) / 10) / Math.log(2);
      mass += wash.particlesPerG().get(j) * SizeBands.particleG(j) * Math.exp(u[1] * z[j]);
    }
    double[] bands = new double[SizeBands.COUNT];
    for (int j = 0; j < z.length; j++) {
      double settled = wash.basePerMl().get(j) * Math.exp(u[0] + u[3] * z[j]);
      double pulse =
          Double.isNaN(minute)
              ? 0
              : grams
                  / wash.volumeMl()
                  * wash.particlesPerG().get(j)
                  * Math.exp(u[1] * z[j] - wash.ratePerMin().get(j) * Math.exp(u[2]) * minute)
                  / mass;
      bands[j] = Math.exp(u[4]) * (settled + pulse);
    }
    double bottle = error.bottle() * normal();
    double volume = error.volumeMl();
    BandCounts shape = BandCounts.of(cumulativeCounted, volume, false);
    double[] counted = new double[shape.bands()];
    for (int k = 0; k < counted.length; k++) {
      double sum = 0;
      for (int j = shape.first()[k]; j <= shape.last()[k]; j++) {
        sum += bands[j];
      }
      counted[k] = poisson(sum * Math.exp(bottle + error.size() * normal()) * volume) / volume;
    }
    return new Bottle(minute, new BandCounts(shape.first(), shape.last(), counted, volume, false));
  }

  private double poisson(double mean) {
    if (mean > MOST_BY_ONE) {
      return Math.max(0, Math.rint(mean + Math.sqrt(mean) * normal()));
    }
    double limit = Math.exp(-mean);
    int n = -1;
    for (double p = 1; p > limit; n++) {
      p *= random.nextDouble();
    }
    return Math.max(0, n);
  }
}
