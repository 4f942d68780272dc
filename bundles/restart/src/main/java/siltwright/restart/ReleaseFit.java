package siltwright.restart;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import siltwright.model.SizeBands;
import siltwright.samples.BandCounts;
import siltwright.samples.CountError;

/**
 * The release that counts after a restart tell of.
 *
 * <p>For each G on a grid the five numbers that are not known either (settled counts and their
 * slope, wash-out rate, sizes of the release, calibration) are fitted to the logarithms of the band
 * counts by Gauss and Newton's method with their normal priors, and integrated out by Laplace's:
 *
 * <pre>
 *   ln p(G | y) = ln p(G) - r' C^-1 r/2 - u' D^-1 u/2 - ln det(H D)/2
 *   n_j(t) = e^u5 [b_j e^(u1 + u4 z_j) + (G/V) s_j(u2) exp(-a_j e^u3 t)],  z_j = log2(d_j/10 µm)
 * </pre>
 *
 * <p>C has the counting variance of each band and what a bottle's bands share. s(u2) tilts the
 * release's sizes and keeps its mass. Own derivation; source of the law: design brief, restart
 * samples.
 */
public final class ReleaseFit {
  private static final int U = 5;
  private static final int COARSE = 40;
  private static final int FINER = 5;
  private static final double LEAST_G = 1e-3;
  private static final double MOST_G = 3e3;
  private static final double WORTH = 9;
  private static final int STEPS = 6;

  private final WashOut wash;
  private final Doubt doubt;
  private final CountError error;
  private final double[] z = new double[SizeBands.COUNT];
  private final double[] prior;

  /**
   * Prepares fits for a machine.
   *
   * @param wash how a release shows in its oil
   * @param doubt how well the rest is known
   * @param error how far counts lie off
   */
  public ReleaseFit(WashOut wash, Doubt doubt, CountError error) {
    this.wash = wash;
    this.doubt = doubt;
    this.error = error;
    for (int j = 0; j < z.length; j++) {
      z[j] = Math.log(SizeBands.meanUmC(j) / 10) / Math.log(2);
    }
    prior =
        new double[] {
          square(doubt.base()),
          square(doubt.sizes()),
          square(doubt.rate()),
          square(doubt.baseSlope()),
          square(error.all())
        };
  }

  private static double square(double sd) {
    return Math.max(1e-8, sd * sd);
  }

  /**
   * Returns the release that bottles tell of.
   *
   * @param bottles at least one, from after the restart or from before the change
   */
  public Release of(List<Bottle> bottles) {
    double[] u = new double[U];
    double[] misfit = {Double.POSITIVE_INFINITY, 0};
    List<double[]> points = new ArrayList<>();
    double low = Math.log(LEAST_G);
    double step = (Math.log(MOST_G) - low) / (COARSE - 1);
    double most = Double.NEGATIVE_INFINITY;
    for (int i = 0; i < COARSE; i++) {
      double x = low + i * step;
      double p = logPosterior(x, bottles, u, misfit);
      most = Math.max(most, p);
      points.add(new double[] {x, p});
    }
    List<double[]> all = new ArrayList<>();
    for (int i = 0; i < COARSE; i++) {
      all.add(points.get(i));
      if (i + 1 < COARSE && Math.max(points.get(i)[1], points.get(i + 1)[1]) > most - WORTH - 6) {
        for (int k = 1; k < FINER; k++) {
          double x = points.get(i)[0] + step * k / FINER;
          all.add(new double[] {x, logPosterior(x, bottles, u, misfit)});
        }
      }
    }
    return new Release(
        all.stream().mapToDouble(p -> p[0]).toArray(),
        all.stream().mapToDouble(p -> p[1]).toArray(),
        misfit[1]);
  }

