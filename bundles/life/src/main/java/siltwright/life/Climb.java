package siltwright.life;

/**
 * A climb to a maximum of a likelihood, by Newton's method with a safeguard: where the Hessian is
 * not negative definite a ridge makes it so, and a step that loses likelihood is halved.
 *
 * <p>It asks for the likelihood at one place after another and is told; whoever tells may sum it
 * over many rows in any way.
 */
final class Climb {
  private static final int STEPS = 200;
  private static final int RAISES = 60;
  private static final double SMALLEST_SHARE = 1e-12;

  /** Beyond these the shape is below 1/3000 or above 1e13: no life, but a likelihood on the run. */
  private static final double TAU_HIGHEST = 8;

  private static final double TAU_LOWEST = -30;

  private final int free;
  private final int size;
  private double[] theta;
  private double[] g;
  private double[] h;
  private double l;
  private double[] trial;
  private double[] step;
  private double factor;
  private double gain;
  private Cholesky c;
  private boolean summitShape;
  private boolean last;
  private boolean begun;
  private int raises;
  private int steps;
  private boolean over;
  private Maximum maximum;

  /**
   * Begins a climb.
   *
   * @param start coefficients and ln sigma
   * @param freeSigma whether ln sigma may move
   */
  Climb(double[] start, boolean freeSigma) {
    size = start.length;
    free = freeSigma ? size : size - 1;
    theta = start.clone();
    trial = theta;
  }

  /** Returns where the likelihood is wanted next; null if the climb is over. */
  double[] wanted() {
    return over ? null : trial;
  }

  /** Returns the maximum; null if the climb ran off, or the summit is flat. */
  Maximum maximum() {
    return maximum;
  }

  /**
   * Tells the likelihood where it was wanted.
   *
   * @param logLikelihood there
   * @param gradient first derivatives; copied
   * @param hessian second derivatives, row-major; copied
   */
  void tell(double logLikelihood, double[] gradient, double[] hessian) {
    if (begun) {
      tried(logLikelihood, gradient, hessian);
      return;
    }
    accept(logLikelihood, gradient, hessian);
    if (!finite() && raises++ < RAISES) {
      theta[0] += 1 + Math.exp(theta[size - 1]); // a start that underflows lies too early
      return;
    }
    begun = true;
    turn();
  }

  private void accept(double logLikelihood, double[] gradient, double[] hessian) {
    theta = trial;
    l = logLikelihood;
    g = gradient.clone();
    h = hessian.clone();
  }

  private void tried(double logLikelihood, double[] gradient, double[] hessian) {
    boolean better = logLikelihood >= l - 1e-12 * Math.abs(l);
    factor *= 0.5;
    if (factor <= SMALLEST_SHARE) {
      end(summitShape && gain < 1e-6 ? new Maximum(theta, l, c.inverse()) : null);
    } else if (better) {
      accept(logLikelihood, gradient, hessian);
      double tau = theta[size - 1];
      if (tau > TAU_HIGHEST || tau < TAU_LOWEST) {
        end(null);
      } else {
        turn();
      }
    } else {
      go();
    }
  }

  private void end(Maximum with) {
    over = true;
    maximum = with;
  }

  /** Finds the step from here. */
  private void turn() {
    if (steps++ == STEPS || !finite()) {
      end(null);
      return;
    }
    c = Cholesky.of(h, size, free, -1, 0);
    summitShape = c != null;
    for (double ridge = 1e-3; c == null && ridge < 1e12; ridge *= 10) {
      c = Cholesky.of(h, size, free, -1, ridge);
      if (c == null && ridge >= 1) {
        c = Cholesky.of(shifted(ridge), size, free, 1, 0);
      }
    }
    if (c == null) {
      end(null);
      return;
    }
    if (last && summitShape) {
      end(new Maximum(theta, l, c.inverse()));
      return;
    }
    step = c.solve(g);
    gain = 0;
    for (int j = 0; j < free; j++) {
      gain += step[j] * g[j];
    }
    last = summitShape && gain < 1e-10;
    factor = free == size ? Math.min(1, 1 / Math.abs(step[size - 1])) : 1;
    go();
  }

  private void go() {
    trial = theta.clone();
    for (int j = 0; j < free; j++) {
      trial[j] += factor * step[j];
    }
  }

  private boolean finite() {
    boolean finite = Double.isFinite(l);
    for (int j = 0; j < free; j++) {
      finite &= Double.isFinite(g[j]) && Double.isFinite(h[j * size + j]);
    }
    return finite;
  }

  /** Returns -h with its diagonal raised until rows dominate, for strongly indefinite places. */
  private double[] shifted(double ridge) {
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
