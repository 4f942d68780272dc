package siltwright.model;

/**
 * One point of a filtration ratio curve (ISO 16889).
 *
 * @param sizeUmC particle size, µm(c)
 * @param beta upstream count over downstream count at or above that size, at least 1
 */
public record BetaPoint(double sizeUmC, double beta) {}
