package siltwright.element;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.stream.IntStream;
import org.apache.commons.math3.distribution.TDistribution;
import org.apache.commons.math3.linear.Array2DRowRealMatrix;
import org.apache.commons.math3.linear.CholeskyDecomposition;
import siltwright.analysis.NaturalOrder;

/**
 * What earlier runs to the limit say of the mass left at a pressure drop.
 *
 * <p>For each of a row of drops p, the mass that a run still took until the limit is regressed
 * (ridge) on the masses at which it first reached p and some shares of p, on the logarithm of its
 * feed, and on how much more or less than usual the runs before and after it took: elements, dust
 * and air of one day are alike. Runs are in the natural order of their names. The interval comes
 * from what each run's mass would have been foretold wrong by without it (leave one out), runs of a
 * like feed counting most.
 *
 * <p>Own method; the two constants of the neighbourhood were chosen on the validation runs of open
 * data (docs/element-open-data.md).
 */
public final class EarlierRuns {
  /** Fewest runs to the limit that are listened to. */
  public static final int FEWEST = 5;

  private static final double[] SHARES = {1, 0.8, 0.6, 0.45, 0.33, 0.25, 0.18};
  private static final int DROPS = 60;
  private static final double RIDGE = 5;

  /** A drop so much above the clean one is the first that tells anything. */
  private static final double ABOVE_CLEAN = 1.15;

  private static final double START_UP = 0.04;

  /** Runs over which likeness fades to 1/e. */
  private final double reach;

  /** Weight of there being no likeness. */
  private final double doubt;

  /** How fast a run of another feed loses its say on the interval, per ln feed. */
  private static final double FEED_FADE = 3;

  private static final double TAIL = 0.05;
  private static final int ENOUGH_FOR_QUANTILES = 10;

  private final double limitKPa;
  private final double[] mass;
  private final double[] logFeed;
  private final List<String> names;
  private final double[] more;
  private final double lowestKPa;
  private final double cleanKPa;
  private final double[] drops;
  private final Regression[] regressions;
  private final double exponent;
  private final double exponentSd;

  private EarlierRuns(List<LoadingRun> all, double limitKPa, double reach, double doubt) {
    this.limitKPa = limitKPa;
    this.reach = reach;
    this.doubt = doubt;
    List<LoadingRun> runs = new ArrayList<>();
    for (LoadingRun r : all) {
      if (r.rows() > 3 && r.massAtLimit(limitKPa) > 0) {
        runs.add(r);
      }
    }
    runs.sort((a, b) -> NaturalOrder.compare(a.name(), b.name()));
    names = runs.stream().map(LoadingRun::name).toList();
    int n = runs.size();
    mass = runs.stream().mapToDouble(r -> r.massAtLimit(limitKPa)).toArray();
    logFeed = runs.stream().mapToDouble(r -> Math.log(r.feed())).toArray();
    cleanKPa = median(runs.stream().mapToDouble(EarlierRuns::clean).toArray());
    lowestKPa = Math.min(ABOVE_CLEAN * cleanKPa, 0.5 * limitKPa);
    more = new double[n];
    for (int i = 0; i < n; i++) {
      more[i] = mass[i] - usual(logFeed[i]);
    }
    drops = new double[DROPS];
    Arrays.setAll(drops, g -> lowestKPa * Math.pow(limitKPa / lowestKPa, g / (double) (DROPS - 1)));
    regressions = new Regression[DROPS];
    for (int g = 0; g < DROPS; g++) {
      regressions[g] = regression(runs, drops[g]);
    }
    double[] exponents =
        runs.stream().mapToDouble(r -> BlockingFit.of(r).exponent()).sorted().toArray();
    exponent = n == 0 ? BlockingFit.PRIOR_EXPONENT : exponents[n / 2];
    exponentSd = n < FEWEST ? BlockingFit.PRIOR_SD : Math.max(0.1, sd(exponents));
  }

  /**
   * Learns from runs.
   *
   * @param runs runs of elements of the same kind; those that did not reach the limit are left out
   * @param limitKPa the limit, kPa
   */
  public static EarlierRuns of(List<LoadingRun> runs, double limitKPa) {
    return new EarlierRuns(runs, limitKPa, 0.5, 0.6);
  }

  /** The same with the constants of the neighbourhood given, to choose them. */
  static EarlierRuns of(List<LoadingRun> runs, double limitKPa, double reach, double doubt) {
    return new EarlierRuns(runs, limitKPa, reach, doubt);
  }

  private static double clean(LoadingRun run) {
    double from = START_UP * run.mass(run.rows() - 1);
    int i = 0;
    while (run.mass(i) < from) {
      i++;
    }
    return run.level(i);
  }

