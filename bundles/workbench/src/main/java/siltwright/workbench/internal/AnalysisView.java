package siltwright.workbench.internal;

import java.util.List;
import siltwright.analysis.Analysis;
import siltwright.analysis.DocumentWriter;
import siltwright.analysis.Scope;
import siltwright.workbench.Desk;
import siltwright.workbench.Pane;
import siltwright.workbench.View;

/**
 * The view that every analysis has: a form of its parameters and its result, live.
 *
 * @param analysis the analysis
 * @param documents writers of its documents
 */
record AnalysisView(Analysis analysis, List<DocumentWriter> documents) implements View {
  static final String PREFIX = "analysis-";

  @Override
  public String id() {
    return PREFIX + analysis.description().id();
  }

  @Override
  public String title() {
    return analysis.description().title();
  }

  @Override
  public int rank() {
    return 1000;
  }

  @Override
  public Scope scope() {
    return analysis.description().scope();
  }

  @Override
  public Pane open(Desk desk) {
    return new AnalysisPane(analysis, documents, desk);
  }
}
