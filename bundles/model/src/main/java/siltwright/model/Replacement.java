package siltwright.model;

import java.util.OptionalDouble;

/**
 * When a component is renewed.
 *
 * @param byAge whether it is taken out at an age if it has not failed before; else only at failure
 * @param ageH that age in operating hours, h; empty where the age that costs least is to be found
 * @param plannedMoney cost of a planned replacement; 0 where there is none
 */
public record Replacement(boolean byAge, OptionalDouble ageH, double plannedMoney) {
  /** Renewed when it fails and never before. */
  public static final Replacement AT_FAILURE = new Replacement(false, OptionalDouble.empty(), 0);
}