  private static double median(double[] values) {
    double[] sorted = values.clone();
    Arrays.sort(sorted);
    return sorted.length == 0 ? Double.NaN : sorted[sorted.length / 2];
  }

  private static double sd(double[] values) {
    double mean = Arrays.stream(values).average().orElse(0);
    return Math.sqrt(Arrays.stream(values).map(v -> (v - mean) * (v - mean)).average().orElse(0));
  }

  /** Mass of runs of about a feed. */
  private double usual(double logFeedOf) {
    double sum = 0;
    double weights = 0;
    for (int i = 0; i < mass.length; i++) {
      double w = Math.exp(-FEED_FADE * Math.abs(logFeed[i] - logFeedOf));
      sum += w * mass[i];
      weights += w;
    }
    return sum / weights;
  }

  /** A ridge regression in standardised columns, with its leave-one-out errors, rising. */
  private record Regression(
      int masses,
      double[] mean,
      double[] scale,
      double[] slope,
      double level,
      double[] error,
      int[] order) {
    double at(double[] x) {
      double sum = level;
      for (int k = 0; k < x.length; k++) {
        sum += slope[k] * (x[k] - mean[k]) / scale[k];
      }
      return sum;
    }
  }

  private int massesAt(double dropKPa) {
    int k = 1;
    while (k < SHARES.length && SHARES[k] * dropKPa >= lowestKPa) {
      k++;
    }
    return k;
  }

  private double[] features(LoadingRun run, int last, double dropKPa, int masses, double likeness) {
    double[] x = new double[masses + 2];
    for (int k = 0; k < masses; k++) {
      x[k] = run.mass(run.rowAt(Math.max(lowestKPa, SHARES[k] * dropKPa), last));
    }
    x[masses] = likeness;
    x[masses + 1] = Math.log(run.feed());
    return x;
  }

  private Regression regression(List<LoadingRun> runs, double dropKPa) {
    int n = runs.size();
    int masses = massesAt(dropKPa);
    int p = masses + 2;
    double[][] x = new double[n][];
    double[] left = new double[n];
    for (int i = 0; i < n; i++) {
      LoadingRun r = runs.get(i);
      x[i] = features(r, r.rows() - 1, dropKPa, masses, likeness(i));
      left[i] = mass[i] - x[i][0];
    }
    double[] mean = new double[p];
    double[] scale = new double[p];
    for (int k = 0; k < p; k++) {
      int column = k;
      double[] values = IntStream.range(0, n).mapToDouble(i -> x[i][column]).toArray();
      mean[k] = Arrays.stream(values).average().orElse(0);
      scale[k] = Math.max(sd(values), 1e-9 * (1 + Math.abs(mean[k])));
    }
    double level = Arrays.stream(left).average().orElse(0);
    double[][] a = new double[p][p];
    double[] b = new double[p];
    double[][] z = new double[n][p];
    for (int i = 0; i < n; i++) {
      for (int k = 0; k < p; k++) {
        z[i][k] = (x[i][k] - mean[k]) / scale[k];
      }
      for (int k = 0; k < p; k++) {
        b[k] += z[i][k] * (left[i] - level);
        for (int l = 0; l < p; l++) {
          a[k][l] += z[i][k] * z[i][l];
        }
      }
    }
    for (int k = 0; k < p; k++) {
      a[k][k] += RIDGE;
    }
    double[][] inverse =
        new CholeskyDecomposition(new Array2DRowRealMatrix(a), 1e-6, 0)
            .getSolver()
            .getInverse()
            .getData();
    double[] slope = new double[p];
    for (int k = 0; k < p; k++) {
      for (int l = 0; l < p; l++) {
        slope[k] += inverse[k][l] * b[l];
      }
    }
    double[] error = new double[n];
    for (int i = 0; i < n; i++) {
      double fitted = level;
      double own = 1.0 / n;
      for (int k = 0; k < p; k++) {
        fitted += slope[k] * z[i][k];
        for (int l = 0; l < p; l++) {
          own += z[i][k] * inverse[k][l] * z[i][l];
        }
      }
      error[i] = (left[i] - fitted) / Math.max(0.05, 1 - own);
    }
    int[] order =
        IntStream.range(0, n)
            .boxed()
            .sorted((i, j) -> Double.compare(error[i], error[j]))
            .mapToInt(Integer::intValue)
            .toArray();
    return new Regression(masses, mean, scale, slope, level, error, order);
  }

  /** How much more than usual the runs around one of them took, drawn towards nothing. */
  private double likeness(int run) {
    return likeness(run, run + 1);
  }

