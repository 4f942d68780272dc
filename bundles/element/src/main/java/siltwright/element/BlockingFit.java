package siltwright.element;

import java.util.Arrays;
import java.util.Random;
import org.apache.commons.math3.linear.Array2DRowRealMatrix;
import org.apache.commons.math3.linear.CholeskyDecomposition;
import org.apache.commons.math3.linear.RealMatrix;

/**
 * The blocking law through one run.
 *
 * <pre>
 *   dh/dm = k h^n,  h(0) = 1,  p = p_0 h
 *   ln p = ln p_0 + ln[1 + (1-n) k m]/(1-n),   ln p_0 + k m at n = 1
 * </pre>
 *
 * <p>Source: Hermia's laws at constant flow (docs/theory.md). p_0, k and n are fitted to the
 * logarithms by weighted least squares with a normal prior on n: what a short run does not tell the
 * prior does. No single law holds to better than a few percent, so neighbouring rows are wrong
 * together: however many there are, they count as {@value #INDEPENDENT} independent ones (own
 * choice; docs/element-open-data.md shows what the intervals then cover).
 */
public final class BlockingFit {
  /** What open data of several media say of n, before anything is seen. */
  public static final double PRIOR_EXPONENT = 0.9;

  /** Standard deviation of the same. */
  public static final double PRIOR_SD = 0.4;

  private static final int INDEPENDENT = 12;
  private static final int MOST_POINTS = 120;

  /** How well a law follows a run at best, of the highest drop. */
  private static final double LAW_ERROR = 0.03;

  /** How much the exponent of what is to come may be another, and the slope now wrong. */
  private static final double EXPONENT_DRIFT = 0.4;

  private static final double SLOPE_ERROR = 0.3;

  private static final double START_UP = 0.04;
  private static final int DRAWS = 800;
  private static final int STEPS = 60;

  private final double[] theta;
  private final double[][] covariance;

  private BlockingFit(double[] theta, double[][] covariance) {
    this.theta = theta;
    this.covariance = covariance;
  }

  /** Fits a run up to its last row, with the standard prior on the exponent. */
  public static BlockingFit of(LoadingRun run) {
    return of(run, run.rows() - 1, PRIOR_EXPONENT, PRIOR_SD);
  }

  /**
   * Fits a run up to a row.
   *
   * @param run the run
   * @param last last row looked at
   * @param priorExponent mean of n before the run was seen
   * @param priorSd standard deviation of the same
   */
  public static BlockingFit of(LoadingRun run, int last, double priorExponent, double priorSd) {
    Points points = Points.of(run, last);
    int n = points.mass.length;
    double[] t = start(points, priorExponent);
    double damping = 1e-3;
    double cost = cost(points, t, priorExponent, priorSd);
    double[][] normal = null;
    for (int step = 0; step < STEPS; step++) {
      normal = new double[3][3];
      double[] gradient = new double[3];
      for (int i = 0; i < n; i++) {
        double here = logDrop(t, points.mass[i]);
        double[] slope = new double[3];
        for (int k = 0; k < 3; k++) {
          double[] moved = t.clone();
          moved[k] += 1e-5;
          slope[k] = (logDrop(moved, points.mass[i]) - here) / 1e-5;
        }
        for (int k = 0; k < 3; k++) {
          gradient[k] += points.weight[i] * slope[k] * (points.logDrop[i] - here);
          for (int l = 0; l < 3; l++) {
            normal[k][l] += points.weight[i] * slope[k] * slope[l];
          }
        }
      }
      normal[2][2] += 1 / (priorSd * priorSd);
      gradient[2] += (priorExponent - t[2]) / (priorSd * priorSd);
      double[][] damped = new double[3][];
      for (int k = 0; k < 3; k++) {
        damped[k] = normal[k].clone();
        damped[k][k] = damped[k][k] * (1 + damping) + 1e-9;
      }
      double[] move =
          new CholeskyDecomposition(new Array2DRowRealMatrix(damped), 1e-9, 0)
              .getSolver()
              .solve(new Array2DRowRealMatrix(gradient))
              .getColumn(0);
      double[] tried = t.clone();
      for (int k = 0; k < 3; k++) {
        tried[k] += Math.max(-1, Math.min(1, move[k]));
      }
      double now = cost(points, tried, priorExponent, priorSd);
      if (now <= cost) {
        boolean done = cost - now < 1e-10 * (1 + cost);
        t = tried;
        cost = now;
        damping = Math.max(1e-9, damping / 5);
        if (done) {
          break;
        }
      } else {
        damping *= 10;
        if (damping > 1e9) {
          break;
        }
      }
    }
    for (int k = 0; k < 3; k++) {
      normal[k][k] += 1e-9;
    }
    RealMatrix inverse =
        new CholeskyDecomposition(new Array2DRowRealMatrix(normal), 1e-9, 0)
            .getSolver()
            .getInverse();
    return new BlockingFit(t, inverse.getData());
  }

