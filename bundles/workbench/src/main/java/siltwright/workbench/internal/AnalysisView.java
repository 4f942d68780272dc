package siltwright.workbench.internal;

import siltwright.analysis.Analysis;
import siltwright.analysis.Scope;
import siltwright.workbench.Desk;
import siltwright.workbench.Pane;
import siltwright.workbench.View;

/**
 * The view that every analysis has: a form of its parameters and its result, live.
 *
 * @param analysis the analysis
 */
record AnalysisView(Analysis analysis) implements View {
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
    return new AnalysisPane(analysis, desk);
  }
}
