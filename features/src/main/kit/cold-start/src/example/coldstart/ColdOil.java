package example.coldstart;

import siltwright.model.Element;
import siltwright.model.Fluid;
import siltwright.model.Machine;
import siltwright.model.ReturnFilter;

/**
 * Cold oil and the bypass of a return filter.
 *
 * <pre>
 *   lg lg (ν + 0.7) is straight over lg T                  ASTM D341
 *   p = p_clean · h · Q/Q_rated · ν/ν_rated                the element, h times the clean drop
 *   b = G (p − p_crack)/(Q + G p),  G = Q_rated/(p_full − p_crack)   element and valve in parallel
 *   T = T_warm + (T_start − T_warm) e^(−t/τ)               Newton's law of heating
 * </pre>
 */
final class ColdOil {
  private static final double KELVIN = 273.15;

  private ColdOil() {}

  /** Returns the kinematic viscosity, mm²/s. */
  static double viscosity(Fluid oil, double degC) {
    double low = doubleLog(oil.viscosityAtLowMm2PerS());
    double high = doubleLog(oil.viscosityAtHighMm2PerS());
    double from = Math.log10(oil.lowDegC() + KELVIN);
    double slope = (high - low) / (Math.log10(oil.highDegC() + KELVIN) - from);
    double y = low + slope * (Math.log10(degC + KELVIN) - from);
    return Math.pow(10, Math.pow(10, y)) - 0.7;
  }

  private static double doubleLog(double viscosity) {
    return Math.log10(Math.log10(viscosity + 0.7));
  }

  /** Returns the mean flow of the duty, L/min. */
  static double flowLPerMin(Machine machine) {
    return machine.duty().stream().mapToDouble(d -> d.share() * d.flowLPerMin()).sum();
  }

  /** Returns the pressure drop at which the element is full, as a multiple of the clean one's. */
  static double fullRatio(Machine machine) {
    Element element = machine.returnFilter().element();
    return element.terminalDropKPa() / element.cleanDropKPa();
  }

  /**
   * Returns the share of the mean flow that goes past the element.
   *
   * @param ratio pressure drop of the element, of the clean one's
   * @param degC oil temperature, °C
   */
  static double past(Machine machine, double ratio, double degC) {
    ReturnFilter filter = machine.returnFilter();
    Element e = filter.element();
    double flow = flowLPerMin(machine);
    double valve =
        e.ratedFlowLPerMin() / (filter.bypassFullFlowKPa() - filter.bypassCrackingKPa());
    double drop =
        (e.cleanDropKPa() * ratio * flow / e.ratedFlowLPerMin())
            * (viscosity(machine.fluid(), degC) / e.ratedViscosityMm2PerS());
    double over = drop - filter.bypassCrackingKPa();
    return over <= 0 ? 0 : valve * over / (flow + valve * drop);
  }

  /** Returns the oil's temperature in °C some minutes after a start. */
  static double degC(Machine machine, double startDegC, double warmingMin, double minute) {
    double warm = machine.duty().stream().mapToDouble(d -> d.share() * d.oilDegC()).sum();
    return warm + (startDegC - warm) * Math.exp(-minute / warmingMin);
  }
}
