package siltwright.command;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.IdentityHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.TreeMap;
import java.util.function.BiFunction;

/**
 * The services of one kind, those that came first before the others: an add-on cannot take the name
 * of a command that the product has. Changed from any thread.
 *
 * @param <T> what is offered
 */
final class Offers<T> {
  private static final String ORDER = "service.id";

  private final Map<T, Map<String, Object>> services = new IdentityHashMap<>();

  synchronized void add(T service, Map<String, Object> properties) {
    services.put(service, new HashMap<>(properties));
  }

  synchronized void remove(T service) {
    services.remove(service);
  }

  /** Returns them in order, each as the guard lets it through. */
  List<T> through(BiFunction<T, Map<String, Object>, Optional<T>> guard) {
    Map<Long, T> inOrder = new TreeMap<>();
    Map<Long, Map<String, Object>> properties = new HashMap<>();
    synchronized (this) {
      services.forEach(
          (service, its) -> {
            Long order = (Long) its.get(ORDER);
            inOrder.put(order, service);
            properties.put(order, its);
          });
    }
    List<T> all = new ArrayList<>();
    inOrder.forEach((id, s) -> guard.apply(s, properties.get(id)).ifPresent(all::add));
    return all;
  }
}