  /**
   * The same of a place among the runs.
   *
   * @param before runs before it
   * @param next the run behind it
   */
  private double likeness(int before, int next) {
    double sum = 0;
    double weights = doubt;
    for (int i = 0; i < more.length; i++) {
      if (i < before || i >= next) {
        int apart = i < before ? before - i : i - next + 1;
        double w = Math.exp(-apart / reach);
        sum += w * more[i];
        weights += w;
      }
    }
    return sum / weights;
  }

  private double likeness(LoadingRun run) {
    String pattern = pattern(run.name());
    if (names.stream().noneMatch(name -> pattern(name).equals(pattern))) {
      return 0; // a name of another kind says nothing of the order
    }
    int before = 0;
    while (before < names.size() && NaturalOrder.compare(names.get(before), run.name()) < 0) {
      before++;
    }
    return likeness(before, before);
  }

  private static String pattern(String name) {
    String file = name.substring(Math.max(name.lastIndexOf('/'), name.lastIndexOf('\\')) + 1);
    return file.replaceAll("\\d+", "#");
  }

  /** Returns the number of runs to the limit. */
  public int runs() {
    return mass.length;
  }

  /** Returns whether there are enough to forecast from. */
  public boolean enough() {
    return runs() >= FEWEST;
  }

  /** Returns the drop of a clean element, the median of the runs, kPa. */
  public double cleanKPa() {
    return cleanKPa;
  }

  /** Returns the mass at which the limit is reached, the median of the runs. */
  public double medianMass() {
    return median(mass);
  }

  /** Returns the blocking exponent of the runs, their median. */
  public double exponent() {
    return exponent;
  }

  /** Returns the standard deviation of the exponent from run to run. */
  public double exponentSd() {
    return exponentSd;
  }

  /**
   * Forecasts the mass that a run still takes until the limit.
   *
   * @param run the run
   * @param last the row at which it is looked at; nothing behind it is used
   * @return mass left, with an interval of 90 %
   */
  public Remaining remaining(LoadingRun run, int last) {
    double level = run.level(last);
    if (level >= limitKPa) {
      return Remaining.NONE;
    }
    int g = 1;
    while (g < DROPS - 1 && drops[g] < level) {
      g++;
    }
    double share = Math.max(0, Math.log(level / drops[g - 1]) / Math.log(drops[g] / drops[g - 1]));
    Remaining below = remaining(regressions[g - 1], run, last);
    Remaining above = remaining(regressions[g], run, last);
    return new Remaining(
        Math.max(0, between(below.value(), above.value(), share)),
        Math.max(0, between(below.low(), above.low(), share)),
        Math.max(0, between(below.high(), above.high(), share)));
  }

  private static double between(double a, double b, double share) {
    return a + share * (b - a);
  }

  private Remaining remaining(Regression r, LoadingRun run, int last) {
    double[] x = features(run, last, run.level(last), r.masses(), likeness(run));
    double value = r.at(x) - (run.mass(last) - x[0]);
    double[] ends = ends(r, Math.log(run.feed()));
    return new Remaining(value, value + ends[0], value + ends[1]);
  }

  private double[] ends(Regression r, double logFeedOf) {
    int n = mass.length;
    double[] w = new double[n];
    double sum = 0;
    double squares = 0;
    for (int i = 0; i < n; i++) {
      w[i] = Math.exp(-FEED_FADE * Math.abs(logFeed[i] - logFeedOf));
      sum += w[i];
      squares += w[i] * w[i];
    }
    double effective = sum * sum / squares;
    if (effective < ENOUGH_FOR_QUANTILES) {
      double variance = 0;
      for (int i = 0; i < n; i++) {
        variance += w[i] * r.error()[i] * r.error()[i] / sum;
      }
      double half =
          new TDistribution(Math.max(1, effective - 1)).inverseCumulativeProbability(1 - TAIL)
              * Math.sqrt(variance * (1 + 1 / effective));
      return new double[] {-half, half};
    }
    // Of so many errors the next lies beyond the largest once in effective + 1 times.
    double tail = Math.max(0, TAIL - (0.5 - TAIL) / (effective + 1));
    return new double[] {quantile(r, w, sum, tail), quantile(r, w, sum, 1 - tail)};
  }

  private static double quantile(Regression r, double[] w, double sum, double share) {
    double before = 0;
    double lastShare = 0;
    double lastError = r.error()[r.order()[0]];
    for (int i : r.order()) {
      double at = (before + w[i] / 2) / sum;
      if (at >= share) {
        return lastShare == 0
            ? r.error()[i]
            : lastError + (share - lastShare) / (at - lastShare) * (r.error()[i] - lastError);
      }
      before += w[i];
      lastShare = at;
      lastError = r.error()[i];
    }
    return lastError;
  }
}
