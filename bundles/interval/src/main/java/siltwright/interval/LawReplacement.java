package siltwright.interval;

import java.util.OptionalDouble;
import siltwright.model.Survival;

/**
 * Replacement of a part at an age, or at failure if that comes first, where its life has another
 * law than Weibull.
 *
 * <pre>
 *   C(τ) = [c_p R(τ) + c_f (1 - R(τ))] / ∫_0^τ R dt,   R(t) = exp(-H(t/η) - α t)
 * </pre>
 *
 * <p>H is linear from each of its points to the next, so that ∫ R is exact for what is kept of the
 * law. Between two points the hazard is constant and C has no minimum inside: the least is sought
 * among all points, since C may have several minima.
 *
 * <p>Source: Barlow and Proschan, Mathematical Theory of Reliability (1965), age replacement.
 */
final class LawReplacement {
  private final Survival life;
  private final double[] exposure;
  private final double[] hazard;

  LawReplacement(Survival life) {
    this.life = life;
    exposure = life.exposures();
    hazard = new double[exposure.length];
    for (int i = 0; i < hazard.length; i++) {
      hazard[i] = life.cumulativeHazard(exposure[i]);
    }
  }

  /** Returns the mean life without planned replacement, in scales. */
  double meanLife() {
    double sum = 0;
    for (int i = 1; i < exposure.length; i++) {
      sum += served(i - 1, exposure[i], hazard[i], 0);
    }
    return sum;
  }

  /** Returns ∫ R from a point to an exposure before the next, in scales. */
  private double served(int from, double to, double hazardTo, double acute) {
    double span = to - exposure[from];
    double rise = hazardTo - hazard[from] + acute * span;
    double left = Math.exp(-hazard[from] - acute * exposure[from]);
    return left * span * (rise < 1e-12 ? 1 : -Math.expm1(-rise) / rise);
  }

  /**
   * Returns the cost per hour.
   *
   * @param scaleH η, h
   * @param acutePerH α, 1/h
   * @param plannedMoney c_p
   * @param failureMoney c_f
   * @param ageH age of replacement, h; empty for the one that costs least, or failure where that
   *     costs no more
   */
  double costPerH(
      double scaleH,
      double acutePerH,
      double plannedMoney,
      double failureMoney,
      OptionalDouble ageH) {
    double acute = acutePerH * scaleH;
    double least = Double.POSITIVE_INFINITY;
    double age = ageH.isPresent() ? ageH.getAsDouble() / scaleH : Double.POSITIVE_INFINITY;
    double service = 0;
    for (int i = 1; i < exposure.length; i++) {
      boolean last = age <= exposure[i];
      double to = last ? age : exposure[i];
      double hazardTo = last ? life.cumulativeHazard(age) : hazard[i];
      service += served(i - 1, to, hazardTo, acute);
      double left = Math.exp(-hazardTo - acute * to);
      double cost = (plannedMoney * left + failureMoney * (1 - left)) / service;
      if (last) {
        return cost / scaleH;
      }
      least = Math.min(least, cost);
    }
    double atFailure = failureMoney / service;
    return (ageH.isPresent() ? atFailure : Math.min(least, atFailure)) / scaleH;
  }
}
