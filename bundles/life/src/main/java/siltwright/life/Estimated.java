package siltwright.life;

/**
 * A quantity with its uncertainty.
 *
 * @param value the maximum-likelihood estimate
 * @param standardError from the observed information, in the unit of the quantity (delta method)
 * @param logStandardError the same on the scale on which the Wald interval is symmetric
 * @param wald Wald interval, symmetric on that scale
 */
public record Estimated(
    double value, double standardError, double logStandardError, Interval wald) {}
