package siltwright.model;

/**
 * The oil tank.
 *
 * @param volumeL oil in the circuit, taken as well mixed, L
 * @param pressurised whether the tank holds pressure that must be let off before it is opened
 */
public record Reservoir(double volumeL, boolean pressurised) {}
