package siltwright.closure;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.SplittableRandom;
import java.util.stream.IntStream;
import siltwright.analysis.Progress;

/**
 * The three numbers of machines of one class, each machine's own and drawn towards its class by as
 * much as its record is unsure (partial pooling).
 *
 * <pre>
 *   record | theta_m     normal round its best fit (Laplace)
 *   theta_m ~ N(mu, diag tau²),   mu ~ N(0, s²),   tau² ~ inverse gamma
 * </pre>
 *
 * <p>theta counts from the fleet file, so that what is pooled is how far the file is off. Drawn by
 * Gibbs' sampler (mean and spread of the class with the machines integrated out) in {@value
 * #CHAINS} chains from spread starts; the records are then fitted anew with the class as prior and
 * drawn again. Calibration and capacity, wrong alike in all machines, are drawn from their own
 * spreads and not learnt. Convergence: split R-hat (A. Gelman et al., Bayesian Data Analysis, 3rd
 * ed., 2013, section 11.4).
 */
public final class ClassFit {
  /** Chains. */
  static final int CHAINS = 4;

  private static final int P = ClosureModel.UNKNOWNS;
  private static final int BURN = 300;
  private static final int KEPT = 500;
  private static final int OUTER = 2;

  /** What a fleet file's numbers are worth before any record: sd of theta's mean over a class. */
  private static final double[] FILE_SD = {0.8, 0.7, 0.8};

  private static final double SHAPE = 2.5;

  /** Step of ln tau² that is tried. */
  private static final double STEP = 1.2;

  /** Where the spread within a class lies before any record. */
  private static final double[] WITHIN = {0.2, 0.2, 0.2};

  private final List<ClosureModel> models;
  private final List<MachineFit> fits;
  private final double[][][] theta;
  private final double[][] mu;
  private final double[][] tau;
  private final double rHat;

  private ClassFit(
      List<ClosureModel> models,
      List<MachineFit> fits,
      double[][][] theta,
      double[][] mu,
      double[][] tau,
      double rHat) {
    this.models = models;
    this.fits = fits;
    this.theta = theta;
    this.mu = mu;
    this.tau = tau;
    this.rHat = rHat;
  }

  /**
   * Fits the machines of a class.
   *
   * @param models at least one
   * @param errors how far records lie off
   * @param seed seed of the draws
   * @param progress told how far it is
   */
  public static ClassFit of(
      List<ClosureModel> models, Errors errors, long seed, Progress progress) {
    double[] mean = new double[P];
    double[] sd = new double[P];
    for (int k = 0; k < P; k++) {
      sd[k] = Math.hypot(FILE_SD[k], WITHIN[k]);
    }
    ClassFit result = null;
    for (int outer = 0; outer < OUTER; outer++) {
      progress.check(outer / (double) OUTER, "fit of " + models.size() + " machines");
      double[] m = mean;
      double[] s = sd;
      List<MachineFit> fits =
          IntStream.range(0, models.size())
              .parallel()
              .mapToObj(i -> MachineFit.of(models.get(i), errors, m, s))
              .toList();
      result = draw(models, fits, errors, seed + outer);
      mean = new double[P];
      sd = new double[P];
      for (int k = 0; k < P; k++) {
        int parameter = k;
        mean[k] = Arrays.stream(result.mu).mapToDouble(d -> d[parameter]).average().orElse(0);
        double t = Arrays.stream(result.tau).mapToDouble(d -> d[parameter]).average().orElse(0.2);
        double own = sd(Arrays.stream(result.mu).mapToDouble(d -> d[parameter]).toArray());
        sd[k] = Math.hypot(t, own);
      }
    }
    return result;
  }

