package siltwright.life;

import org.apache.commons.math3.analysis.solvers.BracketingNthOrderBrentSolver;

/**
 * The profile likelihood of one quantity of a two-parameter law: the greatest likelihood at each of
 * its values, and where that has dropped by a given amount.
 */
final class Profile {
  private static final double TAU_LOWEST = -40;
  private static final double TAU_HIGHEST = 12;

  private final LogTimeLikelihood likelihood;
  private final Coordinate coordinate;
  private final boolean fixedSigma;
  private final double best;
  private final double[] theta;
  private final double[] g = new double[2];
  private final double[] h = new double[4];
  private double nuisance;

  /**
   * @param maximum mu and ln sigma at the greatest likelihood
   * @param best the greatest likelihood
   * @param fixedSigma whether sigma is held, which leaves nothing to maximise over
   */
  Profile(
      LogTimeLikelihood likelihood,
      Coordinate coordinate,
      double[] maximum,
      double best,
      boolean fixedSigma) {
    this.likelihood = likelihood;
    this.coordinate = coordinate;
    this.fixedSigma = fixedSigma;
    this.best = best;
    this.theta = maximum.clone();
    this.nuisance = coordinate.isTau() ? maximum[0] : maximum[1];
  }

  /** Returns the greatest log likelihood with the coordinate held. */
  double at(double c) {
    if (fixedSigma) {
      theta[0] = coordinate.curve(c, theta[1])[0];
      return likelihood.at(theta, g, h);
    }
    double v = nuisance;
    double l = evaluate(c, v);
    double low = coordinate.isTau() ? Double.NEGATIVE_INFINITY : TAU_LOWEST;
    double high = coordinate.isTau() ? Double.POSITIVE_INFINITY : TAU_HIGHEST;
    for (int i = 0; i < 200; i++) {
      double slope = this.slope;
      double curvature = this.curvature;
      if (!Double.isFinite(slope) || !Double.isFinite(curvature)) {
        slope = 1; // underflow lies on the early side
        curvature = 0;
      }
      double step = curvature < 0 ? -slope / curvature : Math.signum(slope) * 0.5;
      double longest = coordinate.isTau() ? 2 * Math.exp(c) : 1;
      step = Math.max(-longest, Math.min(longest, step));
      double gain = Math.abs(step * slope);
      double to;
      double lTo;
      do {
        to = Math.max(low, Math.min(high, v + step));
        lTo = evaluate(c, to);
        step *= 0.5;
      } while (Double.isFinite(l)
          && !(lTo >= l - 1e-13 * Math.abs(l))
          && Math.abs(step) > 1e-14 * Math.max(1, Math.abs(v)));
      boolean stays = to == v || Double.isFinite(l) && !(lTo >= l - 1e-13 * Math.abs(l));
      if (stays) {
        break;
      }
      v = to;
      l = lTo;
      if (gain < 1e-16 * Math.max(1, Math.abs(l))) {
        break;
      }
    }
    nuisance = v;
    return l;
  }

  private double slope;
  private double curvature;

  private double evaluate(double c, double v) {
    if (coordinate.isTau()) {
      theta[0] = v;
      theta[1] = c;
      double l = likelihood.at(theta, g, h);
      slope = g[0];
      curvature = h[0];
      return l;
    }
    double[] mu = coordinate.curve(c, v);
    theta[0] = mu[0];
    theta[1] = v;
    double l = likelihood.at(theta, g, h);
    slope = g[1] + g[0] * mu[1];
    curvature = h[3] + 2 * h[1] * mu[1] + h[0] * mu[1] * mu[1] + g[0] * mu[2];
    return l;
  }

  /**
   * Returns where the profile has dropped by an amount on one side of the maximum.
   *
   * @param centre the coordinate at the maximum
   * @param firstStep where to look first, with the sign of the side
   * @param drop in log likelihood
   * @return the coordinate, or an infinity with the sign of the side if the profile stays above
   */
  double endpoint(double centre, double firstStep, double drop) {
    double target = Math.sqrt(2 * drop);
    double inside = centre;
    double step = firstStep;
    double startNuisance = nuisance;
    double outside = Double.NaN;
    for (int i = 0; i < 60; i++) {
      double c = inside + step;
      if (Math.abs(c - centre) > 200 + Math.abs(firstStep)) {
        break;
      }
      if (root(c) > target) {
        outside = c;
        break;
      }
      inside = c;
      step *= 1.5;
    }
    if (Double.isNaN(outside)) {
      nuisance = startNuisance;
      return firstStep < 0 ? Double.NEGATIVE_INFINITY : Double.POSITIVE_INFINITY;
    }
    double scale = Math.max(1e-3, Math.abs(centre));
    double end =
        new BracketingNthOrderBrentSolver(1e-13, 1e-13 * scale, 5)
            .solve(
                200,
                c -> c == centre ? -target : root(c) - target,
                Math.min(inside, outside),
                Math.max(inside, outside));
    nuisance = startNuisance;
    return end;
  }

  /** Returns the signed root of twice the drop: nearly linear in the coordinate. */
  private double root(double c) {
    double l = at(c);
    return Double.isFinite(l) ? Math.sqrt(Math.max(0, 2 * (best - l))) : 1e6;
  }
}
