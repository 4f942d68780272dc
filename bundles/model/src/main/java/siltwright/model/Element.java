package siltwright.model;

import java.util.List;

/**
 * A filter element.
 *
 * @param id name in the file's catalogue
 * @param name name for people
 * @param beta filtration ratio by size, sizes rising
 * @param cleanDropKPa pressure drop when clean, at rated flow and viscosity, kPa
 * @param terminalDropKPa pressure drop at which the capacity was read (ISO 16889), kPa
 * @param capacityG retained mass at the terminal pressure drop, g
 * @param ratedFlowLPerMin flow of the data above, L/min
 * @param ratedViscosityMm2PerS viscosity of the data above, mm²/s
 * @param blockingExponent exponent n of dh/dm = k h^n (Hermia's laws at constant flow)
 * @param loadingCurve measured curve, rising from (0, 1); empty where the exponent is to be used
 * @param finesShare share of the retained mass that lies outside 4–100 µm(c)
 * @param priceMoney price of one element
 */
public record Element(
    String id,
    String name,
    List<BetaPoint> beta,
    double cleanDropKPa,
    double terminalDropKPa,
    double capacityG,
    double ratedFlowLPerMin,
    double ratedViscosityMm2PerS,
    double blockingExponent,
    List<LoadingPoint> loadingCurve,
    double finesShare,
    double priceMoney) {
  public Element {
    beta = List.copyOf(beta);
    loadingCurve = List.copyOf(loadingCurve);
  }
}
