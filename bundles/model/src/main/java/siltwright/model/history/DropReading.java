package siltwright.model.history;

/**
 * A pressure drop read off the return filter.
 *
 * @param moment when
 * @param dropKPa pressure drop, kPa
 * @param oilDegC oil temperature, °C; not a number if not read
 * @param flowLPerMin flow, L/min; not a number if not read
 * @param indicator what the indicator showed; empty if not recorded
 */
public record DropReading(
    Moment moment, double dropKPa, double oilDegC, double flowLPerMin, String indicator) {}
