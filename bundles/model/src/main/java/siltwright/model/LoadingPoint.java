package siltwright.model;

/**
 * One point of an element's measured loading curve.
 *
 * @param massShare retained mass over capacity
 * @param dropRatio element pressure drop over its clean value, at the same flow and viscosity
 */
public record LoadingPoint(double massShare, double dropRatio) {}
