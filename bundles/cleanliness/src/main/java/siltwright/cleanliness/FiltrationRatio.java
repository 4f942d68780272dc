package siltwright.cleanliness;

import java.util.List;
import siltwright.model.Bands;
import siltwright.model.BetaPoint;
import siltwright.model.SizeBands;

/**
 * The filtration ratio of an element at any particle size, from the points its maker states.
 *
 * <pre>  beta_x = N_up(≥ x) / N_down(≥ x)        e = 1 − 1/beta  </pre>
 *
 * <p>ln beta is linear in size between the points and held beyond the first and the last.
 *
 * <p>Source: ISO 16889 for the ratio; the interpolation is this project's convention.
 */
public final class FiltrationRatio {
  private final double[] sizeUmC;
  private final double[] lnBeta;

  private FiltrationRatio(double[] sizeUmC, double[] lnBeta) {
    this.sizeUmC = sizeUmC;
    this.lnBeta = lnBeta;
  }

  /**
   * Returns the ratio through an element's points.
   *
   * @param sizeUmC sizes of the points, µm(c), above 0, rising, at least one; copied
   * @param beta filtration ratio at each size, 1 or more and finite; not modified
   * @throws IllegalArgumentException if the lengths differ or a value is out of its range
   */
  public static FiltrationRatio of(double[] sizeUmC, double[] beta) {
    if (sizeUmC.length != beta.length || beta.length == 0) {
      throw new IllegalArgumentException(
          "filtration ratios come with one size each, at least one, not "
              + sizeUmC.length
              + " sizes and "
              + beta.length
              + " ratios");
    }
    double[] lnBeta = new double[beta.length];
    double before = 0;
    for (int i = 0; i < beta.length; i++) {
      if (!(sizeUmC[i] > before) || Double.isInfinite(sizeUmC[i])) {
        throw new IllegalArgumentException(
            "the sizes of filtration ratios are above 0 um(c) and rise, but "
                + sizeUmC[i]
                + " follows "
                + before);
      }
      if (!(beta[i] >= 1) || Double.isInfinite(beta[i])) {
        throw new IllegalArgumentException(
            "a filtration ratio is 1 or more, not " + beta[i] + " at " + sizeUmC[i] + " um(c)");
      }
      before = sizeUmC[i];
      lnBeta[i] = Math.log(beta[i]);
    }
    return new FiltrationRatio(sizeUmC.clone(), lnBeta);
  }

  /**
   * Returns the ratio through an element's points.
   *
   * @throws IllegalArgumentException as {@link #of(double[], double[])}
   */
  public static FiltrationRatio of(List<BetaPoint> points) {
    double[] sizeUmC = new double[points.size()];
    double[] beta = new double[points.size()];
    for (int i = 0; i < beta.length; i++) {
      sizeUmC[i] = points.get(i).sizeUmC();
      beta[i] = points.get(i).beta();
    }
    return of(sizeUmC, beta);
  }

  /** Returns the efficiency of a filtration ratio, {@code 1 − 1/beta}, 1 means that all is kept. */
  public static double efficiencyOf(double beta) {
    return 1 - 1 / beta;
  }

  /** Returns the filtration ratio at a size in µm(c). */
  public double beta(double sizeUmC) {
    return Math.exp(lnBeta(sizeUmC));
  }

  /** Returns the share of the particles of a size in µm(c) that one pass keeps, 1 means all. */
  public double efficiency(double sizeUmC) {
    return -Math.expm1(-lnBeta(sizeUmC));
  }

  /** Returns the efficiency at the mean size of each size band. */
  public Bands bandEfficiencies() {
    double[] efficiencies = new double[SizeBands.COUNT];
    for (int j = 0; j < efficiencies.length; j++) {
      efficiencies[j] = efficiency(SizeBands.meanUmC(j));
    }
    return Bands.of(efficiencies);
  }

  private double lnBeta(double size) {
    int last = lnBeta.length - 1;
    if (size <= sizeUmC[0]) {
      return lnBeta[0];
    }
    if (size >= sizeUmC[last]) {
      return lnBeta[last];
    }
    int i = 1;
    while (size > sizeUmC[i]) {
      i++;
    }
    double share = (size - sizeUmC[i - 1]) / (sizeUmC[i] - sizeUmC[i - 1]);
    return lnBeta[i - 1] * (1 - share) + lnBeta[i] * share;
  }
}
