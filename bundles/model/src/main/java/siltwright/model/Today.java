package siltwright.model;

/**
 * How the element is changed now.
 *
 * @param intervalH hours between changes, h
 * @param procedure id of the procedure in use
 */
public record Today(double intervalH, String procedure) {}
