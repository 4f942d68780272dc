package siltwright.model;

/**
 * Rates at which work, standstill and oil are paid.
 *
 * @param labourMoneyPerH an hour of work
 * @param downtimeMoneyPerH an hour of standstill
 * @param oilMoneyPerL a litre of oil
 */
public record Costs(double labourMoneyPerH, double downtimeMoneyPerH, double oilMoneyPerL) {}
