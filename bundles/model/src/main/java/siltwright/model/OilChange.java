package siltwright.model;

/**
 * The exchange of the oil.
 *
 * @param intervalH hours between oil changes, h
 * @param replacedShare share of the oil that is replaced; the rest stays in the circuit
 * @param newOil cleanliness of the oil that is filled in
 */
public record OilChange(double intervalH, double replacedShare, CleanlinessCode newOil) {}
