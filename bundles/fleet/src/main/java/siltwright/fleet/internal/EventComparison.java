package siltwright.fleet.internal;

import siltwright.analysis.Progress;
import siltwright.analysis.Records;
import siltwright.analysis.Result;

/** Groups compared by their events. */
final class EventComparison {
  private EventComparison() {}

  static void addTo(Result.Builder result, Records table, Settings settings, Progress progress) {
    progress.check(0.05, "rows");
    EventRecords records = EventRecords.of(table, settings);
    result.records(records.kept());
    EventStudy study = new EventStudy(records, settings, progress);
    new EventTables(study).addTo(result);
    result.figures(new EventFigures(study)::all);
    new EventFindings(study).addTo(result);
  }
}
