package siltwright.launcher;

import java.util.Collection;
import java.util.Map;
import java.util.Set;
import java.util.concurrent.ConcurrentHashMap;
import org.osgi.framework.BundleContext;
import org.osgi.framework.Constants;
import org.osgi.framework.ServiceEvent;
import org.osgi.framework.ServiceReference;
import org.osgi.framework.hooks.service.EventListenerHook;
import org.osgi.framework.hooks.service.FindHook;
import org.osgi.framework.hooks.service.ListenerHook;

/** Keeps the services of some bundles from everybody but the framework itself. */
final class Hiding implements FindHook, EventListenerHook {
  private final Set<Long> hidden = ConcurrentHashMap.newKeySet();

  void hide(long bundle) {
    hidden.add(bundle);
  }

  void show(long bundle) {
    hidden.remove(bundle);
  }

  private boolean hides(ServiceReference<?> service) {
    Long bundle = (Long) service.getProperty(Constants.SERVICE_BUNDLEID);
    return bundle != null && hidden.contains(bundle);
  }

  @Override
  public void find(
      BundleContext context,
      String name,
      String filter,
      boolean all,
      Collection<ServiceReference<?>> found) {
    if (context.getBundle().getBundleId() != 0) {
      found.removeIf(this::hides);
    }
  }

  @Override
  public void event(
      ServiceEvent event, Map<BundleContext, Collection<ListenerHook.ListenerInfo>> listeners) {
    // the end of a service is told always: somebody may still hold it
    if (event.getType() != ServiceEvent.UNREGISTERING && hides(event.getServiceReference())) {
      listeners.keySet().removeIf(listener -> listener.getBundle().getBundleId() != 0);
    }
  }
}