  private static ClassFit draw(
      List<ClosureModel> models, List<MachineFit> fits, Errors errors, long seed) {
    int n = models.size();
    double[][][] theta = new double[CHAINS * KEPT][n][];
    double[][] mu = new double[CHAINS * KEPT][];
    double[][] tau = new double[CHAINS * KEPT][];
    for (int chain = 0; chain < CHAINS; chain++) {
      SplittableRandom random = new SplittableRandom(seed * 1_000_003L + chain);
      double[] m = new double[P];
      double[] t2 = new double[P];
      for (int k = 0; k < P; k++) {
        m[k] = 1.5 * FILE_SD[k] * random.nextGaussian();
        t2[k] = WITHIN[k] * WITHIN[k] * Math.exp(2 * random.nextGaussian());
      }
      double[][] now = new double[n][];
      for (int i = 0; i < BURN + KEPT; i++) {
        double u = errors.count().all() * random.nextGaussian();
        double kappa = errors.capacity() * random.nextGaussian();
        double[][] linear = new double[n][P];
        for (int j = 0; j < n; j++) {
          MachineFit f = fits.get(j);
          for (int k = 0; k < P; k++) {
            linear[j][k] = f.linear[k] - u * f.calibration[k] - kappa * f.capacity[k];
          }
        }
        for (int k = 0; k < P; k++) {
          double[] tried = t2.clone();
          tried[k] *= Math.exp(STEP * random.nextGaussian());
          double gain = logSpread(fits, linear, m, tried, k) - logSpread(fits, linear, m, t2, k);
          if (Math.log(random.nextDouble()) < gain) {
            t2 = tried;
          }
        }
        m = drawMean(fits, linear, t2, random);
        for (int j = 0; j < n; j++) {
          now[j] = drawMachine(fits.get(j), linear[j], m, t2, random);
        }
        if (i >= BURN) {
          int d = chain * KEPT + i - BURN;
          for (int j = 0; j < n; j++) {
            theta[d][j] = now[j].clone();
          }
          mu[d] = m.clone();
          tau[d] = Arrays.stream(t2).map(Math::sqrt).toArray();
        }
      }
    }
    double worst = 1;
    for (int k = 0; k < P; k++) {
      int parameter = k;
      worst = Math.max(worst, rHat(d -> mu[d][parameter]));
      worst = Math.max(worst, rHat(d -> Math.log(tau[d][parameter])));
      for (int j = 0; j < n; j++) {
        int machine = j;
        worst = Math.max(worst, rHat(d -> theta[d][machine][parameter]));
      }
    }
    return new ClassFit(models, fits, theta, mu, tau, worst);
  }

  /** Precision of a machine given the spread of its class. */
  private static double[][] given(MachineFit fit, double[] t2) {
    double[][] a = new double[P][];
    for (int k = 0; k < P; k++) {
      a[k] = fit.precision[k].clone();
      a[k][k] += 1 / t2[k];
    }
    return a;
  }

  /**
   * Log density of the spreads, the machines' own numbers integrated out: with r = b - A mu, half
   * r' (A + D^-1)^-1 r less half ln det(A + D^-1) and half ln det D each, and the prior of ln
   * tau_k².
   */
  private static double logSpread(
      List<MachineFit> fits, double[][] linear, double[] m, double[] t2, int k) {
    double sum = -SHAPE * Math.log(t2[k]) - (SHAPE + 1) * WITHIN[k] * WITHIN[k] / t2[k];
    for (int j = 0; j < linear.length; j++) {
      double[][] l = Small.cholesky(given(fits.get(j), t2));
      double[] r = residual(fits.get(j), linear[j], m);
      double[] z = Small.forward(l, r);
      for (int p = 0; p < P; p++) {
        sum += 0.5 * z[p] * z[p] - Math.log(l[p][p]);
      }
      sum -= 0.5 * Math.log(t2[k]);
    }
    return sum;
  }

  private static double[] residual(MachineFit fit, double[] linear, double[] m) {
    double[] r = linear.clone();
    for (int p = 0; p < P; p++) {
      for (int q = 0; q < P; q++) {
        r[p] -= fit.precision[p][q] * m[q];
      }
    }
    return r;
  }

  /** Draws the class's mean, the machines' own numbers integrated out. */
  private static double[] drawMean(
      List<MachineFit> fits, double[][] linear, double[] t2, SplittableRandom random) {
    double[][] a = new double[P][P];
    double[] b = new double[P];
    for (int k = 0; k < P; k++) {
      a[k][k] = 1 / (FILE_SD[k] * FILE_SD[k]);
    }
    for (int j = 0; j < linear.length; j++) {
      // (A^-1 + D)^-1 = D^-1 - D^-1 (A + D^-1)^-1 D^-1, which needs no inverse of a flat A.
      double[][] g = given(fits.get(j), t2);
      double[] h = Small.solve(g, linear[j]);
      for (int k = 0; k < P; k++) {
        double[] unit = new double[P];
        unit[k] = 1 / t2[k];
        double[] column = Small.solve(g, unit);
        a[k][k] += 1 / t2[k];
        for (int q = 0; q < P; q++) {
          a[q][k] -= column[q] / t2[q];
        }
        b[k] += h[k] / t2[k];
      }
    }
    return normal(a, b, random);
  }

  private static double[] drawMachine(
      MachineFit fit, double[] linear, double[] m, double[] t2, SplittableRandom random) {
    double[] b = linear.clone();
    for (int k = 0; k < P; k++) {
      b[k] += m[k] / t2[k];
    }
    return normal(given(fit, t2), b, random);
  }

