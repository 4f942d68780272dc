package siltwright.life;

import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import java.util.SplittableRandom;
import java.util.stream.IntStream;

/**
 * How often 95 % intervals hold the true value: Weibull shape, scale and B10 life from few records
 * with half of them removed, printed as a table.
 *
 * <p>Both ways of removing have the same law whatever the true shape and scale, as the fit and its
 * intervals have, so one pair stands for all. Each sample has its own generator, seeded from one
 * seed; the threads that share the work change nothing.
 */
public final class CoverageStudy {
  private static final long SEED = 20261125;
  private static final int SAMPLES = 4000;
  private static final int DRAWS = 999;
  private static final double CONFIDENCE = 0.95;
  private static final double SHAPE = 2;
  private static final double SCALE_H = 5000;

  private static final List<Target> TARGETS =
      List.of(
          new Target("shape", Quantity.SHAPE, SHAPE),
          new Target("scale", Quantity.SCALE, SCALE_H),
          new Target(
              "B10", new Quantity.BLife(0.1), SCALE_H * Math.pow(-Math.log(0.9), 1 / SHAPE)));

  private static final List<String> METHODS = List.of("Wald", "profile", "percentile", "BCa");

  private CoverageStudy() {}

  /** A quantity and its true value. */
  private record Target(String name, Quantity quantity, double truth) {}

  /** How half of the components come to be removed. */
  private enum Removal {
    /** All are new together; the records are read at the median life. */
    AT_ONE_AGE("one age"),
    /** Each has an age at removal of its own, of the same law as life. */
    MIXED("mixed");

    private final String label;

    Removal(String label) {
      this.label = label;
    }

    LifeData sample(int n, SplittableRandom random) {
      double[] hours = new double[n];
      boolean[] failed = new boolean[n];
      for (int i = 0; i < n; i++) {
        double lifeH = weibullH(random.nextDouble());
        double removalH = weibullH(this == AT_ONE_AGE ? 0.5 : random.nextDouble());
        failed[i] = lifeH <= removalH;
        hours[i] = Math.min(lifeH, removalH);
      }
      return LifeData.of(hours, failed);
    }

    private static double weibullH(double failedShare) {
      return SCALE_H * Math.pow(-Math.log1p(-failedShare), 1 / SHAPE);
    }
  }

  /** The intervals of one sample by target and method, or null where no estimate exists. */
  private record Sample(Interval[][] intervals, int drawsWithout) {}

  /** Prints the tables. */
  public static void main(String[] args) {
    System.out.printf(
        Locale.ROOT,
        "Seed %d, %d samples a line, %d bootstrap draws a sample.%n%n",
        SEED,
        SAMPLES,
        DRAWS);
    StringBuilder coverage = new StringBuilder();
    System.out.println("| removal | n | samples without an estimate | draws without, mean |");
    System.out.println("| --- | ---: | ---: | ---: |");
    for (Removal removal : Removal.values()) {
      for (int n : new int[] {10, 30, 100}) {
        List<Sample> samples = samples(removal, n);
        List<Sample> fitted = samples.stream().filter(s -> s.intervals() != null).toList();
        System.out.printf(
            Locale.ROOT,
            "| %s | %d | %.2f %% | %.2f %% |%n",
            removal.label,
            n,
            100.0 * (SAMPLES - fitted.size()) / SAMPLES,
            fitted.stream().mapToInt(Sample::drawsWithout).average().orElseThrow() * 100 / DRAWS);
        for (int t = 0; t < TARGETS.size(); t++) {
          for (int m = 0; m < METHODS.size(); m++) {
            coverage.append(line(removal, n, t, m, fitted));
          }
        }
      }
    }
    System.out.printf(
        "%n| removal | n | quantity | interval | coverage %% | error | true value below %% |"
            + " above %% | upper/lower, median |%n");
    System.out.println("| --- | ---: | --- | --- | ---: | ---: | ---: | ---: | ---: |");
    System.out.print(coverage);
  }

  private static List<Sample> samples(Removal removal, int n) {
    long[] seeds = new SplittableRandom(SEED + n).longs(2L * SAMPLES).toArray();
    return IntStream.range(0, SAMPLES)
        .parallel()
        .mapToObj(
            i -> intervals(removal.sample(n, new SplittableRandom(seeds[2 * i])), seeds[2 * i + 1]))
        .toList();
  }

  private static Sample intervals(LifeData data, long seed) {
    Estimate<Bootstrap> estimate = Bootstrap.of(data, LifeFamily.WEIBULL, DRAWS, seed, false);
    if (!estimate.exists()) {
      return new Sample(null, 0);
    }
    Bootstrap bootstrap = estimate.get();
    LifeFit fit = bootstrap.fit();
    Interval[][] intervals = new Interval[TARGETS.size()][];
    for (int t = 0; t < intervals.length; t++) {
      Quantity q = TARGETS.get(t).quantity();
      intervals[t] =
          new Interval[] {
            fit.estimate(q, CONFIDENCE).wald(),
            fit.profileInterval(q, CONFIDENCE),
            bootstrap.percentileInterval(q, CONFIDENCE),
            bootstrap.bcaInterval(q, CONFIDENCE)
          };
    }
    return new Sample(intervals, bootstrap.withoutMaximum());
  }

  private static String line(Removal removal, int n, int target, int method, List<Sample> fitted) {
    double truth = TARGETS.get(target).truth();
    int below = 0;
    int above = 0;
    double[] ratios = new double[fitted.size()];
    for (int i = 0; i < ratios.length; i++) {
      Interval interval = fitted.get(i).intervals()[target][method];
      below += truth < interval.lower() ? 1 : 0;
      above += truth > interval.upper() ? 1 : 0;
      ratios[i] = interval.upper() / interval.lower();
    }
    Arrays.sort(ratios);
    double misses = (double) (below + above) / ratios.length;
    return String.format(
        Locale.ROOT,
        "| %s | %d | %s | %s | %.1f | %.1f | %.1f | %.1f | %.2f |%n",
        removal.label,
        n,
        TARGETS.get(target).name(),
        METHODS.get(method),
        100 * (1 - misses),
        100 * Math.sqrt(misses * (1 - misses) / ratios.length),
        100.0 * below / ratios.length,
        100.0 * above / ratios.length,
        ratios[ratios.length / 2]);
  }
}
