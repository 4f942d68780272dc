package siltwright.model;

import java.util.List;
import java.util.Map;
import java.util.Optional;

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
 * @param namedLoading loading by a law of another bundle that the file names; it comes before curve
 *     and exponent
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
    double priceMoney,
    Optional<NamedLoading> namedLoading) {
  public Element {
    beta = List.copyOf(beta);
    loadingCurve = List.copyOf(loadingCurve);
  }

  /** Makes an element that loads by its own curve or exponent. */
  public Element(
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
    this(
        id,
        name,
        beta,
        cleanDropKPa,
        terminalDropKPa,
        capacityG,
        ratedFlowLPerMin,
        ratedViscosityMm2PerS,
        blockingExponent,
        loadingCurve,
        finesShare,
        priceMoney,
        Optional.empty());
  }

  /**
   * Returns how it loads: by the law that its file names, else by its curve, else by its exponent.
   *
   * @throws IllegalStateException if its file names a law and was read without one
   */
  public Loading loading() {
    return namedLoading
        .map(NamedLoading::known)
        .orElseGet(() -> BasicLaw.of(this).loading(this, Map.of()));
  }

  /** Returns the same element at another price. */
  public Element withPriceMoney(double price) {
    return with(capacityG, blockingExponent, loadingCurve, price, namedLoading);
  }

  /** Returns the same element with another capacity, g. */
  public Element withCapacityG(double capacity) {
    return with(capacity, blockingExponent, loadingCurve, priceMoney, namedLoading);
  }

  /** Returns the same element with another blocking exponent. */
  public Element withBlockingExponent(double exponent) {
    return with(capacityG, exponent, loadingCurve, priceMoney, namedLoading);
  }

  /** Returns the same element with a loading that a law gives. */
  public Element withLoading(NamedLoading loading) {
    return with(capacityG, blockingExponent, loadingCurve, priceMoney, Optional.of(loading));
  }

  /** Returns the same element without its measured curve. */
  public Element withoutCurve() {
    return with(capacityG, blockingExponent, List.of(), priceMoney, namedLoading);
  }

  private Element with(
      double capacity,
      double exponent,
      List<LoadingPoint> curve,
      double price,
      Optional<NamedLoading> loading) {
    return new Element(
        id,
        name,
        beta,
        cleanDropKPa,
        terminalDropKPa,
        capacity,
        ratedFlowLPerMin,
        ratedViscosityMm2PerS,
        exponent,
        curve,
        finesShare,
        price,
        loading);
  }
}
