package siltwright.element;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;

/** The tables of docs/element-open-data.md. Run by the profile "study". */
public final class OpenLogsStudy {
  private OpenLogsStudy() {}

  /** Prints the tables. */
  public static void main(String[] args) {
    OpenLogs logs = OpenLogs.read();
    System.out.println(
        "neighbourhood: reach, doubt, RMSE on the validation runs, on the test runs");
    for (double[] c :
        new double[][] {{1e-3, 1}, {0.5, 0.3}, {0.5, 0.6}, {1, 0.3}, {1, 0.6}, {2, 0.6}}) {
      System.out.printf(
          Locale.ROOT,
          "%.3g %.1f  %.2f  %.2f%n",
          c[0],
          c[1],
          splits(logs, "val", c[0], c[1], false).rmse,
          splits(logs, "test", c[0], c[1], false).rmse);
    }
    System.out.println(splits(logs, "test", 0.5, 0.6, false));
    System.out.println("train and validation runs: " + splits(logs, "test", 0.5, 0.6, true));
    acrossFeeds(logs);
    alone(logs);
  }

  /**
   * Trained on the runs of one feed, each other feed; its own runs each without itself, which is
   * what their scatter leaves when nothing has to carry over.
   */
  private static void acrossFeeds(OpenLogs logs) {
    for (int feed = 1; feed <= 4; feed++) {
      OpenLogs.Score others = new OpenLogs.Score();
      StringBuilder row = new StringBuilder();
      for (int tested = 1; tested <= 4; tested++) {
        OpenLogs.Score score = new OpenLogs.Score();
        for (int run : ofFeed(logs, tested)) {
          List<Integer> train = new ArrayList<>(ofFeed(logs, feed));
          train.remove((Integer) run);
          EarlierRuns earlier = EarlierRuns.of(logs.of(train), OpenLogs.LIMIT_KPA);
          score.add(logs, run, earlier);
          if (tested != feed) {
            others.add(logs, run, earlier);
          }
        }
        row.append(String.format(Locale.ROOT, "  %.1f (%.2f)", score.rmse(), score.cover()));
      }
      System.out.printf(
          Locale.ROOT,
          "trained on feed %d: RMSE (cover) of feeds 1 to 4%s; of the others %.2f s (%.3f)%n",
          feed,
          row,
          others.rmse(),
          others.cover());
    }
  }

  private static List<Integer> ofFeed(OpenLogs logs, int feed) {
    return logs.runs.keySet().stream().filter(r -> logs.runs.get(r).feed() == feed).toList();
  }

  /** The law alone, without earlier runs. */
  private static void alone(OpenLogs logs) {
    List<Double> n = new ArrayList<>();
    for (int percent : new int[] {30, 50, 75, 90}) {
      List<Double> errors = new ArrayList<>();
      int covered = 0;
      for (int number : logs.runs.keySet()) {
        LoadingRun run = logs.runs.get(number);
        int i = run.rows() * percent / 100;
        BlockingFit fit = BlockingFit.of(run, i, BlockingFit.PRIOR_EXPONENT, BlockingFit.PRIOR_SD);
        Remaining r = fit.between(run.level(i), OpenLogs.LIMIT_KPA).atFeed(run.feed());
        double truth = logs.left.get(number)[i];
        errors.add(Math.abs(r.value() - truth) / run.time(run.rows() - 1));
        covered += truth >= r.low() && truth <= r.high() ? 1 : 0;
      }
      System.out.printf(
          Locale.ROOT,
          "law alone at %d %% of life: median error %.4f of life, cover %.2f%n",
          percent,
          OpenLogs.median(errors),
          covered / 100.0);
    }
    logs.runs.values().forEach(r -> n.add(BlockingFit.of(r).exponent()));
    System.out.printf(
        Locale.ROOT, "blocking exponent of whole runs: median %.3f%n", OpenLogs.median(n));
  }

  record Splits(
      double rmse, double sd, double half, double threeQuarters, double ninety, double cover) {}

  private static Splits splits(
      OpenLogs logs, String part, double reach, double doubt, boolean withValidation) {
    List<List<Integer>> train = logs.split("train");
    List<List<Integer>> tested = logs.split(part);
    List<Double> rmse = new ArrayList<>();
    List<List<Double>> at = List.of(new ArrayList<>(), new ArrayList<>(), new ArrayList<>());
    double covered = 0;
    long samples = 0;
    for (int s = 0; s < train.size(); s++) {
      List<Integer> learnt = new ArrayList<>(train.get(s));
      if (withValidation) {
        learnt.addAll(logs.split("val").get(s));
      }
      EarlierRuns earlier = EarlierRuns.of(logs.of(learnt), OpenLogs.LIMIT_KPA, reach, doubt);
      OpenLogs.Score score = new OpenLogs.Score();
      tested.get(s).forEach(r -> score.add(logs, r, earlier));
      rmse.add(score.rmse());
      covered += score.cover() * score.samples();
      samples += score.samples();
      at.get(0).addAll(score.atPercent.get(50));
      at.get(1).addAll(score.atPercent.get(75));
      at.get(2).addAll(score.atPercent.get(90));
    }
    double mean = rmse.stream().mapToDouble(v -> v).average().orElseThrow();
    double sd =
        Math.sqrt(rmse.stream().mapToDouble(v -> (v - mean) * (v - mean)).average().orElseThrow());
    return new Splits(
        mean,
        sd,
        OpenLogs.median(at.get(0)),
        OpenLogs.median(at.get(1)),
        OpenLogs.median(at.get(2)),
        covered / samples);
  }
}
