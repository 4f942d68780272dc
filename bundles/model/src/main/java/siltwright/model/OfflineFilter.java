package siltwright.model;

import java.util.List;

/**
 * A filter in a loop of its own that takes oil from the tank and gives it back.
 *
 * @param id name within the machine
 * @param name name for people
 * @param flowLPerMin mean flow per operating hour of the machine, L/min
 * @param beta filtration ratio by size, sizes rising
 * @param fieldEfficiency field efficiency factor
 * @param costMoneyPerH all it costs per operating hour: elements, energy, write-off
 */
public record OfflineFilter(
    String id,
    String name,
    double flowLPerMin,
    List<BetaPoint> beta,
    double fieldEfficiency,
    double costMoneyPerH) {
  public OfflineFilter {
    beta = List.copyOf(beta);
  }
}
