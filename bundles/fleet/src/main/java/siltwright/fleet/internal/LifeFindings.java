package siltwright.fleet.internal;

import static siltwright.analysis.Finding.Severity.CAUTION;
import static siltwright.analysis.Finding.Severity.NOTE;
import static siltwright.analysis.Finding.Severity.WARNING;

import java.util.ArrayList;
import java.util.List;
import siltwright.analysis.Result;
import siltwright.life.Refusal;

/** What a comparison of lives says in plain words beside its answer. */
final class LifeFindings {
  private static final double FEW_FAILURES = 10;

  private final LifeStudy study;

  LifeFindings(LifeStudy study) {
    this.study = study;
  }

  void addTo(Result.Builder result) {
    for (Refusal r : study.refusals) {
      result.finding(WARNING, r.why() + " " + r.instead(), "lifeFactors");
    }
    OverlapTable.warn(result, study.overlaps, study.groups.names());
    if (study.data.hasIntervals()) {
      result.finding(
          CAUTION,
          "Failures known within intervals have no log-rank test here; the regression uses them.",
          "logRank");
    }
    List<String> few = new ArrayList<>();
    for (LifeStudy.Group g : study.members) {
      if (g.data().failures() < FEW_FAILURES) {
        few.add(g.name());
      }
    }
    if (!few.isEmpty()) {
      result.finding(
          CAUTION,
          "Fewer than 10 failures in "
              + Words.list(few)
              + ": read the intervals, not the estimates.",
          "groups");
    }
    if (study.settings.adjust().isEmpty() && study.settings.stratum().isEmpty()) {
      result.finding(
          NOTE,
          "Nothing but age is allowed for: the groups may differ in class, duty or oil too."
              + " --adjust and --stratum name columns for that.",
          "differences");
    }
  }
}
