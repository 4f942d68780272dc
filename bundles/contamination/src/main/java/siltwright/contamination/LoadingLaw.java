package siltwright.contamination;

import java.util.List;
import siltwright.model.Element;
import siltwright.model.LoadingPoint;

/**
 * How an element's pressure drop rises with the mass that it holds, at constant flow and viscosity.
 *
 * <pre>  dh/dm = k h^n,  h(0) = 1,  h(1) = r = p_term / p_clean
 *   n = 1:  h = r^m       else  k = (r^(1-n) - 1)/(1 - n),  h = [1 + (1-n) k m]^(1/(1-n))  </pre>
 *
 * <p>m is retained mass over capacity. n &gt; 1 has a wall at a finite m, beyond which h is
 * infinite. Where the element's own measured curve is known it is used instead: ln h is
 * interpolated linearly in m and the last slope goes on beyond its end.
 *
 * <p>Source: Hermia's blocking laws written for constant flow (own derivation in docs/theory.md);
 * intermediate blocking is n = 1, cake is n = 0, standard n = 3/2, complete n = 2.
 */
public final class LoadingLaw {
  private final double exponent;
  private final double logRatio;
  private final double slope;
  private final double[] curveMass;
  private final double[] curveLogDrop;

  private LoadingLaw(double exponent, double ratio, double[] curveMass, double[] curveLogDrop) {
    this.exponent = exponent;
    this.logRatio = Math.log(ratio);
    this.slope = Math.expm1((1 - exponent) * logRatio); // (1-n) k of the law above
    this.curveMass = curveMass;
    this.curveLogDrop = curveLogDrop;
  }

  /**
   * Returns the law of a blocking exponent.
   *
   * @param exponent n, any finite number; within 1e-9 of 1 it is taken as 1
   * @param ratio r = terminal over clean pressure drop, above 1
   * @throws IllegalArgumentException if the ratio is not above 1
   */
  public static LoadingLaw blocking(double exponent, double ratio) {
    if (!(ratio > 1)) {
      throw new IllegalArgumentException("terminal over clean drop must be above 1, not " + ratio);
    }
    return new LoadingLaw(Math.abs(exponent - 1) < 1e-9 ? 1 : exponent, ratio, null, null);
  }

  /** Returns the law of an element: its measured curve where there is one, else its exponent. */
  public static LoadingLaw of(Element element) {
    List<LoadingPoint> curve = element.loadingCurve();
    if (curve.isEmpty()) {
      return blocking(
          element.blockingExponent(), element.terminalDropKPa() / element.cleanDropKPa());
    }
    double[] mass = curve.stream().mapToDouble(LoadingPoint::massShare).toArray();
    double[] logDrop = curve.stream().mapToDouble(p -> Math.log(p.dropRatio())).toArray();
    return new LoadingLaw(1, element.terminalDropKPa() / element.cleanDropKPa(), mass, logDrop);
  }

  /**
   * Returns the pressure drop over its clean value.
   *
   * @param massShare retained mass over capacity, at least 0
   * @return h, at least 1; infinite at and beyond the wall
   */
  public double dropRatio(double massShare) {
    if (curveMass != null) {
      return Math.exp(onCurve(massShare));
    }
    if (exponent == 1) {
      return Math.exp(logRatio * massShare);
    }
    double base = 1 + slope * massShare;
    return base <= 0 ? Double.POSITIVE_INFINITY : Math.exp(Math.log(base) / (1 - exponent));
  }

  /**
   * Returns the retained mass over capacity at which a pressure drop is reached.
   *
   * @param dropRatio h, at least 1
   * @return mass share, 0 for h = 1
   */
  public double massShareAt(double dropRatio) {
    double logDrop = Math.log(dropRatio);
    if (curveMass != null) {
      int i = 1;
      while (i < curveMass.length - 1 && curveLogDrop[i] < logDrop) {
        i++;
      }
      return curveMass[i - 1]
          + (logDrop - curveLogDrop[i - 1])
              * (curveMass[i] - curveMass[i - 1])
              / (curveLogDrop[i] - curveLogDrop[i - 1]);
    }
    if (exponent == 1) {
      return logDrop / logRatio;
    }
    return Math.expm1((1 - exponent) * logDrop) / slope;
  }

  /** Returns the mass over capacity at which h is infinite; infinite where it never is. */
  double wall() {
    return curveMass == null && exponent > 1 ? -1 / slope : Double.POSITIVE_INFINITY;
  }

  /**
   * Returns d ln h / dm.
   *
   * @param massShare retained mass over capacity; infinite at and beyond the wall
   */
  double logSlope(double massShare) {
    if (curveMass != null) {
      int i = segment(massShare);
      return (curveLogDrop[i] - curveLogDrop[i - 1]) / (curveMass[i] - curveMass[i - 1]);
    }
    if (exponent == 1) {
      return logRatio;
    }
    double base = 1 + slope * massShare;
    return base <= 0 ? Double.POSITIVE_INFINITY : slope / ((1 - exponent) * base);
  }

  private int segment(double massShare) {
    int i = 1;
    while (i < curveMass.length - 1 && curveMass[i] < massShare) {
      i++;
    }
    return i;
  }

  private double onCurve(double massShare) {
    int i = segment(massShare);
    return curveLogDrop[i - 1]
        + (massShare - curveMass[i - 1])
            * (curveLogDrop[i] - curveLogDrop[i - 1])
            / (curveMass[i] - curveMass[i - 1]);
  }
}
