package siltwright.life;

import java.util.Arrays;
import java.util.SplittableRandom;

/**
 * Whether records contradict the fitted law: the largest distance between the fitted survival and
 * Kaplan-Meier, judged against records drawn from the law itself.
 *
 * <p>Each draw has lives from the fitted law and removals from the Kaplan-Meier curve of the
 * removals (failures taken as their censoring), is fitted anew, and gives a distance. That supposes
 * removals independent of life. A large p-value does not prove the law; few failures contradict
 * nothing.
 *
 * <p>Source: parametric bootstrap of the Kolmogorov-Smirnov distance (common practice, no source).
 *
 * @param distance largest distance between the curves over the failure times
 * @param pValue share of draws, the records among them, with a distance at least as large
 * @param draws draws that carried a fit
 */
public record GoodnessOfFit(double distance, double pValue, int draws) {
  /**
   * Tests a fit.
   *
   * @param data the records that were fitted
   * @param draws records to draw, such as 199
   * @param seed the same seed gives the same result
   * @return the test, or a refusal for failures within intervals or late entry
   */
  public static Estimate<GoodnessOfFit> of(LifeData data, LifeFit fit, int draws, long seed) {
    if (data.hasIntervals() || data.hasLateEntry()) {
      return Estimate.refused(
          Reason.UNSUITABLE_CENSORING,
          "The distance needs failures at a known hour and components watched from new.",
          "Compare the laws by their AIC, and look at the probability plot.");
    }
    double distance = distance(data, fit);
    int n = (int) data.components();
    KaplanMeier removals = KaplanMeier.of(removals(data));
    SplittableRandom root = new SplittableRandom(seed);
    int fitted = 0;
    int larger = 0;
    for (int r = 0; r < draws; r++) {
      LifeData drawn = draw(fit, removals, n, root.split());
      Estimate<LifeFit> again = LifeFitting.fit(drawn, fit.family());
      if (again.exists()) {
        fitted++;
        larger += distance(drawn, again.get()) >= distance ? 1 : 0;
      }
    }
    return Estimate.found(new GoodnessOfFit(distance, (larger + 1.0) / (fitted + 1.0), fitted));
  }

  /** Returns the records with removals as the events and failures as their censoring. */
  private static LifeData removals(LifeData data) {
    int n = data.rows();
    double[] hours = new double[n];
    double[] upper = new double[n];
    double[] count = new double[n];
    for (int i = 0; i < n; i++) {
      hours[i] = data.lowerH(i);
      boolean removed = !data.failed(i) && hours[i] > 0;
      upper[i] = removed ? hours[i] : Double.POSITIVE_INFINITY;
      count[i] = data.countAt(i);
    }
    return LifeData.ofColumns(hours, upper, null, count);
  }

  private static LifeData draw(LifeFit fit, KaplanMeier removals, int n, SplittableRandom random) {
    double[] times = removals.timesH();
    double[] survival = removals.survival();
    double[] hours = new double[n];
    boolean[] failed = new boolean[n];
    for (int i = 0; i < n; i++) {
      double life = fit.bLifeH(random.nextDouble(1e-15, 1));
      int k = firstAtMost(survival, random.nextDouble());
      double removal = k < times.length ? times[k] : Double.POSITIVE_INFINITY;
      failed[i] = life <= removal;
      hours[i] = Math.min(life, removal);
    }
    return LifeData.of(hours, failed);
  }

  /** Returns the first index of a falling curve at which it is at most a level, or its length. */
  private static int firstAtMost(double[] falling, double level) {
    int from = 0;
    int to = falling.length;
    while (from < to) {
      int middle = (from + to) >>> 1;
      if (falling[middle] <= level) {
        to = middle;
      } else {
        from = middle + 1;
      }
    }
    return from;
  }

  private static double distance(LifeData data, LifeFit fit) {
    KaplanMeier km = KaplanMeier.of(data);
    double[] times = km.timesH();
    double[] survival = km.survival();
    double[] distances = new double[times.length];
    for (int i = 0; i < times.length; i++) {
      double s = fit.reliability(times[i]);
      double before = i == 0 ? 1 : survival[i - 1];
      distances[i] = Math.max(Math.abs(s - survival[i]), Math.abs(s - before));
    }
    return Arrays.stream(distances).max().orElse(0);
  }
}
