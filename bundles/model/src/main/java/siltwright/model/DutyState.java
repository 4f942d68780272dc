package siltwright.model;

/**
 * A way of working in which a machine spends a share of its hours.
 *
 * @param id name within the machine
 * @param share share of the operating hours; the shares of a machine add to 1
 * @param flowLPerMin flow through pump and return line, L/min
 * @param oilDegC oil temperature at the return filter, °C
 */
public record DutyState(String id, double share, double flowLPerMin, double oilDegC) {}