  /** Fits the unknown numbers at one G, beginning where they were left; all arrays are scratch. */
  private double logPosterior(double logG, List<Bottle> bottles, double[] u, double[] misfit) {
    double[][] h = new double[U][U];
    double[] g = new double[U];
    double value = 0;
    int rows = bottles.stream().mapToInt(b -> b.counts().bands()).sum();
    for (int step = 0; step < STEPS; step++) {
      for (int k = 0; k < U; k++) {
        Arrays.fill(h[k], 0);
        h[k][k] = 1 / prior[k];
        g[k] = -u[k] / prior[k];
      }
      double squares = 0;
      double logDet = 0;
      for (Bottle b : bottles) {
        double[] both = addBottle(b, Math.exp(logG), u, h, g);
        squares += both[0];
        logDet += both[1];
      }
      double away = 0;
      for (int k = 0; k < U; k++) {
        away += u[k] * u[k] / prior[k];
      }
      double[][] l = cholesky(h);
      double det = 0;
      for (int k = 0; k < U; k++) {
        det += 2 * Math.log(l[k][k]) + Math.log(prior[k]);
      }
      double off = (logG - Math.log(doubt.medianG())) / doubt.releaseSd();
      value = -0.5 * (squares + logDet + away + det + off * off);
      if (squares + away < misfit[0]) {
        misfit[0] = squares + away;
        misfit[1] = (squares + away) / Math.max(1, rows);
      }
      double[] move = solve(l, g);
      double largest = 0;
      for (int k = 0; k < U; k++) {
        double m = Math.max(-0.7, Math.min(0.7, move[k]));
        u[k] += step == STEPS - 1 ? 0 : m;
        largest = Math.max(largest, Math.abs(m) / Math.sqrt(prior[k]));
      }
      if (largest < 1e-3) {
        break;
      }
    }
    return value;
  }

  /** Slopes, weights and residuals of a bottle's bands; returns the sum of the weights. */
  private double slopes(
      Bottle b,
      double grams,
      double[] u,
      double[][] slope,
      double[] w,
      double[] r,
      double[] logDet) {
    BandCounts counts = b.counts();
    int n = counts.bands();
    double centre = 0;
    double massNow = 0;
    for (int j = 0; j < z.length; j++) {
      double m = wash.particlesPerG().get(j) * SizeBands.particleG(j) * Math.exp(u[1] * z[j]);
      massNow += m;
      centre += m * z[j];
    }
    centre /= massNow;
    double rate = Math.exp(u[2]);
    double all = Math.exp(u[4]);
    double sumW = 0;
    for (int k = 0; k < n; k++) {
      double base = 0;
      double baseZ = 0;
      double pulse = 0;
      double pulseZ = 0;
      double pulseT = 0;
      for (int j = counts.first()[k]; j <= counts.last()[k]; j++) {
        double settled = all * wash.basePerMl().get(j) * Math.exp(u[0] + u[3] * z[j]);
        base += settled;
        baseZ += settled * z[j];
        if (!b.before()) {
          double a = wash.ratePerMin().get(j) * rate * b.minute();
          double p =
              all
                  * grams
                  / wash.volumeMl()
                  * wash.particlesPerG().get(j)
                  * Math.exp(u[1] * z[j] - a)
                  / massNow;
          pulse += p;
          pulseZ += p * (z[j] - centre);
          pulseT -= p * a;
        }
      }
      double expected = base + pulse;
      double shown = expected + 0.5 / counts.volumeMl();
      slope[k][0] = base / shown;
      slope[k][1] = pulseZ / shown;
      slope[k][2] = pulseT / shown;
      slope[k][3] = baseZ / shown;
      slope[k][4] = expected / shown;
      slope[k][U] = pulse / shown;
      r[k] = counts.log(k) - counts.log(expected);
      double variance = counts.variance(k, expected, error);
      w[k] = 1 / variance;
      sumW += w[k];
      logDet[0] += Math.log(variance);
    }
    return sumW;
  }

