package siltwright.model;

import java.util.Optional;

/**
 * A part of the machine that dirty oil wears.
 *
 * @param id name within the machine
 * @param kind what it is, in the trade's words
 * @param behindPressureFilter whether it sees oil that the pressure filter has cleaned
 * @param flowShare share of the pump flow that passes it
 * @param sensitivity weight of a particle of each band in wear
 * @param exponent m: relative wear grows with the m-th power of the weighted count
 * @param reference cleanliness at which its life is stated
 * @param minimumRelativeWear wear, relative to that at the reference, below which no oil brings it
 * @param life life at the reference cleanliness
 * @param acute failure by single large particles, where it matters
 * @param replacement when it is renewed
 * @param renewalMoney cost of a new one, fitted
 * @param consequenceMoney what its failure costs beyond that: standstill, secondary damage
 */
public record Component(
    String id,
    String kind,
    boolean behindPressureFilter,
    double flowShare,
    Bands sensitivity,
    double exponent,
    CleanlinessCode reference,
    double minimumRelativeWear,
    ComponentLife life,
    Optional<Acute> acute,
    Replacement replacement,
    double renewalMoney,
    double consequenceMoney) {
  /** Returns this component with another life. */
  public Component withLife(ComponentLife other) {
    return with(exponent, other, acute, renewalMoney, consequenceMoney);
  }

  /** Returns this component with another wear exponent. */
  public Component withExponent(double other) {
    return with(other, life, acute, renewalMoney, consequenceMoney);
  }

  /** Returns this component with another acute hazard. */
  public Component withAcute(Acute other) {
    return with(exponent, life, Optional.of(other), renewalMoney, consequenceMoney);
  }

  /** Returns this component with another cost of failure. */
  public Component withCosts(double renewal, double consequence) {
    return with(exponent, life, acute, renewal, consequence);
  }

  private Component with(
      double newExponent,
      ComponentLife newLife,
      Optional<Acute> newAcute,
      double newRenewalMoney,
      double newConsequenceMoney) {
    return new Component(
        id,
        kind,
        behindPressureFilter,
        flowShare,
        sensitivity,
        newExponent,
        reference,
        minimumRelativeWear,
        newLife,
        newAcute,
        replacement,
        newRenewalMoney,
        newConsequenceMoney);
  }
}
