package siltwright.life;

/**
 * The profile likelihood of one number of a regression: the greatest likelihood that the others
 * leave it.
 *
 * <p>The parameters are taken to coordinates of which the number is one:
 *
 * <pre>  q = b0 + sum d_j b_j + z e^tau,  b_1, ..., b_p, tau  </pre>
 *
 * <p>q is the location of ln T at the covariates that d stands for, or a quantile there. The others
 * are climbed by Newton's method, from where the likelihood's curvature says that they move.
 */
final class AftProfile {
  private static final int STEPS = 60;
  private static final int WIDENINGS = 40;
  private static final double CLOSE = 1e-9;

  private final LogTimeLikelihood likelihood;
  private final int columns;
  private final double[] shift;
  private final double quantile;
  private final int held;
  private final int free;
  private final double[] best;
  private final double greatest;
  private final double error;
  private final double[] direction;

  /**
   * Prepares a profile.
   *
   * @param maximum of the likelihood, with sigma held where its covariance has no row for it
   * @param shift d of each column, of which the first is not read
   * @param quantile z
   * @param held coordinate to profile: 0 q, j the j-th coefficient, the last ln sigma
   */
  AftProfile(
      LogTimeLikelihood likelihood, Maximum maximum, double[] shift, double quantile, int held) {
    this.likelihood = likelihood;
    this.columns = likelihood.columns;
    this.shift = shift;
    this.quantile = quantile;
    this.held = held;
    this.free = maximum.covariance().length;
    this.greatest = maximum.logLikelihood();
    best = maximum.theta().clone();
    double[] toQ = new double[free]; // dq by the parameters
    toQ[0] = 1;
    for (int j = 1; j < columns; j++) {
      toQ[j] = shift[j];
      best[0] += shift[j] * best[j];
    }
    double spread = quantile * Math.exp(best[columns]);
    best[0] += spread;
    if (free > columns) {
      toQ[columns] = spread;
    }
    double[] column = new double[free]; // covariance of every coordinate with the held one
    for (int i = 0; i < free; i++) {
      for (int j = 0; j < free; j++) {
        double ofHeld = held == 0 ? toQ[j] : j == held ? 1 : 0;
        column[i] += maximum.covariance()[i][j] * ofHeld;
      }
    }
    double first = 0;
    for (int i = 0; i < free; i++) {
      first += toQ[i] * column[i];
    }
    column[0] = first;
    error = Math.sqrt(column[held]);
    direction = column;
    for (int i = 0; i < free; i++) {
      direction[i] /= error * error;
    }
    direction[held] = 1;
  }

  /** Returns the profile interval of the coordinate; an end is infinite where there is none. */
  Interval interval(double confidence) {
    double reach = LifeFit.normalQuantile(confidence);
    return new Interval(end(-1, reach), end(1, reach));
  }

  /** Returns the profile log likelihood, less its maximum, at values of the coordinate. */
  double[] belowMaximum(double[] values) {
    double[] below = new double[values.length];
    for (int i = 0; i < values.length; i++) {
      double loss = loss(values[i] - best[held]);
      below[i] = Double.isInfinite(loss) ? Double.NaN : -0.5 * loss * loss;
    }
    return below;
  }

  /** Returns where the root of twice the loss reaches a level, by regula falsi (Illinois). */
  private double end(int side, double reach) {
    double inner = 0;
    double innerLoss = -reach;
    double outer = reach * error;
    double outerLoss = loss(side * outer) - reach;
    for (int i = 0; outerLoss < 0; i++) {
      if (i == WIDENINGS) {
        return side * Double.POSITIVE_INFINITY;
      }
      inner = outer;
      innerLoss = outerLoss;
      outer *= 1.6;
      outerLoss = loss(side * outer) - reach;
    }
    int lastSide = 0;
    for (int i = 0; i < STEPS && outer - inner > CLOSE * error; i++) {
      double at =
          Double.isInfinite(outerLoss)
              ? 0.5 * (inner + outer)
              : (inner * outerLoss - outer * innerLoss) / (outerLoss - innerLoss);
      double loss = loss(side * at) - reach;
      if (Math.abs(loss) < 1e-9) {
        return best[held] + side * at;
      }
      if (loss > 0) {
        outer = at;
        outerLoss = loss;
        innerLoss *= lastSide == 1 ? 0.5 : 1;
        lastSide = 1;
      } else {
        inner = at;
        innerLoss = loss;
        outerLoss *= lastSide == -1 ? 0.5 : 1;
        lastSide = -1;
      }
    }
    return best[held] + side * 0.5 * (inner + outer);
  }

