package siltwright.analysis;

import org.osgi.annotation.versioning.ProviderType;
import siltwright.model.history.FleetHistory;

/** Where the histories of fleets are kept. */
@ProviderType
@FunctionalInterface
public interface HistorySource {
  /**
   * Opens a history to read it.
   *
   * @param store name of the store as the user gave it
   * @throws siltwright.model.InputException if there is no such store
   */
  FleetHistory open(String store);
}