  /** Adds a bottle's part to Hessian and gradient; returns r'C^-1 r and ln det C. */
  private double[] addBottle(Bottle b, double grams, double[] u, double[][] h, double[] g) {
    int n = b.counts().bands();
    double[][] slope = new double[n][U + 1];
    double[] r = new double[n];
    double[] w = new double[n];
    double[] det = new double[1];
    double sumW = slopes(b, grams, u, slope, w, r, det);
    double logDet = det[0];
    // C = diag + bottle² 11': inverse by Sherman and Morrison.
    double common = error.bottle() * error.bottle();
    double shrink = common / (1 + common * sumW);
    double[] sums = new double[U];
    double sumR = 0;
    double squares = 0;
    for (int k = 0; k < n; k++) {
      sumR += w[k] * r[k];
      squares += w[k] * r[k] * r[k];
      for (int p = 0; p < U; p++) {
        sums[p] += w[k] * slope[k][p];
        g[p] += w[k] * slope[k][p] * r[k];
        for (int q = 0; q <= p; q++) {
          h[p][q] += w[k] * slope[k][p] * slope[k][q];
        }
      }
    }
    for (int p = 0; p < U; p++) {
      g[p] -= shrink * sums[p] * sumR;
      for (int q = 0; q <= p; q++) {
        h[p][q] -= shrink * sums[p] * sums[q];
        h[q][p] = h[p][q];
      }
    }
    return new double[] {squares - shrink * sumR * sumR, logDet + Math.log1p(common * sumW)};
  }

  /**
   * Returns the standard deviation of ln G that bottles would leave, without having drawn them.
   *
   * @param grams what was released, g
   * @param bottles bottles whose times and sizes count, not what is in them
   */
  double expectedSd(double grams, List<Bottle> bottles) {
    int all = U + 1;
    double[][] h = new double[all][all];
    for (int k = 0; k < U; k++) {
      h[k][k] = 1 / prior[k];
    }
    h[U][U] = 1 / (doubt.releaseSd() * doubt.releaseSd());
    for (Bottle b : bottles) {
      addExpected(b, grams, h);
    }
    // The last row of the Cholesky factor is what the others leave of ln G.
    double[][] l = new double[all][all];
    for (int i = 0; i < all; i++) {
      for (int j = 0; j <= i; j++) {
        double sum = h[i][j];
        for (int k = 0; k < j; k++) {
          sum -= l[i][k] * l[j][k];
        }
        l[i][j] = i == j ? Math.sqrt(Math.max(sum, 1e-12)) : sum / l[j][j];
      }
    }
    return 1 / l[U][U];
  }

  private void addExpected(Bottle b, double grams, double[][] h) {
    int n = b.counts().bands();
    double[][] slope = new double[n][U + 1];
    double[] w = new double[n];
    double sumW = slopes(b, grams, new double[U], slope, w, new double[n], new double[1]);
    double common = error.bottle() * error.bottle();
    double shrink = common / (1 + common * sumW);
    double[] sums = new double[U + 1];
    for (int k = 0; k < n; k++) {
      for (int p = 0; p <= U; p++) {
        sums[p] += w[k] * slope[k][p];
        for (int q = 0; q <= U; q++) {
          h[p][q] += w[k] * slope[k][p] * slope[k][q];
        }
      }
    }
    for (int p = 0; p <= U; p++) {
      for (int q = 0; q <= U; q++) {
        h[p][q] -= shrink * sums[p] * sums[q];
      }
    }
  }

  private static double[][] cholesky(double[][] h) {
    double[][] l = new double[U][U];
    for (int i = 0; i < U; i++) {
      for (int j = 0; j <= i; j++) {
        double sum = h[i][j];
        for (int k = 0; k < j; k++) {
          sum -= l[i][k] * l[j][k];
        }
        l[i][j] = i == j ? Math.sqrt(Math.max(sum, 1e-12)) : sum / l[j][j];
      }
    }
    return l;
  }

  private static double[] solve(double[][] l, double[] g) {
    double[] x = g.clone();
    for (int i = 0; i < U; i++) {
      for (int k = 0; k < i; k++) {
        x[i] -= l[i][k] * x[k];
      }
      x[i] /= l[i][i];
    }
    for (int i = U - 1; i >= 0; i--) {
      for (int k = i + 1; k < U; k++) {
        x[i] -= l[k][i] * x[k];
      }
      x[i] /= l[i][i];
    }
    return x;
  }
}
