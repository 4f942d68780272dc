package siltwright.cleanliness;

import siltwright.model.Fluid;

/**
 * The kinematic viscosity of an oil at any temperature, from two measured ones.
 *
 * <pre>
 *   log10 log10 Z = A − B log10 T        T in K
 *   Z = ν + 0.7 + exp(−1.47 − 1.84 ν − 0.51 ν²)
 * </pre>
 *
 * <p>The way back from Z to ν is the root of that equation to the last figures, not the standard's
 * approximate inverse, so that the two given points come out as they went in. Holds for liquid
 * petroleum products from 0.21 to 2·10⁷ mm²/s (these bounds from memory of the standard); a
 * viscosity outside is refused.
 *
 * <p>Source: ASTM D341, equations as reprinted at ttwiki and scribd 361017004, which take the small
 * term in base e.
 */
public final class ViscosityLine {
  /** Lowest viscosity of the line, mm²/s. */
  public static final double LOWEST_MM2_PER_S = 0.21;

  /** Highest viscosity of the line, mm²/s. */
  public static final double HIGHEST_MM2_PER_S = 2e7;

  private static final double ZERO_DEG_C_IN_K = 273.15;

  // So that a given point on a bound comes back and is not refused.
  private static final double ROUNDING = 1e-7;

  private final double a;
  private final double b;

  private ViscosityLine(double a, double b) {
    this.a = a;
    this.b = b;
  }

  /**
   * Returns the line through two measured viscosities.
   *
   * @param firstDegC temperature of the first, °C, above −273.15
   * @param firstMm2PerS first kinematic viscosity, mm²/s, 0.21 to 2·10⁷
   * @param secondDegC temperature of the second, °C, above −273.15, not that of the first
   * @param secondMm2PerS second kinematic viscosity, mm²/s, lower at the higher temperature
   * @throws IllegalArgumentException if a value is out of its range, the temperatures are the same,
   *     or the viscosity does not fall as it gets warmer
   */
  public static ViscosityLine through(
      double firstDegC, double firstMm2PerS, double secondDegC, double secondMm2PerS) {
    double x1 = logTemperature(firstDegC);
    double x2 = logTemperature(secondDegC);
    double y1 = logLogZ(firstMm2PerS);
    double y2 = logLogZ(secondMm2PerS);
    double slope = (y1 - y2) / (x2 - x1);
    if (!(slope > 0) || Double.isInfinite(slope)) {
      throw new IllegalArgumentException(
          "the viscosity of an oil falls as it gets warmer, not from "
              + firstMm2PerS
              + " mm2/s at "
              + firstDegC
              + " degC to "
              + secondMm2PerS
              + " mm2/s at "
              + secondDegC
              + " degC");
    }
    return new ViscosityLine(y1 + slope * x1, slope);
  }

  /**
   * Returns the line of an oil of the machine model.
   *
   * @throws IllegalArgumentException as {@link #through}
   */
  public static ViscosityLine of(Fluid fluid) {
    return through(
        fluid.lowDegC(),
        fluid.viscosityAtLowMm2PerS(),
        fluid.highDegC(),
        fluid.viscosityAtHighMm2PerS());
  }

  /** Returns the line's constant A. */
  public double a() {
    return a;
  }

  /** Returns the line's constant B. */
  public double b() {
    return b;
  }

  /**
   * Returns the kinematic viscosity at a temperature.
   *
   * @param temperatureDegC °C, above −273.15
   * @return mm²/s
   * @throws IllegalArgumentException if the temperature is not above absolute zero or the viscosity
   *     there is outside 0.21 to 2·10⁷ mm²/s
   */
  public double mm2PerS(double temperatureDegC) {
    double z = Math.pow(10, Math.pow(10, a - b * logTemperature(temperatureDegC)));
    if (!(z >= z(LOWEST_MM2_PER_S) * (1 - ROUNDING) && z <= HIGHEST_MM2_PER_S * (1 + ROUNDING))) {
      throw new IllegalArgumentException(
          "at " + temperatureDegC + " degC the viscosity of this oil is outside 0.21 to 2e7 mm2/s");
    }
    // Z rises with ν and is convex: from above, Newton's steps fall onto the root.
    double nu = z - 0.7;
    double step;
    do {
      double small = smallTerm(nu);
      step = (nu + 0.7 + small - z) / (1 - (1.84 + 1.02 * nu) * small);
      nu -= step;
    } while (step > 1e-13 * nu);
    return nu;
  }

  /**
   * Returns the temperature at which the oil has a viscosity.
   *
   * @param mm2PerS kinematic viscosity, mm²/s, 0.21 to 2·10⁷
   * @return °C
   * @throws IllegalArgumentException if the viscosity is out of its range
   */
  public double degC(double mm2PerS) {
    return Math.pow(10, (a - logLogZ(mm2PerS)) / b) - ZERO_DEG_C_IN_K;
  }

  private static double logTemperature(double degC) {
    if (!(degC > -ZERO_DEG_C_IN_K) || Double.isInfinite(degC)) {
      throw new IllegalArgumentException("a temperature is above -273.15 degC, not " + degC);
    }
    return Math.log10(degC + ZERO_DEG_C_IN_K);
  }

  private static double logLogZ(double mm2PerS) {
    if (!(mm2PerS >= LOWEST_MM2_PER_S && mm2PerS <= HIGHEST_MM2_PER_S)) {
      throw new IllegalArgumentException(
          "a kinematic viscosity is from 0.21 to 2e7 mm2/s here, not " + mm2PerS);
    }
    return Math.log10(Math.log10(z(mm2PerS)));
  }

  private static double z(double nu) {
    return nu + 0.7 + smallTerm(nu);
  }

  private static double smallTerm(double nu) {
    return Math.exp(-1.47 - 1.84 * nu - 0.51 * nu * nu);
  }
}
