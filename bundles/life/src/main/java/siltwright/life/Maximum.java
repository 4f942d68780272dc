package siltwright.life;

/**
 * A maximum of the likelihood, found by Newton's method with a safeguard: where the Hessian is not
 * negative definite a ridge makes it so, and a step that loses likelihood is halved.
 *
 * @param theta coefficients, then ln sigma
 * @param logLikelihood at the maximum
 * @param covariance inverse of the observed information in the free parameters
 */
record Maximum(double[] theta, double logLikelihood, double[][] covariance) {
  private static final int STEPS = 200;

  /** Above so many rows a climb over a part of them first finds where to start. */
  private static final int MANY_ROWS = 40_000;

  private static final int PART_ROWS = 4_000;

  /** Beyond these the shape is below 1/3000 or above 1e13: no life, but a likelihood on the run. */
  private static final double TAU_HIGHEST = 8;

  private static final double TAU_LOWEST = -30;

  /**
   * Climbs from a start.
   *
   * @param likelihood what to climb
   * @param start coefficients and ln sigma
   * @param freeSigma whether ln sigma may move
   * @return the maximum, or null if the climb ran off or the summit is flat
   */
  static Maximum climb(LogTimeLikelihood likelihood, double[] start, boolean freeSigma) {
    int rows = likelihood.rows();
    if (rows > MANY_ROWS) {
      Maximum part = climb(likelihood.every(rows / PART_ROWS), start, freeSigma);
      if (part != null) {
        Maximum whole = climbAll(likelihood, part.theta, freeSigma);
        if (whole != null) {
          return whole;
        }
      }
    }
    return climbAll(likelihood, start, freeSigma);
  }

  private static Maximum climbAll(LogTimeLikelihood likelihood, double[] start, boolean freeSigma) {
    int p = likelihood.columns;
    int size = p + 1;
    int free = freeSigma ? size : p;
    double[] theta = start.clone();
    double[] g = new double[size];
    double[] h = new double[size * size];
    double l = likelihood.at(theta, g, h);
    for (int raise = 0; !finite(l, g, h, free) && raise < 60; raise++) {
      theta[0] += 1 + Math.exp(theta[p]); // a start that underflows lies too early
      l = likelihood.at(theta, g, h);
    }
    double[] trial = new double[size];
    double[] gTrial = new double[size];
    double[] hTrial = new double[size * size];
    boolean last = false;
    for (int i = 0; i < STEPS && finite(l, g, h, free); i++) {
      Cholesky c = Cholesky.of(h, size, free, -1, 0);
      boolean summitShape = c != null;
      for (double ridge = 1e-3; c == null && ridge < 1e12; ridge *= 10) {
        c = Cholesky.of(h, size, free, -1, ridge);
        if (c == null && ridge >= 1) {
          c = Cholesky.of(shifted(h, size, free, ridge), size, free, 1, 0);
        }
      }
      if (c == null) {
        return null;
      }
      if (last && summitShape) {
        return new Maximum(theta, l, c.inverse());
      }
      double[] step = c.solve(g);
      double gain = 0;
      for (int j = 0; j < free; j++) {
        gain += step[j] * g[j];
      }
      last = summitShape && gain < 1e-10;
      double factor = freeSigma ? Math.min(1, 1 / Math.abs(step[p])) : 1;
      double lTrial;
      do {
        System.arraycopy(theta, 0, trial, 0, size);
        for (int j = 0; j < free; j++) {
          trial[j] += factor * step[j];
        }
        lTrial = likelihood.at(trial, gTrial, hTrial);
        factor *= 0.5;
      } while (!(lTrial >= l - 1e-12 * Math.abs(l)) && factor > 1e-12);
      if (factor <= 1e-12) {
        return summitShape && gain < 1e-6 ? new Maximum(theta, l, c.inverse()) : null;
      }
      double[] swap = theta;
      theta = trial;
      trial = swap;
      swap = g;
      g = gTrial;
      gTrial = swap;
      swap = h;
      h = hTrial;
      hTrial = swap;
      l = lTrial;
      if (theta[p] > TAU_HIGHEST || theta[p] < TAU_LOWEST) {
        return null;
      }
    }
    return null;
  }

  private static boolean finite(double l, double[] g, double[] h, int free) {
    boolean finite = Double.isFinite(l);
    int size = g.length;
    for (int j = 0; j < free; j++) {
      finite &= Double.isFinite(g[j]) && Double.isFinite(h[j * size + j]);
    }
    return finite;
  }

  /** Returns -h with its diagonal raised until rows dominate, for strongly indefinite places. */
  private static double[] shifted(double[] h, int size, int free, double ridge) {
    double[] a = new double[size * size];
    for (int i = 0; i < free; i++) {
      double sum = 0;
      for (int j = 0; j < free; j++) {
        a[i * size + j] = -h[i * size + j];
        sum += Math.abs(h[i * size + j]);
      }
      a[i * size + i] += ridge * sum;
    }
    return a;
  }
}
