package siltwright.fleet.internal;

import siltwright.analysis.Progress;
import siltwright.analysis.Records;
import siltwright.analysis.Result;

/** Groups compared by the lives of their components. */
final class LifeComparison {
  private LifeComparison() {}

  static void addTo(Result.Builder result, Records table, Settings settings, Progress progress) {
    progress.check(0.05, "rows");
    LifeStudy study = LifeStudy.of(table, settings, progress);
    result.records(study.kept);
    new LifeTables(study).addTo(result);
    result.figures(new LifeFigures(study)::all);
    new LifeFindings(study).addTo(result);
  }
}
