package siltwright.model;

import java.util.OptionalDouble;

/**
 * The filter in the return line just before the tank.
 *
 * @param housing how the element sits
 * @param element the element fitted
 * @param bypassCrackingKPa pressure drop at which the bypass begins to open, kPa
 * @param bypassFullFlowKPa pressure drop at which it passes the rated flow, kPa
 * @param indicatorKPa reading at which the indicator trips, kPa; empty without an indicator
 * @param indicatorState id of the duty state in which the indicator is read (warm)
 * @param housingDropKPa pressure drop of the empty housing at the element's rated flow and 860
 *     kg/m³
 * @param fieldEfficiency field efficiency factor f, above 0 up to 1: what cyclic flow leaves of the
 *     laboratory's capture efficiency
 */
public record ReturnFilter(
    Housing housing,
    Element element,
    double bypassCrackingKPa,
    double bypassFullFlowKPa,
    OptionalDouble indicatorKPa,
    String indicatorState,
    double housingDropKPa,
    double fieldEfficiency) {
  /** Density at which makers state a housing's pressure drop, kg/m³. */
  public static final double HOUSING_DENSITY_KG_PER_M3 = 860;

  ReturnFilter with(Element otherElement, double otherFieldEfficiency) {
    return new ReturnFilter(
        housing,
        otherElement,
        bypassCrackingKPa,
        bypassFullFlowKPa,
        indicatorKPa,
        indicatorState,
        housingDropKPa,
        otherFieldEfficiency);
  }
}
