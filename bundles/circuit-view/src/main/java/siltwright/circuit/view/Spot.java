package siltwright.circuit.view;

/**
 * A point of the plan.
 *
 * @param x to the right
 * @param y down
 */
record Spot(double x, double y) {}
