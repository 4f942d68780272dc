package siltwright.store.internal;

import org.osgi.service.component.annotations.Component;
import siltwright.analysis.HistorySource;
import siltwright.model.history.FleetHistory;
import siltwright.store.Store;

/** Histories from stores. */
@Component
public final class StoredHistories implements HistorySource {
  @Override
  public boolean knows(String name) {
    return Store.isStore(name);
  }

  @Override
  public FleetHistory open(String store) {
    return Store.read(store);
  }
}
