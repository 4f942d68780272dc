package siltwright.workbench.internal;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import javax.swing.SwingUtilities;
import siltwright.analysis.Analysis;
import siltwright.analysis.DocumentWriter;
import siltwright.analysis.Scope;
import siltwright.model.CostTerm;
import siltwright.model.LifeLaw;
import siltwright.model.LoadingLaw;
import siltwright.workbench.View;

/**
 * The views, analyses, documents, laws and terms that bundles offer now. Changed from any thread.
 */
final class Offers {
  final Offered<View> views = new Offered<>(this::changed);
  final Offered<Analysis> analyses = new Offered<>(this::changed);
  final Offered<DocumentWriter> documents = new Offered<>(this::changed);
  final Offered<LoadingLaw> laws = new Offered<>(this::extensionsChanged);
  final Offered<CostTerm> terms = new Offered<>(this::extensionsChanged);
  final Offered<LifeLaw> lives = new Offered<>(this::extensionsChanged);
  private Runnable listener = () -> {};
  private Runnable extensionListener = () -> {};
  private boolean shown;
  private boolean complete;
  private boolean pending;

  /** Sets what is called on the event thread after each change. */
  synchronized void setListener(Runnable newListener) {
    listener = newListener;
    shown = true;
  }

  /** Says that what comes with the product has come; until then nobody is told of each. */
  synchronized void complete() {
    complete = true;
    changed();
  }

  synchronized boolean isComplete() {
    return complete;
  }

  private void changed() {
    if (shown && complete && !pending) {
      pending = true;
      SwingUtilities.invokeLater(this::tell);
    }
  }

  private void tell() {
    Runnable now;
    synchronized (this) {
      pending = false;
      now = listener;
    }
    now.run();
  }

  /** Sets what is called on the event thread after each change of laws and terms. */
  synchronized void setExtensionListener(Runnable newListener) {
    extensionListener = newListener;
  }

  private void extensionsChanged() {
    SwingUtilities.invokeLater(extensionListener);
  }

  /** Returns the view of an analysis with the documents that it has now. */
  synchronized AnalysisView view(Analysis analysis) {
    String id = analysis.description().id();
    return new AnalysisView(
        analysis,
        documents.all().stream()
            .filter(d -> d.form().analysis().equals(id))
            .sorted(Comparator.comparing(d -> d.form().option()))
            .toList());
  }

  /** Returns the views by rank; of two with one id the first that came. */
  synchronized List<View> views() {
    List<View> sorted = new ArrayList<>();
    for (View view : views.all()) {
      if (sorted.stream().noneMatch(v -> v.id().equals(view.id()))) {
        sorted.add(view);
      }
    }
    sorted.sort(Comparator.comparingInt(View::rank).thenComparing(View::id));
    return sorted;
  }

  /** Returns the analyses by title; the window opens no stores, so none of a history. */
  synchronized List<Analysis> analyses() {
    List<Analysis> sorted = new ArrayList<>(analyses.all());
    sorted.removeIf(a -> a.description().scope() == Scope.HISTORY);
    sorted.sort(Comparator.comparing(a -> a.description().title()));
    return sorted;
  }

  /** What is offered of one kind, and for each what is called in its place. */
  final class Offered<T> {
    private final Map<T, T> guarded = new LinkedHashMap<>();
    private final Runnable changed;

    private Offered(Runnable changed) {
      this.changed = changed;
    }

    void add(T offer, T called) {
      synchronized (Offers.this) {
        guarded.put(offer, called);
        changed.run();
      }
    }

    void remove(T offer) {
      synchronized (Offers.this) {
        guarded.remove(offer);
        changed.run();
      }
    }

    /** Returns what is called, those that came first before the others. */
    List<T> all() {
      synchronized (Offers.this) {
        return List.copyOf(guarded.values());
      }
    }
  }
}
