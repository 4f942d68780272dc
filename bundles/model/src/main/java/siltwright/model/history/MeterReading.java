package siltwright.model.history;

/**
 * What the hour meter showed.
 *
 * @param moment when, and what
 * @param source who or what read it; empty if not recorded
 */
public record MeterReading(Moment moment, String source) {}
