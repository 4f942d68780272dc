package siltwright.analysis;

import org.osgi.annotation.versioning.ProviderType;
import siltwright.model.history.FleetHistory;

/** Where the histories of fleets are kept. */
@ProviderType
public interface HistorySource {
  /** Returns whether a name is one of a store, rather than of a file with a table. */
  boolean knows(String name);

  /**
   * Opens a history to read it.
   *
   * @param store name of the store as the user gave it
   * @throws siltwright.model.InputException if there is no such store
   */
  FleetHistory open(String store);
}
