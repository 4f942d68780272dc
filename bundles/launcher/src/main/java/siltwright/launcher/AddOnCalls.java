package siltwright.launcher;

import java.util.Map;
import java.util.concurrent.Callable;
import java.util.concurrent.ExecutionException;
import java.util.concurrent.FutureTask;
import java.util.concurrent.TimeUnit;
import java.util.concurrent.TimeoutException;
import java.util.concurrent.atomic.AtomicBoolean;
import java.util.concurrent.atomic.AtomicLong;
import java.util.function.BiFunction;

/**
 * Calls add-ons on behalf of the bundles that show what they offer: in a thread of the add-on's,
 * under watch. A service of JDK types, so that nothing has to be exported to the bundles.
 *
 * <p>The request is a map:
 *
 * <ul>
 *   <li>{@code bundle}: number of the bundle, {@link Long}
 *   <li>{@code heard}: when it was last heard of by {@link System#nanoTime()}, {@link AtomicLong}
 *   <li>{@code unwanted}: whether it was asked to stop, {@link AtomicBoolean}
 *   <li>{@code fault}: what it did wrong, {@link String}: it is set aside
 * </ul>
 *
 * <p>Without a task the answer is name and version of the add-on, and null if the bundle is the
 * product's own. With a task, the answer is the task's. A task that throws, is silent too long or
 * does not stop when asked has the add-on set aside; that is an {@link IllegalStateException}.
 */
final class AddOnCalls implements BiFunction<Map<String, Object>, Callable<Object>, Object> {
  private static final long LOOK_MS = 100;
  private static final long STOP_LIMIT_NS = TimeUnit.SECONDS.toNanos(5);

  private final AddOns addOns;

  AddOnCalls(AddOns addOns) {
    this.addOns = addOns;
  }

  @Override
  public Object apply(Map<String, Object> request, Callable<Object> task) {
    AddOn addOn = addOns.of((Long) request.get("bundle"));
    if (addOn == null) {
      return null;
    }
    if (request.get("fault") instanceof String fault) {
      throw setAside(addOn, fault);
    }
    return task == null ? addOn.name() : call(addOn, request, task);
  }

  private Object call(AddOn addOn, Map<String, Object> request, Callable<Object> task) {
    AtomicLong heard = (AtomicLong) request.get("heard");
    AtomicBoolean unwanted = (AtomicBoolean) request.get("unwanted");
    FutureTask<Object> future = new FutureTask<>(task);
    heard.set(System.nanoTime());
    addOn.thread(future).start();
    long unwantedSinceNs = 0;
    while (true) {
      try {
        return future.get(LOOK_MS, TimeUnit.MILLISECONDS);
      } catch (TimeoutException e) {
        long now = System.nanoTime();
        if (now - heard.get() > addOns.policy().silenceLimit().toNanos()) {
          throw setAside(
              addOn,
              "it told no progress for " + addOns.policy().silenceLimit().toSeconds() + " s");
        }
        if (!unwanted.get()) {
          continue;
        }
        unwantedSinceNs = unwantedSinceNs == 0 ? now : unwantedSinceNs;
        if (now - unwantedSinceNs > STOP_LIMIT_NS) {
          throw setAside(addOn, "it did not stop when it was asked to");
        }
      } catch (ExecutionException e) {
        throw setAside(addOn, "it failed: " + Diagnosis.cause(e.getCause()));
      } catch (InterruptedException e) {
        unwanted.set(true); // the caller is not wanted any more, so its call is not
      }
    }
  }

  private IllegalStateException setAside(AddOn addOn, String why) {
    if (addOn.state() != AddOn.State.SET_ASIDE) {
      addOns.setAside(addOn, why);
    }
    return new IllegalStateException("add-on " + addOn.name() + " is set aside: " + why);
  }
}
