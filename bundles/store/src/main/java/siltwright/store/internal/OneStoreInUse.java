package siltwright.store.internal;

import java.util.List;
import java.util.Optional;
import java.util.concurrent.CopyOnWriteArrayList;
import org.osgi.service.component.annotations.Component;
import siltwright.store.StoreInUse;

/** The one store in use. */
@Component
public final class OneStoreInUse implements StoreInUse {
  private final List<Runnable> listeners = new CopyOnWriteArrayList<>();
  private String now;

  @Override
  public Optional<String> where() {
    return Optional.ofNullable(now);
  }

  @Override
  public void use(String where) {
    now = where;
    listeners.forEach(Runnable::run);
  }

  @Override
  public void listen(Runnable action) {
    listeners.add(action);
  }

  @Override
  public void forget(Runnable action) {
    listeners.remove(action);
  }
}
