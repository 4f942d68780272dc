package siltwright.fleet.internal;

import siltwright.analysis.Progress;
import siltwright.analysis.Records;
import siltwright.analysis.Result;

/** Groups compared by the cleanliness of their oil samples. */
final class SampleComparison {
  private SampleComparison() {}

  static void addTo(Result.Builder result, Records table, Settings settings, Progress progress) {
    progress.check(0.05, "rows");
  }
}
