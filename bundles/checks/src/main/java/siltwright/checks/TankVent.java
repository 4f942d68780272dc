package siltwright.checks;

import org.apache.commons.math3.analysis.integration.IterativeLegendreGaussIntegrator;

/**
 * Air let out of a pressurised tank through a small opening.
 *
 * <pre>
 *   V/(R T) dp/dt = -ṁ
 *   ṁ = C A p √(γ/(R T)) (2/(γ+1))^((γ+1)/(2(γ-1)))                       p_a/p at most (2/(γ+1))^(γ/(γ-1))
 *   ṁ = C A p √(2γ/((γ-1) R T)) √(x^(2/γ) - x^((γ+1)/γ)),  x = p_a/p     above
 * </pre>
 *
 * <p>The air stays at its temperature (the oil keeps it there), the opening is sharp-edged with a
 * constant coefficient C. A hose or a partly shut valve behind it is slower.
 *
 * <p>Source: isentropic flow of an ideal gas through an orifice, textbook; γ = 1.4, R = 287.05
 * J/(kg K) for air.
 *
 * @param airL air volume above the oil, L
 * @param boreMm diameter of the opening, mm
 * @param coefficient flow coefficient C, 1
 * @param airDegC temperature of the air, °C
 * @param outsideKPa pressure outside, kPa absolute
 */
public record TankVent(
    double airL, double boreMm, double coefficient, double airDegC, double outsideKPa) {
  private static final double GAMMA = 1.4;
  private static final double GAS_J_PER_KG_K = 287.05;
  private static final double ZERO_DEG_C_K = 273.15;
  private static final double CRITICAL = Math.pow(2 / (GAMMA + 1), GAMMA / (GAMMA - 1));

  /**
   * Returns the air that leaves, kg/s.
   *
   * @param gaugeKPa pressure in the tank, kPa gauge
   */
  public double flowKgPerS(double gaugeKPa) {
    double p = (gaugeKPa + outsideKPa) * 1000;
    double x = outsideKPa * 1000 / p;
    double area = Math.PI / 4 * boreMm * boreMm * 1e-6;
    double rt = GAS_J_PER_KG_K * (airDegC + ZERO_DEG_C_K);
    double function =
        x <= CRITICAL
            ? Math.sqrt(GAMMA) * Math.pow(2 / (GAMMA + 1), (GAMMA + 1) / (2 * (GAMMA - 1)))
            : Math.sqrt(
                2
                    * GAMMA
                    / (GAMMA - 1)
                    * (Math.pow(x, 2 / GAMMA) - Math.pow(x, (GAMMA + 1) / GAMMA)));
    return coefficient * area * p / Math.sqrt(rt) * function;
  }

  /**
   * Returns the time in which the pressure falls, s.
   *
   * @param fromKPa pressure at first, kPa gauge
   * @param toKPa pressure at last, kPa gauge, above 0 and at most {@code fromKPa}
   */
  public double timeS(double fromKPa, double toKPa) {
    if (fromKPa <= toKPa) {
      return 0;
    }
    // V/(R T): liters and kilopascals cancel
    double kgPerKPa = airL / (GAS_J_PER_KG_K * (airDegC + ZERO_DEG_C_K));
    // In the root of the gauge pressure the integrand stays finite as it goes to 0.
    return new IterativeLegendreGaussIntegrator(20, 1e-10, 1e-12)
        .integrate(
            100_000,
            r -> kgPerKPa * 2 * r / flowKgPerS(r * r),
            Math.sqrt(toKPa),
            Math.sqrt(fromKPa));
  }
}