  /** A draw of the normal of a precision and a linear term. */
  private static double[] normal(double[][] precision, double[] linear, SplittableRandom random) {
    double[] z = new double[P];
    for (int k = 0; k < P; k++) {
      z[k] = random.nextGaussian();
    }
    double[] x = Small.solve(precision, linear);
    double[] off = Small.backward(Small.cholesky(precision), z);
    for (int k = 0; k < P; k++) {
      x[k] += off[k];
    }
    return x;
  }

  private interface Drawn {
    double at(int draw);
  }

  /** Split R-hat of a number. */
  private static double rHat(Drawn number) {
    int half = KEPT / 2;
    int parts = 2 * CHAINS;
    double[] means = new double[parts];
    double within = 0;
    for (int p = 0; p < parts; p++) {
      int from = p * half;
      for (int i = 0; i < half; i++) {
        means[p] += number.at(from + i) / half;
      }
      double squares = 0;
      for (int i = 0; i < half; i++) {
        double d = number.at(from + i) - means[p];
        squares += d * d;
      }
      within += squares / (half - 1) / parts;
    }
    double between = sd(means);
    return Math.sqrt(((half - 1.0) / half * within + between * between) / within);
  }

  private static double sd(double[] values) {
    double mean = Arrays.stream(values).average().orElse(0);
    double squares = Arrays.stream(values).map(v -> (v - mean) * (v - mean)).sum();
    return Math.sqrt(squares / Math.max(1, values.length - 1));
  }

  /** A number of a machine, from its three. */
  public interface Number {
    /** Returns it. */
    double of(ClosureModel model, double[] off);
  }

  /**
   * A number as a distribution.
   *
   * @param median median
   * @param low lower end of the 90 % interval
   * @param high upper end
   * @param logSd standard deviation of its logarithm
   */
  public record Told(double median, double low, double high, double logSd) {}

  /** Returns the machines. */
  public List<ClosureModel> models() {
    return models;
  }

  /** Returns a number of a machine. */
  public Told told(int machine, Number number) {
    double[] draws = draws(machine, number);
    double sd = sd(Arrays.stream(draws).map(Math::log).toArray());
    Arrays.sort(draws);
    int n = draws.length;
    return new Told(draws[n / 2], draws[n / 20], draws[n - 1 - n / 20], sd);
  }

  /** Returns draws of a number of a machine. */
  public double[] draws(int machine, Number number) {
    double[] out = new double[theta.length];
    Arrays.setAll(out, d -> number.of(models.get(machine), theta[d][machine]));
    return out;
  }

  /** Returns the covariance of the logarithms of numbers of a machine. */
  public double[][] logCovariance(int machine, List<Number> numbers) {
    List<double[]> logs = new ArrayList<>();
    for (Number n : numbers) {
      double[] draws = Arrays.stream(draws(machine, n)).map(Math::log).toArray();
      double mean = Arrays.stream(draws).average().orElse(0);
      logs.add(Arrays.stream(draws).map(v -> v - mean).toArray());
    }
    double[][] c = new double[numbers.size()][numbers.size()];
    for (int i = 0; i < c.length; i++) {
      for (int j = 0; j < c.length; j++) {
        for (int d = 0; d < theta.length; d++) {
          c[i][j] += logs.get(i)[d] * logs.get(j)[d] / (theta.length - 1);
        }
      }
    }
    return c;
  }

  /**
   * Returns by how much the record narrowed one of the three numbers: its standard deviation over
   * that before the record; near 1 the record says nothing of it.
   */
  public double narrowed(int machine, int number) {
    double own = sd(draws(machine, (m, off) -> off[number]));
    return own / Math.hypot(FILE_SD[number], WITHIN[number]);
  }

  /** Returns the correlation of two of the three numbers in a machine's record alone. */
  public double correlation(int machine, int a, int b) {
    double[] x = draws(machine, (m, off) -> off[a]);
    double[] y = draws(machine, (m, off) -> off[b]);
    double mx = Arrays.stream(x).average().orElse(0);
    double my = Arrays.stream(y).average().orElse(0);
    double sum = 0;
    for (int d = 0; d < x.length; d++) {
      sum += (x[d] - mx) * (y[d] - my) / (x.length - 1);
    }
    return sum / (sd(x) * sd(y));
  }

  /** Returns the mean squared residual of a machine's record, in its own variances. */
  public double misfit(int machine) {
    return fits.get(machine).misfit;
  }

  /** Returns the number of observations of a machine. */
  public int observations(int machine) {
    return fits.get(machine).observations;
  }

  /** Returns the largest split R-hat of all numbers; below 1.01 the chains agree. */
  public double rHat() {
    return rHat;
  }

  /** Returns the draws of one of the three numbers' mean over the class, for a picture. */
  public double[] classDraws(int number) {
    return Arrays.stream(mu).mapToDouble(m -> m[number]).toArray();
  }
}
