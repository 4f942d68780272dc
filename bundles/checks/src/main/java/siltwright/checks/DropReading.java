package siltwright.checks;

import java.util.Optional;
import siltwright.cleanliness.ViscosityLine;
import siltwright.model.Element;
import siltwright.model.Machine;
import siltwright.model.ReturnFilter;

/**
 * A pressure drop read over the return filter, in terms of its element.
 *
 * <pre>
 *   p = reading - p_housing (Q/Q_rated)² ρ/860
 *   p_el = Q/((Q + G p_crack)/p - G)     above p_crack, where the bypass shares the flow; else p
 *   h = p_el/(p_clean (Q/Q_rated) (ν/ν_rated)),   at rated flow and viscosity p_clean h
 * </pre>
 *
 * <p>Source: design brief, contamination balance; element laminar and housing turbulent, as filter
 * makers' catalogues say.
 *
 * @param elementKPa drop over element and bypass, kPa
 * @param blockedKPa drop that the element would have with the bypass shut, kPa; infinite where
 *     nothing passes it
 * @param bypassShare share of the flow past the element, 1
 * @param cleanKPa drop that a clean element would have here, kPa
 * @param ratio h, drop over that of a clean element at the same flow and viscosity, 1
 * @param ratedKPa drop at rated flow and viscosity, kPa
 * @param massShare retained mass over capacity that the element's law gives; empty below a clean
 *     element's drop, and where nothing passes
 */
public record DropReading(
    double elementKPa,
    double blockedKPa,
    double bypassShare,
    double cleanKPa,
    double ratio,
    double ratedKPa,
    Optional<Double> massShare) {
  private static final double ROUNDING = 1e-9;

  /**
   * Reads a gauge.
   *
   * @param machine the machine
   * @param readingKPa reading over the whole filter, kPa
   * @param flowLPerMin flow, L/min
   * @param oilDegC temperature of the oil, °C
   */
  public static DropReading of(
      Machine machine, double readingKPa, double flowLPerMin, double oilDegC) {
    ReturnFilter filter = machine.returnFilter();
    double clean = cleanElementKPa(machine, flowLPerMin, oilDegC);
    double p = Math.max(0, readingKPa - housingKPa(machine, flowLPerMin));
    double blocked = p;
    double past = 0;
    if (p > filter.bypassCrackingKPa()) {
      past =
          Math.min(1, bypassLPerMinPerKPa(filter) * (p - filter.bypassCrackingKPa()) / flowLPerMin);
      blocked = past >= 1 ? Double.POSITIVE_INFINITY : p / (1 - past);
    }
    double ratio = blocked / clean;
    Optional<Double> mass =
        ratio >= 1 - ROUNDING && Double.isFinite(ratio)
            ? Optional.of(filter.element().loading().massShareAt(Math.max(1, ratio)))
            : Optional.empty();
    return new DropReading(
        p, blocked, past, clean, ratio, ratio * filter.element().cleanDropKPa(), mass);
  }

  /**
   * Returns what the gauge reads with a clean element, kPa.
   *
   * @param machine the machine
   * @param flowLPerMin flow, L/min
   * @param oilDegC temperature of the oil, °C
   */
  public static double cleanReadingKPa(Machine machine, double flowLPerMin, double oilDegC) {
    ReturnFilter filter = machine.returnFilter();
    double element = cleanElementKPa(machine, flowLPerMin, oilDegC);
    double cracking = filter.bypassCrackingKPa();
    if (element > cracking) {
      double g = bypassLPerMinPerKPa(filter);
      element = (flowLPerMin + g * cracking) / (flowLPerMin / element + g);
    }
    return element + housingKPa(machine, flowLPerMin);
  }

  private static double bypassLPerMinPerKPa(ReturnFilter filter) {
    return filter.element().ratedFlowLPerMin()
        / (filter.bypassFullFlowKPa() - filter.bypassCrackingKPa());
  }

  private static double cleanElementKPa(Machine machine, double flowLPerMin, double oilDegC) {
    Element element = machine.returnFilter().element();
    return element.cleanDropKPa()
        * (flowLPerMin / element.ratedFlowLPerMin())
        * (ViscosityLine.of(machine.fluid()).mm2PerS(oilDegC) / element.ratedViscosityMm2PerS());
  }

  private static double housingKPa(Machine machine, double flowLPerMin) {
    ReturnFilter filter = machine.returnFilter();
    double share = flowLPerMin / filter.element().ratedFlowLPerMin();
    return filter.housingDropKPa()
        * share
        * share
        * machine.fluid().densityKgPerM3()
        / ReturnFilter.HOUSING_DENSITY_KG_PER_M3;
  }
}
