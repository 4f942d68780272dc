package siltwright.checks;

/**
 * Airborne dust that settles into an opening left uncovered.
 *
 * <pre>
 *   mass = c v A t          v = ρ g d²/(18 μ) by Stokes, at most {@value #FASTEST_M_PER_S} m/s
 * </pre>
 *
 * <p>c is the dust in the air by mass, A the opening, t the time. Still air; wind can make it
 * several times more, a lid propped over it far less. What falls from gloves, rags and the
 * housing's rim is not in it and is usually more.
 *
 * <p>Source: Stokes' law with air at 20 °C (1.81e-5 Pa s); dust of 2650 kg/m³ (ISO 12103-1).
 *
 * @param dustMgPerM3 dust in the air, mg/m³
 * @param areaCm2 opening, cm²
 * @param minutes time uncovered, min
 */
public record OpenTank(double dustMgPerM3, double areaCm2, double minutes) {
  /** Particles above some 80 µm fall slower than Stokes' law says; held here. */
  static final double FASTEST_M_PER_S = 0.5;

  private static final double DENSITY_KG_PER_M3 = 2650;
  private static final double GRAVITY_M_PER_S2 = 9.80665;
  private static final double AIR_PA_S = 1.81e-5;

  /**
   * Returns the speed at which a dust particle falls in still air, m/s.
   *
   * @param sizeUm diameter, µm
   */
  public static double fallingMPerS(double sizeUm) {
    double d = sizeUm * 1e-6;
    return Math.min(
        FASTEST_M_PER_S, DENSITY_KG_PER_M3 * GRAVITY_M_PER_S2 * d * d / (18 * AIR_PA_S));
  }

  /**
   * Returns the dust that settles, mg.
   *
   * @param sizeUm diameter of the dust by mass, µm
   */
  public double admittedMg(double sizeUm) {
    return dustMgPerM3 * fallingMPerS(sizeUm) * areaCm2 * 1e-4 * minutes * 60;
  }
}
