package siltwright.model;

/**
 * Oil samples in running.
 *
 * @param intervalH hours between samples, h
 * @param limit code that, once exceeded, calls for a change
 * @param costMoney cost of one sample
 */
public record Sampling(double intervalH, CleanlinessCode limit, double costMoney) {}
