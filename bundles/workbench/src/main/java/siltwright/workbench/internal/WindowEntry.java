package siltwright.workbench.internal;

import java.util.Optional;
import java.util.concurrent.CountDownLatch;
import java.util.function.ToIntFunction;
import javax.swing.SwingUtilities;
import org.osgi.service.component.annotations.Component;
import org.osgi.service.component.annotations.Deactivate;
import org.osgi.service.component.annotations.Reference;
import org.osgi.service.component.annotations.ReferenceCardinality;
import org.osgi.service.component.annotations.ReferencePolicy;
import org.osgi.service.component.annotations.ReferencePolicyOption;
import siltwright.analysis.Analysis;
import siltwright.analysis.ReportWriter;
import siltwright.workbench.View;

/** What the launcher calls to open the window; returns when it is closed. */
@Component(service = ToIntFunction.class, property = "siltwright.entry=window")
public final class WindowEntry implements ToIntFunction<String[]> {
  private final Offers offers = new Offers();
  private volatile Bench bench;

  @Reference(
      cardinality = ReferenceCardinality.OPTIONAL,
      policy = ReferencePolicy.DYNAMIC,
      policyOption = ReferencePolicyOption.GREEDY)
  private volatile ReportWriter report;

  @Reference(
      cardinality = ReferenceCardinality.MULTIPLE,
      policy = ReferencePolicy.DYNAMIC,
      policyOption = ReferencePolicyOption.GREEDY)
  void addView(View view) {
    offers.add(view);
  }

  void removeView(View view) {
    offers.remove(view);
  }

  @Reference(
      cardinality = ReferenceCardinality.MULTIPLE,
      policy = ReferencePolicy.DYNAMIC,
      policyOption = ReferencePolicyOption.GREEDY)
  void addAnalysis(Analysis analysis) {
    offers.add(analysis);
  }

  void removeAnalysis(Analysis analysis) {
    offers.remove(analysis);
  }

  @Override
  public int applyAsInt(String[] arguments) {
    CountDownLatch closed = new CountDownLatch(1);
    Optional<String> file = arguments.length == 0 ? Optional.empty() : Optional.of(arguments[0]);
    SwingUtilities.invokeLater(
        () -> {
          bench =
              new Bench(
                  Folders.ofUser(), offers, () -> Optional.ofNullable(report), closed::countDown);
          bench.start(file);
        });
    try {
      closed.await();
    } catch (InterruptedException e) {
      Thread.currentThread().interrupt();
    }
    bench = null;
    return 0;
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
