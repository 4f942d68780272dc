package siltwright.restart;

import java.util.Arrays;
import java.util.SplittableRandom;
import java.util.stream.IntStream;
import siltwright.samples.CountError;

/**
 * How well changes are graded whose release is known: half of them shed 1 g or more, evenly in the
 * logarithm from 0.05 to 20 g.
 */
final class Grading {
  private final double[] truth;
  private final Release[] found;
  private final double limitG;

  private Grading(double[] truth, Release[] found, double limitG) {
    this.truth = truth;
    this.found = found;
    this.limitG = limitG;
  }

  static SamplingPlan.Request ask(int bottles, int draws) {
    return new SamplingPlan.Request(bottles, true, 3, 1, 4, 3, draws, 11);
  }

  static Grading of(
      WashOut wash,
      double[] minutes,
      SamplingPlan.Request ask,
      Doubt trueDoubt,
      CountError trueError,
      Doubt doubt,
      CountError error,
      int changes,
      long seed) {
    return of(wash, wash, minutes, ask, trueDoubt, trueError, doubt, error, changes, seed);
  }

  /** The same with bottles from one wash-out graded by another. */
  static Grading of(
      WashOut trueWash,
      WashOut wash,
      double[] minutes,
      SamplingPlan.Request ask,
      Doubt trueDoubt,
      CountError trueError,
      Doubt doubt,
      CountError error,
      int changes,
      long seed) {
    SplittableRandom random = new SplittableRandom(seed);
    double[] truth = new double[changes];
    Arrays.setAll(truth, i -> Math.exp(Math.log(0.05) + random.nextDouble() * Math.log(400)));
    ReleaseFit fit = new ReleaseFit(wash, doubt, error);
    Release[] found = new Release[changes];
    IntStream.range(0, changes)
        .parallel()
        .forEach(
            i ->
                found[i] =
                    fit.of(
                        SamplingPlan.bottles(
                            trueWash,
                            trueDoubt,
                            trueError,
                            ask,
                            minutes,
                            truth[i],
                            seed + 31L * i)));
    return new Grading(truth, found, ask.limitG());
  }

  static double power(
      WashOut wash,
      double[] minutes,
      SamplingPlan.Request ask,
      double grams,
      int draws,
      long seed) {
    ReleaseFit fit = new ReleaseFit(wash, Doubt.STANDARD, CountError.STANDARD);
    return IntStream.range(0, draws)
            .parallel()
            .filter(
                i ->
                    fit.of(
                                SamplingPlan.bottles(
                                    wash,
                                    Doubt.STANDARD,
                                    CountError.STANDARD,
                                    ask,
                                    minutes,
                                    grams,
                                    seed + i))
                            .probabilityAbove(ask.limitG())
                        >= SamplingPlan.CERTAIN)
            .count()
        / (double) draws;
  }

  /** Chance that a change which shed the limit or more is graded above one which shed less. */
  double auc() {
    double wins = 0;
    long pairs = 0;
    double[] p = new double[truth.length];
    Arrays.setAll(p, i -> found[i].probabilityAbove(limitG));
    for (int i = 0; i < p.length; i++) {
      for (int j = 0; j < p.length; j++) {
        if (truth[i] >= limitG && truth[j] < limitG) {
          wins += p[i] > p[j] ? 1 : p[i] == p[j] ? 0.5 : 0;
          pairs++;
        }
      }
    }
    return wins / pairs;
  }

  /** Share of changes whose truth lies in the 90 % interval. */
  double cover() {
    return IntStream.range(0, truth.length)
            .filter(
                i -> found[i].quantileG(0.05) <= truth[i] && truth[i] <= found[i].quantileG(0.95))
            .count()
        / (double) truth.length;
  }

  double medianLogError() {
    double[] e =
        IntStream.range(0, truth.length)
            .mapToDouble(i -> Math.abs(Math.log(found[i].medianG() / truth[i])))
            .sorted()
            .toArray();
    return e[e.length / 2];
  }

  /** Median of what is found over the truth, of changes that shed the limit or more. */
  double medianFactor() {
    double[] e =
        IntStream.range(0, truth.length)
            .filter(i -> truth[i] >= limitG)
            .mapToDouble(i -> found[i].medianG() / truth[i])
            .sorted()
            .toArray();
    return e[e.length / 2];
  }
}
