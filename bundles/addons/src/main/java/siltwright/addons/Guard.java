package siltwright.addons;

import java.util.ArrayList;
import java.util.Collection;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.TreeMap;
import java.util.concurrent.Callable;
import java.util.concurrent.CancellationException;
import java.util.concurrent.atomic.AtomicBoolean;
import java.util.concurrent.atomic.AtomicLong;
import java.util.function.BiFunction;
import java.util.function.Function;
import java.util.function.Supplier;
import siltwright.analysis.Action;
import siltwright.analysis.Analysis;
import siltwright.analysis.DocumentWriter;
import siltwright.analysis.Progress;
import siltwright.analysis.ReportSection;
import siltwright.model.CostTerm;
import siltwright.model.InputException;
import siltwright.model.LifeLaw;
import siltwright.model.LoadingLaw;

/**
 * Tells add-ons from the product's own bundles, and calls them under watch: each call in a thread
 * of the add-on's, given up when it is silent too long or does not stop. What the product itself
 * brings passes as it is.
 */
public final class Guard {
  private static final String BUNDLE = "service.bundleid";

  private final BiFunction<Map<String, Object>, Callable<Object>, Object> launcher;

  /**
   * Makes a guard.
   *
   * @param launcher the launcher's service {@code siltwright.entry=addons}; null where nothing is
   *     guarded
   */
  public Guard(BiFunction<Map<String, Object>, Callable<Object>, Object> launcher) {
    this.launcher = launcher;
  }

  /**
   * Returns name and version of the add-on that a service comes from.
   *
   * @param properties the service's properties
   * @return nothing if it comes from the product
   */
  public Optional<String> addOn(Map<String, ?> properties) {
    return launcher == null
        ? Optional.empty()
        : Optional.ofNullable(
            (String) launcher.apply(Map.of("bundle", properties.get(BUNDLE)), null));
  }

  /** Returns an analysis to call; nothing if its add-on had to be set aside. */
  public Optional<Analysis> analysis(Analysis analysis, Map<String, ?> properties) {
    return isOwn(properties)
        ? Optional.of(analysis)
        : guarded(properties, call -> new GuardedAnalysis(analysis, call));
  }

  /** Returns an action to call; nothing if its add-on had to be set aside. */
  public Optional<Action> action(Action action, Map<String, ?> properties) {
    return isOwn(properties)
        ? Optional.of(action)
        : guarded(properties, call -> new GuardedAction(action, call));
  }

  /** Returns a writer to call; nothing if its add-on had to be set aside. */
  public Optional<DocumentWriter> documents(DocumentWriter writer, Map<String, ?> properties) {
    return isOwn(properties)
        ? Optional.of(writer)
        : guarded(properties, call -> new GuardedDocuments(writer, call));
  }

  /** Returns a loading law to call; nothing if its add-on had to be set aside. */
  public Optional<LoadingLaw> loadingLaw(LoadingLaw law, Map<String, ?> properties) {
    return isOwn(properties)
        ? Optional.of(law)
        : guarded(properties, call -> new GuardedLoadingLaw(law, call));
  }

  /** Returns a term of the cost to call; nothing if its add-on had to be set aside. */
  public Optional<CostTerm> costTerm(CostTerm term, Map<String, ?> properties) {
    return isOwn(properties)
        ? Optional.of(term)
        : guarded(properties, call -> new GuardedCostTerm(term, call));
  }

  /** Returns a life law to call; nothing if its add-on had to be set aside. */
  public Optional<LifeLaw> lifeLaw(LifeLaw law, Map<String, ?> properties) {
    return isOwn(properties)
        ? Optional.of(law)
        : guarded(properties, call -> new GuardedLifeLaw(law, call));
  }

  /**
   * Returns a section of the report to call. None is asked anything here, so that one that fails is
   * named where it is missed.
   */
  public Optional<ReportSection> section(ReportSection section, Map<String, ?> properties) {
    Optional<String> addOn = addOn(properties);
    return Optional.of(
        addOn.isEmpty()
            ? section
            : new GuardedSection(section, new Call((Long) properties.get(BUNDLE), addOn.get())));
  }

  /**
   * Returns services as a guard lets them through, those that came first before the others: an
   * add-on cannot take the name of what the product has.
   *
   * @param guard one of this class's methods that return what to call
   * @param services services with their properties
   */
  public static <T> List<T> through(
      BiFunction<T, Map<String, ?>, Optional<T>> guard,
      Collection<Map.Entry<Map<String, Object>, T>> services) {
    Map<Object, Map.Entry<Map<String, Object>, T>> inOrder = new TreeMap<>();
    services.forEach(s -> inOrder.put(s.getKey().get("service.id"), s));
    List<T> all = new ArrayList<>();
    inOrder.values().forEach(s -> guard.apply(s.getValue(), s.getKey()).ifPresent(all::add));
    return all;
  }

  private boolean isOwn(Map<String, ?> properties) {
    return addOn(properties).isEmpty();
  }

  private <T> Optional<T> guarded(Map<String, ?> properties, Function<Call, T> guarding) {
    try {
      Call call = new Call((Long) properties.get(BUNDLE), addOn(properties).orElseThrow());
      return Optional.of(guarding.apply(call));
    } catch (AddOnFault e) {
      return Optional.empty(); // the launcher told it
    }
  }

  /**
   * Sets an add-on aside for something it did where it could not be watched.
   *
   * @param properties the properties of its service
   * @param why what it did
   */
  public void setAside(Map<String, ?> properties, String why) {
    try {
      launcher.apply(Map.of("bundle", properties.get(BUNDLE), "fault", why), null);
    } catch (IllegalStateException e) {
      // says that it is done
    }
  }

  /** Calls of one add-on. */
  final class Call {
    private final long bundle;
    private final String name;

    private Call(long bundle, String name) {
      this.bundle = bundle;
      this.name = name;
    }

    String name() {
      return name;
    }

    /** Calls without progress. */
    <T> T of(Supplier<T> task) {
      return of(Progress.NONE, progress -> task.get());
    }

    /** What is called. */
    interface Task<T> {
      T call(Progress progress);
    }

    /**
     * Calls.
     *
     * @param watching told of its progress, which is also its sign of life
     * @throws AddOnFault if it had to be set aside
     */
    @SuppressWarnings("unchecked") // the launcher gives back what the task gave
    <T> T of(Progress watching, Task<T> task) {
      AtomicLong heard = new AtomicLong();
      AtomicBoolean unwanted = new AtomicBoolean();
      Progress progress =
          (share, doing) -> {
            heard.set(System.nanoTime());
            boolean on = watching.report(share, doing) && !unwanted.get();
            unwanted.set(!on);
            return on;
          };
      Map<String, Object> request = new HashMap<>();
      request.put("bundle", bundle);
      request.put("heard", heard);
      request.put("unwanted", unwanted);
      Object answer;
      try {
        answer = launcher.apply(request, () -> outcome(task, progress));
      } catch (IllegalStateException e) {
        throw new AddOnFault(e.getMessage());
      }
      if (answer instanceof Refusal refusal) {
        throw refusal.because;
      }
      return ((Outcome<T>) answer).value;
    }

    private <T> Object outcome(Task<T> task, Progress progress) {
      try {
        return new Outcome<>(task.call(progress));
      } catch (InputException | CancellationException e) {
        return new Refusal(e);
      }
    }
  }

  private record Outcome<T>(T value) {}

  /** What an analysis may throw. */
  private record Refusal(RuntimeException because) {}
}
