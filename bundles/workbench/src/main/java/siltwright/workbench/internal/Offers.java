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
  private final Map<View, View> views = new LinkedHashMap<>();
  private final Map<Analysis, Analysis> analyses = new LinkedHashMap<>();
  private final Map<DocumentWriter, DocumentWriter> documents = new LinkedHashMap<>();
  private final Map<LoadingLaw, LoadingLaw> laws = new LinkedHashMap<>();
  private Runnable listener = () -> {};
  private final Map<CostTerm, CostTerm> terms = new LinkedHashMap<>();
  private final Map<LifeLaw, LifeLaw> lives = new LinkedHashMap<>();
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

  /** Adds a view; the guarded one is called. */
  synchronized void add(View view, View guarded) {
    views.put(view, guarded);
    changed();
  }

  synchronized void remove(View view) {
    views.remove(view);
    changed();
  }

  /** Adds an analysis; the guarded one is called. */
  synchronized void add(Analysis analysis, Analysis guarded) {
    analyses.put(analysis, guarded);
    changed();
  }

  synchronized void remove(Analysis analysis) {
    analyses.remove(analysis);
    changed();
  }

  /** Adds what writes documents; the guarded one is called. */
  synchronized void add(DocumentWriter document, DocumentWriter guarded) {
    documents.put(document, guarded);
    changed();
  }

  synchronized void remove(DocumentWriter document) {
    documents.remove(document);
    changed();
  }

  /** Sets what is called on the event thread after each change of laws and terms. */
  synchronized void setExtensionListener(Runnable newListener) {
    extensionListener = newListener;
  }

  /** Adds a loading law; the guarded one is called. */
  synchronized void add(LoadingLaw law, LoadingLaw guarded) {
    laws.put(law, guarded);
    SwingUtilities.invokeLater(extensionListener);
  }

  synchronized void remove(LoadingLaw law) {
    laws.remove(law);
    SwingUtilities.invokeLater(extensionListener);
  }

  /** Returns the loading laws, those that came first before the others. */
  synchronized List<LoadingLaw> laws() {
    return List.copyOf(laws.values());
  }

  /** Adds a term of the cost; the guarded one is called. */
  synchronized void add(CostTerm term, CostTerm guarded) {
    terms.put(term, guarded);
    SwingUtilities.invokeLater(extensionListener);
  }

  synchronized void remove(CostTerm term) {
    terms.remove(term);
    SwingUtilities.invokeLater(extensionListener);
  }

  /** Returns the terms of the cost, those that came first before the others. */
  synchronized List<CostTerm> terms() {
    return List.copyOf(terms.values());
  }

  /** Adds a life law; the guarded one is called. */
  synchronized void add(LifeLaw law, LifeLaw guarded) {
    lives.put(law, guarded);
    SwingUtilities.invokeLater(extensionListener);
  }

  synchronized void remove(LifeLaw law) {
    lives.remove(law);
    SwingUtilities.invokeLater(extensionListener);
  }

  /** Returns the life laws, those that came first before the others. */
  synchronized List<LifeLaw> lives() {
    return List.copyOf(lives.values());
  }

  /** Returns the view of an analysis with the documents that it has now. */
  synchronized AnalysisView view(Analysis analysis) {
    String id = analysis.description().id();
    return new AnalysisView(
        analysis,
        documents.values().stream()
            .filter(d -> d.form().analysis().equals(id))
            .sorted(Comparator.comparing(d -> d.form().option()))
            .toList());
  }

  /** Returns the views by rank; of two with one id the first that came. */
  synchronized List<View> views() {
    List<View> sorted = new ArrayList<>();
    for (View view : views.values()) {
      if (sorted.stream().noneMatch(v -> v.id().equals(view.id()))) {
        sorted.add(view);
      }
    }
    sorted.sort(Comparator.comparingInt(View::rank).thenComparing(View::id));
    return sorted;
  }

  /** Returns the analyses by title; the window opens no stores, so none of a history. */
  synchronized List<Analysis> analyses() {
    List<Analysis> sorted = new ArrayList<>(analyses.values());
    sorted.removeIf(a -> a.description().scope() == Scope.HISTORY);
    sorted.sort(Comparator.comparing(a -> a.description().title()));
    return sorted;
  }
}
