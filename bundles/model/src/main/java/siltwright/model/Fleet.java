package siltwright.model;

import java.util.List;
import java.util.Optional;

/**
 * The machines of one file.
 *
 * @param name name for people
 * @param note what the file says of itself
 * @param currency code of the money in it (ISO 4217)
 * @param sites sites of the machines
 * @param machines machines in the file's order
 */
public record Fleet(
    String name, String note, String currency, List<Site> sites, List<Machine> machines) {
  public Fleet {
    sites = List.copyOf(sites);
    machines = List.copyOf(machines);
  }

  /** Returns the machine with an id. */
  public Optional<Machine> machine(String id) {
    return machines.stream().filter(m -> m.id().equals(id)).findFirst();
  }
}