  /** A run in few points of about equal mass between them, with the weight of each. */
  private record Points(double[] mass, double[] logDrop, double[] weight) {
    static Points of(LoadingRun run, int last) {
      double from = START_UP * run.mass(last);
      int first = 0;
      while (first < last - 4 && (run.mass(first) < from || run.dropKPa(first) <= 0)) {
        first++;
      }
      double noise = noise(run, first, last);
      int rows = last + 1 - first;
      int bins = Math.min(MOST_POINTS, rows);
      double[] mass = new double[bins];
      double[] logDrop = new double[bins];
      double[] weight = new double[bins];
      int kept = 0;
      for (int b = 0; b < bins; b++) {
        int a = first + (int) ((long) b * rows / bins);
        int e = first + (int) ((long) (b + 1) * rows / bins);
        double m = 0;
        double p = 0;
        for (int i = a; i < e; i++) {
          m += run.mass(i) / (e - a);
          p += run.dropKPa(i) / (e - a);
        }
        if (p > 0) {
          mass[kept] = m;
          logDrop[kept] = Math.log(p);
          double relative = noise / Math.sqrt(e - a) / p;
          double law = LAW_ERROR * run.level(last) / p;
          weight[kept++] = 1 / (relative * relative + law * law);
        }
      }
      double share = Math.min(1, INDEPENDENT / (double) Math.max(1, kept));
      double[] weights = Arrays.copyOf(weight, kept);
      Arrays.setAll(weights, i -> weights[i] * share);
      return new Points(Arrays.copyOf(mass, kept), Arrays.copyOf(logDrop, kept), weights);
    }

    /** Standard deviation of a row, from second differences, kPa. */
    private static double noise(LoadingRun run, int first, int last) {
      double sum = 0;
      int n = 0;
      for (int i = first + 1; i < last; i++) {
        double second = run.dropKPa(i - 1) - 2 * run.dropKPa(i) + run.dropKPa(i + 1);
        sum += second * second;
        n++;
      }
      return n < 3 ? 0 : Math.sqrt(sum / n / 6);
    }
  }

  private static double[] start(Points p, double exponent) {
    int n = p.mass.length;
    double first = n == 0 ? 0 : p.logDrop[0];
    double rise = n == 0 ? 0.1 : Math.max(0.05, p.logDrop[n - 1] - first);
    double span = n == 0 ? 1 : Math.max(1e-9, p.mass[n - 1] - p.mass[0] / 2);
    return new double[] {first, Math.log(rise / span), Math.min(exponent, 0.999)};
  }

  private static double cost(Points p, double[] t, double exponent, double sd) {
    double sum = (t[2] - exponent) * (t[2] - exponent) / (sd * sd);
    for (int i = 0; i < p.mass.length; i++) {
      double e = p.logDrop[i] - logDrop(t, p.mass[i]);
      sum += p.weight[i] * e * e;
    }
    return sum;
  }

  private static double logDrop(double[] t, double m) {
    double km = Math.exp(t[1]) * m;
    double q = 1 - t[2];
    if (Math.abs(q) < 1e-6) {
      return t[0] + km;
    }
    // Past a wall the law has no value: far off, so that the fit turns back.
    return t[0] + Math.log(Math.max(1e-9, 1 + q * km)) / q;
  }

  /** Returns the blocking exponent n. */
  public double exponent() {
    return theta[2];
  }

  /** Returns the standard error of the exponent. */
  public double exponentError() {
    return Math.sqrt(covariance[2][2]);
  }

  /** Returns the pressure drop of the law at a mass, kPa. */
  public double dropKPa(double mass) {
    return Math.exp(logDrop(theta, mass));
  }

  /** Returns the pressure drop of the clean element, kPa. */
  public double cleanKPa() {
    return Math.exp(theta[0]);
  }

  /**
   * Returns the mass from one pressure drop to another, with an interval of 90 % from draws of the
   * fitted numbers.
   *
   * @param fromKPa level now, kPa
   * @param toKPa limit, kPa
   */
  public Remaining between(double fromKPa, double toKPa) {
    if (fromKPa >= toKPa) {
      return Remaining.NONE;
    }
    double[][] root =
        new CholeskyDecomposition(new Array2DRowRealMatrix(covariance), 1e-6, -1).getL().getData();
    Random random = new Random(1);
    double[] draws = new double[DRAWS];
    for (int d = 0; d < DRAWS; d++) {
      double[] z = {random.nextGaussian(), random.nextGaussian(), random.nextGaussian()};
      double[] t = theta.clone();
      for (int k = 0; k < 3; k++) {
        for (int l = 0; l <= k; l++) {
          t[k] += root[k][l] * z[l];
        }
      }
      draws[d] =
          left(
              t,
              fromKPa,
              toKPa,
              EXPONENT_DRIFT * random.nextGaussian(),
              Math.exp(SLOPE_ERROR * random.nextGaussian()));
    }
    Arrays.sort(draws);
    double value = left(theta, fromKPa, toKPa, 0, 1);
    return new Remaining(
        value, Math.min(value, draws[DRAWS / 20]), Math.max(value, draws[DRAWS - 1 - DRAWS / 20]));
  }

  /**
   * Mass between two drops by the slope at the first, which may be off by a factor, and from there
   * on with an exponent that may be another: ∫ d ln p/(s (p/p_1)^(n-1)).
   */
  private static double left(
      double[] t, double fromKPa, double toKPa, double exponentOff, double slopeOff) {
    double rise = Math.log(toKPa / fromKPa);
    double slope = Math.exp(t[1] + (t[2] - 1) * (Math.log(fromKPa) - t[0])) * slopeOff;
    double q = 1 - t[2] - exponentOff;
    return (Math.abs(q) < 1e-6 ? rise : Math.expm1(q * rise) / q) / slope;
  }
}
