package siltwright.workbench.internal;

import java.util.Map;
import java.util.Optional;
import java.util.concurrent.Callable;
import java.util.concurrent.CountDownLatch;
import java.util.function.BiFunction;
import java.util.function.Supplier;
import java.util.function.ToIntFunction;
import javax.swing.SwingUtilities;
import org.osgi.service.component.annotations.Activate;
import org.osgi.service.component.annotations.Component;
import org.osgi.service.component.annotations.Deactivate;
import org.osgi.service.component.annotations.Reference;
import org.osgi.service.component.annotations.ReferenceCardinality;
import org.osgi.service.component.annotations.ReferencePolicy;
import org.osgi.service.component.annotations.ReferencePolicyOption;
import siltwright.addons.Guard;
import siltwright.analysis.Analysis;
import siltwright.analysis.DocumentWriter;
import siltwright.analysis.ReportWriter;
import siltwright.model.CostTerm;
import siltwright.model.LifeLaw;
import siltwright.model.LoadingLaw;
import siltwright.workbench.View;

/** What the launcher calls to open the window; returns when it is closed. */
@Component(service = ToIntFunction.class, property = "siltwright.entry=window")
public final class WindowEntry implements ToIntFunction<String[]> {
  /** The start page is made, filled, laid out and painted in events that follow each other. */
  private static final int EVENTS_TO_FIRST_PICTURE = 5;

  private final Offers offers = new Offers();
  private final Guard guard;
  private final Runnable rest;
  private final Distribution distribution;
  private volatile Bench bench;

  /**
   * Makes the entry.
   *
   * @param launcher calls add-ons under watch; null where there are none
   * @param rest starts what the product has besides the window; null where all is started
   * @param product tells version, feature and folder of the product; null where nobody does
   */
  @Activate
  public WindowEntry(
      @Reference(
              target = "(siltwright.entry=addons)",
              cardinality = ReferenceCardinality.OPTIONAL,
              policyOption = ReferencePolicyOption.GREEDY)
          BiFunction<Map<String, Object>, Callable<Object>, Object> launcher,
      @Reference(
              target = "(siltwright.entry=rest)",
              cardinality = ReferenceCardinality.OPTIONAL,
              policyOption = ReferencePolicyOption.GREEDY)
          Runnable rest,
      @Reference(
              target = "(siltwright.entry=product)",
              cardinality = ReferenceCardinality.OPTIONAL,
              policyOption = ReferencePolicyOption.GREEDY)
          Supplier<Map<String, String>> product) {
    guard = new Guard(launcher);
    this.rest = rest;
    distribution = Distribution.of(product == null ? Map.of() : product.get());
  }

  @Reference(
      cardinality = ReferenceCardinality.OPTIONAL,
      policy = ReferencePolicy.DYNAMIC,
      policyOption = ReferencePolicyOption.GREEDY)
  private volatile ReportWriter report;

  @Reference(
      cardinality = ReferenceCardinality.MULTIPLE,
      policy = ReferencePolicy.DYNAMIC,
      policyOption = ReferencePolicyOption.GREEDY)
  void addView(View view, Map<String, Object> properties) {
    boolean own = guard.addOn(properties).isEmpty();
    offers.views.add(view, own ? view : new GuardedView(view, guard, properties));
  }

  void removeView(View view) {
    offers.views.remove(view);
  }

  @Reference(
      cardinality = ReferenceCardinality.MULTIPLE,
      policy = ReferencePolicy.DYNAMIC,
      policyOption = ReferencePolicyOption.GREEDY)
  void addAnalysis(Analysis analysis, Map<String, Object> properties) {
    guard
        .analysis(analysis, properties)
        .ifPresent(guarded -> offers.analyses.add(analysis, guarded));
  }

  void removeAnalysis(Analysis analysis) {
    offers.analyses.remove(analysis);
  }

  @Reference(
      cardinality = ReferenceCardinality.MULTIPLE,
      policy = ReferencePolicy.DYNAMIC,
      policyOption = ReferencePolicyOption.GREEDY)
  void addDocument(DocumentWriter document, Map<String, Object> properties) {
    guard
        .documents(document, properties)
        .ifPresent(guarded -> offers.documents.add(document, guarded));
  }

  void removeDocument(DocumentWriter document) {
    offers.documents.remove(document);
  }

  @Reference(
      cardinality = ReferenceCardinality.MULTIPLE,
      policy = ReferencePolicy.DYNAMIC,
      policyOption = ReferencePolicyOption.GREEDY)
  void addLaw(LoadingLaw law, Map<String, Object> properties) {
    guard.loadingLaw(law, properties).ifPresent(guarded -> offers.laws.add(law, guarded));
  }

  void removeLaw(LoadingLaw law) {
    offers.laws.remove(law);
  }

  @Reference(
      cardinality = ReferenceCardinality.MULTIPLE,
      policy = ReferencePolicy.DYNAMIC,
      policyOption = ReferencePolicyOption.GREEDY)
  void addTerm(CostTerm term, Map<String, Object> properties) {
    guard.costTerm(term, properties).ifPresent(guarded -> offers.terms.add(term, guarded));
  }

  void removeTerm(CostTerm term) {
    offers.terms.remove(term);
  }

  @Reference(
      cardinality = ReferenceCardinality.MULTIPLE,
      policy = ReferencePolicy.DYNAMIC,
      policyOption = ReferencePolicyOption.GREEDY)
  void addLife(LifeLaw law, Map<String, Object> properties) {
    guard.lifeLaw(law, properties).ifPresent(guarded -> offers.lives.add(law, guarded));
  }

  void removeLife(LifeLaw law) {
    offers.lives.remove(law);
  }

  @Override
  public int applyAsInt(String[] arguments) {
    CountDownLatch closed = new CountDownLatch(1);
    Optional<String> file = arguments.length == 0 ? Optional.empty() : Optional.of(arguments[0]);
    if (rest == null) {
      offers.complete();
    }
    SwingUtilities.invokeLater(
        () -> {
          bench =
              new Bench(
                  Folders.ofUser(),
                  offers,
                  () -> Optional.ofNullable(report),
                  distribution,
                  closed::countDown);
          bench.start(file);
          afterEvents(EVENTS_TO_FIRST_PICTURE, this::startRest);
        });
    try {
      closed.await();
    } catch (InterruptedException e) {
      Thread.currentThread().interrupt();
    }
    bench = null;
    return 0;
  }

  /** Does something once what is asked of the event thread now, and what that leads to, is done. */
  private static void afterEvents(int rounds, Runnable action) {
    if (rounds == 0) {
      action.run();
    } else {
      SwingUtilities.invokeLater(() -> afterEvents(rounds - 1, action));
    }
  }

  /**
   * Has the rest of the product started, of which the first picture of the window needs nothing.
   */
  private void startRest() {
    if (!offers.isComplete()) {
      Thread thread =
          new Thread(
              () -> {
                try {
                  rest.run();
                } finally {
                  offers.complete();
                }
              },
              "siltwright-rest");
      thread.setDaemon(true);
      thread.start();
    }
  }

  /** Closes the window where the bundle is stopped under it; unsaved work stays for recovery. */
  @Deactivate
  void deactivate() {
    Bench open = bench;
    if (open != null) {
      SwingUtilities.invokeLater(open::end);
    }
  }
}
