package siltwright.model;

/**
 * Failure at once by single large particles.
 *
 * @param sizeUmC smallest harmful size, an edge of the size bands, µm(c)
 * @param hazardPerParticle chance of a failure per particle of that size or above that passes
 */
public record Acute(double sizeUmC, double hazardPerParticle) {}