  /** Returns the root of twice the likelihood lost at a distance; infinite where none is found. */
  private double loss(double distance) {
    double[] at = best.clone();
    for (int i = 0; i < free; i++) {
      at[i] += distance * direction[i];
    }
    double l = climb(at);
    return Double.isNaN(l) ? Double.POSITIVE_INFINITY : Math.sqrt(Math.max(0, 2 * (greatest - l)));
  }

  /** Climbs in all free coordinates but the held one; returns NaN where it gets nowhere. */
  private double climb(double[] start) {
    int size = columns + 1;
    int n = free - 1;
    double[] at = start;
    double[] g = new double[size];
    double[] h = new double[size * size];
    double l = value(at, g, h);
    double[] trial = new double[size];
    double[] gTrial = new double[size];
    double[] hTrial = new double[size * size];
    for (int i = 0; i < STEPS && Double.isFinite(l); i++) {
      double[] slope = new double[n];
      double[] curve = new double[n * n];
      for (int a = 0; a < n; a++) {
        slope[a] = g[other(a)];
        for (int b = 0; b < n; b++) {
          curve[a * n + b] = h[other(a) * size + other(b)];
        }
      }
      Cholesky c = Cholesky.of(curve, n, n, -1, 0);
      for (double ridge = 1e-3; c == null && ridge < 1e6; ridge *= 10) {
        c = Cholesky.of(curve, n, n, -1, ridge);
      }
      if (c == null) {
        return Double.NaN;
      }
      double[] step = c.solve(slope);
      double gain = 0;
      for (int a = 0; a < n; a++) {
        gain += step[a] * slope[a];
      }
      if (gain < 1e-12) {
        return l;
      }
      double factor = 1;
      double lTrial;
      do {
        System.arraycopy(at, 0, trial, 0, size);
        for (int a = 0; a < n; a++) {
          trial[other(a)] += factor * step[a];
        }
        lTrial = value(trial, gTrial, hTrial);
        factor *= 0.5;
      } while (!(lTrial >= l - 1e-12 * Math.abs(l)) && factor > 1e-9);
      if (factor <= 1e-9) {
        return gain < 1e-6 ? l : Double.NaN;
      }
      at = trial.clone();
      g = gTrial.clone();
      h = hTrial.clone();
      l = lTrial;
    }
    return Double.NaN;
  }

  private int other(int a) {
    return a < held ? a : a + 1;
  }

  /** Evaluates at coordinates, with the derivatives by them. */
  private double value(double[] at, double[] g, double[] h) {
    int size = columns + 1;
    double[] theta = at.clone();
    double[] toFirst = new double[size]; // db0 by the coordinates
    toFirst[0] = 1;
    for (int j = 1; j < columns; j++) {
      theta[0] -= shift[j] * at[j];
      toFirst[j] = -shift[j];
    }
    double spread = quantile * Math.exp(at[columns]);
    theta[0] -= spread;
    toFirst[columns] = -spread;
    double l = likelihood.at(theta, g, h);
    double first = g[0];
    double[] h0 = new double[size];
    System.arraycopy(h, 0, h0, 0, size);
    for (int a = size - 1; a >= 0; a--) {
      g[a] = (a == 0 ? 0 : g[a]) + toFirst[a] * first;
      for (int b = 0; b < size; b++) {
        h[a * size + b] =
            (a == 0 || b == 0 ? 0 : h[a * size + b])
                + toFirst[a] * (b == 0 ? 0 : h0[b])
                + toFirst[b] * (a == 0 ? 0 : h0[a])
                + toFirst[a] * toFirst[b] * h0[0];
      }
    }
    h[columns * size + columns] -= spread * first;
    return l;
  }
}
