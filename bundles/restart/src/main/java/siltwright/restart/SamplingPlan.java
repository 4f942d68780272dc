package siltwright.restart;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.stream.IntStream;
import siltwright.analysis.Progress;
import siltwright.model.Machine;
import siltwright.model.SizeBands;
import siltwright.samples.BandCounts;
import siltwright.samples.CountError;

/**
 * When to draw bottles after a restart, and what they will be able to tell.
 *
 * <p>Times are chosen one after the other so that each leaves the least standard deviation of ln G
 * at the limit, of what the earlier ones left. Power is counted on changes drawn with everything
 * unknown in them, by the very fit that grades real ones.
 *
 * @param minutes minutes of running at which to draw, rising
 * @param powers what is found of true releases
 * @param lastUsefulMin the last minute at which a bottle still halves what was unknown of a release
 *     of the limit; 0 if none does
 * @param seenG least release that is found four times out of five, g; infinite if none looked at is
 */
public record SamplingPlan(
    double[] minutes, List<Power> powers, double lastUsefulMin, double seenG) {
  /** Probability from which on a change is said to have shed more than the limit. */
  public static final double CERTAIN = 0.9;

  private static final double[] TIMES_LIMIT = {0.25, 0.5, 1, 1.5, 2, 3, 4, 8};
  private static final int LOOKS = 60;

  /** Where so many draws are all found, or none, more would say the same to within two points. */
  private static final int SURE_AFTER = 300;

  private static final double WANTED = 0.8;

  /**
   * What is found of a release.
   *
   * @param grams what was truly released, g
   * @param found share of such changes that are said to have shed more than the limit
   */
  public record Power(double grams, double found) {}

  /**
   * What is asked.
   *
   * @param bottles bottles after the restart
   * @param before whether there is a sample from before the change
   * @param sizes sizes counted, 1 to 6
   * @param limitG release that matters, g
   * @param earliestMin first minute at which the oil is mixed and can be drawn
   * @param apartMin least minutes between two bottles
   * @param draws changes drawn for each power
   * @param seed seed of them
   */
  public record Request(
      int bottles,
      boolean before,
      int sizes,
      double limitG,
      double earliestMin,
      double apartMin,
      int draws,
      long seed) {
    /**
     * Three bottles beside one from before, counted at 4, 6 and 14 µm(c), for a release of 1 g; oil
     * is mixed after 4 min, and a bottle takes 3 min.
     */
    public static final Request STANDARD = new Request(3, true, 3, 1, 4, 3, 1200, 1);
  }

  /**
   * Makes the plan of a machine.
   *
   * @param wash how a release shows
   * @param doubt how well the rest is known
   * @param error how far counts lie off
   * @param ask what is asked
   * @param progress told how far it is
   */
  public static SamplingPlan of(
      WashOut wash, Doubt doubt, CountError error, Request ask, Progress progress) {
    ReleaseFit fit = new ReleaseFit(wash, doubt, error);
    double[] looks = looks(wash, ask);
    double[] minutes = minutes(fit, looks, error, ask);
    double last = 0;
    double unknown = fit.expectedSd(ask.limitG(), blanks(List.of(), ask, error));
    for (double t : looks) {
      if (fit.expectedSd(ask.limitG(), blanks(List.of(t), ask, error)) < 0.5 * unknown) {
        last = t;
      }
    }
    List<Power> powers = new ArrayList<>();
    for (int g = 0; g < TIMES_LIMIT.length; g++) {
      progress.check(0.05 + 0.9 * g / TIMES_LIMIT.length, "power");
      powers.add(power(wash, doubt, error, ask, minutes, TIMES_LIMIT[g] * ask.limitG(), fit));
    }
    return new SamplingPlan(minutes, List.copyOf(powers), last, seen(powers));
  }

  /**
   * Returns the minutes of running at which to draw bottles on a machine, rising, as {@link
   * Request#STANDARD} asks for them; empty where nothing takes some size out of the oil.
   */
  public static double[] minutes(Machine machine) {
    WashOut wash = WashOut.of(machine);
    for (int j = 0; j < SizeBands.COUNT; j++) {
      if (!(wash.tauMin(j) < Double.POSITIVE_INFINITY)) {
        return new double[0];
      }
    }
    CountError error = CountError.STANDARD;
    ReleaseFit fit = new ReleaseFit(wash, Doubt.of(machine), error);
    return minutes(fit, looks(wash, Request.STANDARD), error, Request.STANDARD);
  }

  private static double[] looks(WashOut wash, Request ask) {
    double slowest = IntStream.range(0, 2).mapToDouble(wash::tauMin).max().orElse(1);
    double[] looks = new double[LOOKS];
    Arrays.setAll(
        looks, i -> ask.earliestMin() + (i / (LOOKS - 1.0)) * (i / (LOOKS - 1.0)) * 8 * slowest);
    return looks;
  }

  private static double[] minutes(ReleaseFit fit, double[] looks, CountError error, Request ask) {
    List<Double> chosen = new ArrayList<>();
    for (int k = 0; k < ask.bottles(); k++) {
      double best = Double.NaN;
      double least = Double.POSITIVE_INFINITY;
      for (double t : looks) {
        if (chosen.stream().anyMatch(c -> Math.abs(c - t) < ask.apartMin())) {
          continue;
        }
        List<Double> tried = new ArrayList<>(chosen);
        tried.add(t);
        double sd = fit.expectedSd(ask.limitG(), blanks(tried, ask, error));
        if (sd < least) {
          least = sd;
          best = t;
        }
      }
      if (Double.isNaN(best)) {
        best = chosen.get(chosen.size() - 1) + ask.apartMin();
      }
      chosen.add(best);
    }
    return chosen.stream().mapToDouble(t -> t).sorted().toArray();
  }

  private static Power power(
      WashOut wash,
      Doubt doubt,
      CountError error,
      Request ask,
      double[] minutes,
      double grams,
      ReleaseFit fit) {
    int first = Math.min(SURE_AFTER, ask.draws());
    long found = found(wash, doubt, error, ask, minutes, grams, fit, 0, first);
    if (found == 0 || found == first) {
      return new Power(grams, found / (double) first);
    }
    found += found(wash, doubt, error, ask, minutes, grams, fit, first, ask.draws());
    return new Power(grams, found / (double) ask.draws());
  }

  private static long found(
      WashOut wash,
      Doubt doubt,
      CountError error,
      Request ask,
      double[] minutes,
      double grams,
      ReleaseFit fit,
      int from,
      int to) {
    return IntStream.range(from, to)
        .parallel()
        .filter(
            i ->
                fit.of(bottles(wash, doubt, error, ask, minutes, grams, ask.seed() + i))
                        .probabilityAbove(ask.limitG())
                    >= CERTAIN)
        .count();
  }

  /** Returns the bottles that one change of so many grams might give. */
  static List<Bottle> bottles(
      WashOut wash,
      Doubt doubt,
      CountError error,
      Request ask,
      double[] minutes,
      double grams,
      long seed) {
    MadeBottles made = new MadeBottles(wash, doubt, error, ask.sizes(), seed * 7919 + 1);
    List<Bottle> bottles = new ArrayList<>();
    if (ask.before()) {
      bottles.add(made.before());
    }
    for (double t : minutes) {
      bottles.add(made.after(grams, t));
    }
    return bottles;
  }

  private static List<Bottle> blanks(List<Double> minutes, Request ask, CountError error) {
    double[] counted = new double[SizeBands.COUNT];
    for (int i = ask.sizes(); i < counted.length; i++) {
      counted[i] = Double.NaN;
    }
    BandCounts shape = BandCounts.of(counted, error.volumeMl(), false);
    List<Bottle> bottles = new ArrayList<>();
    if (ask.before()) {
      bottles.add(new Bottle(Double.NaN, shape));
    }
    minutes.forEach(t -> bottles.add(new Bottle(t, shape)));
    return bottles;
  }

  private static double seen(List<Power> powers) {
    for (int i = 0; i < powers.size(); i++) {
      if (powers.get(i).found() >= WANTED) {
        if (i == 0) {
          return powers.get(0).grams();
        }
        Power a = powers.get(i - 1);
        Power b = powers.get(i);
        double t = (WANTED - a.found()) / (b.found() - a.found());
        return a.grams() * Math.pow(b.grams() / a.grams(), t);
      }
    }
    return Double.POSITIVE_INFINITY;
  }
}
