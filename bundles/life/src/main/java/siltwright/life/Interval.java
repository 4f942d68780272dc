package siltwright.life;

/**
 * A confidence interval; an end that the records do not bound is infinite, or 0 for a positive
 * quantity.
 *
 * @param lower lower end, in the unit of the quantity
 * @param upper upper end
 */
public record Interval(double lower, double upper) {}
