package siltwright.model;

/**
 * What a term that a machine's file names adds to the cost of a change.
 *
 * @param term id of the term
 * @param procedure id of the procedure
 * @param perChangeMoney money for one change; not a number where the file was read without terms,
 *     by somebody who computes no cost
 */
public record AddedCost(String term, String procedure, double perChangeMoney) {}
