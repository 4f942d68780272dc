package siltwright.model.history;

import java.time.Instant;

/**
 * When something was recorded.
 *
 * @param machine id of the machine
 * @param at instant; if only the day is known, noon of it at the site
 * @param wholeDay whether only the day is known
 * @param meterH what the hour meter showed, h; not a number if it was not read
 * @param hoursH hours of the machine, h: the meter with its {@link MeterMend}s, or between two
 *     readings where it was not read; not a number where neither is to be had
 */
public record Moment(String machine, Instant at, boolean wholeDay, double meterH, double hoursH) {}
