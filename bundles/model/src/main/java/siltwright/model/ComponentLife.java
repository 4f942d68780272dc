package siltwright.model;

/**
 * Weibull life of a component on the exposure clock: hours at the reference cleanliness.
 *
 * @param shape Weibull shape β
 * @param scaleH Weibull scale η, h
 */
public record ComponentLife(double shape, double scaleH) {}
