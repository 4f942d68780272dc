package siltwright.model;

/**
 * A breather that could be fitted instead of the present one.
 *
 * @param id name within the machine
 * @param name name for people
 * @param ingressFactor what it lets in, over what the present breather lets in
 * @param costMoneyPerH what it costs per operating hour more than the present one
 */
public record Breather(String id, String name, double ingressFactor, double costMoneyPerH) {}
