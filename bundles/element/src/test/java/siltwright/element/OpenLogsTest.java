package siltwright.element;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;
import static org.junit.jupiter.api.Assumptions.assumeTrue;

import java.util.ArrayList;
import java.util.List;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;

/** Forecasts against what open runs really did; bounds are those set for the program. */
class OpenLogsTest {
  private static OpenLogs logs;

  @BeforeAll
  static void read() {
    assumeTrue(OpenLogs.present(), "open data absent");
    logs = OpenLogs.read();
  }

  @Test
  void theAuthorsTenSplitsAreForetold() {
    List<List<Integer>> train = logs.split("train");
    List<List<Integer>> test = logs.split("test");
    double rmse = 0;
    double covered = 0;
    long samples = 0;
    List<Double> half = new ArrayList<>();
    for (int s = 0; s < train.size(); s++) {
      EarlierRuns earlier = EarlierRuns.of(logs.of(train.get(s)), OpenLogs.LIMIT_KPA);
      OpenLogs.Score score = new OpenLogs.Score();
      test.get(s).forEach(r -> score.add(logs, r, earlier));
      rmse += score.rmse() / train.size();
      covered += score.cover() * score.samples();
      samples += score.samples();
      half.addAll(score.atPercent.get(50));
    }
    assertTrue(rmse <= 12, "RMSE " + rmse + " s");
    assertTrue(OpenLogs.median(half) <= 0.04, "at half life " + OpenLogs.median(half));
    assertEquals(0.90, covered / samples, 0.05, "cover of the 90 % bands");
  }

  @Test
  void aMassClockCarriesOverToOtherFeeds() {
    List<Integer> first =
        logs.runs.keySet().stream().filter(r -> logs.runs.get(r).feed() == 1).toList();
    EarlierRuns earlier = EarlierRuns.of(logs.of(first), OpenLogs.LIMIT_KPA);
    OpenLogs.Score score = new OpenLogs.Score();
    logs.runs.keySet().stream()
        .filter(r -> !first.contains(r))
        .forEach(r -> score.add(logs, r, earlier));
    assertTrue(score.rmse() <= 6, "RMSE " + score.rmse() + " s");
  }
}
