package siltwright.life;

import java.util.ArrayList;
import java.util.List;
import org.apache.commons.math3.analysis.solvers.BracketingNthOrderBrentSolver;

/**
 * The profile likelihood of one quantity of a two-parameter law: the greatest likelihood at each of
 * its values, and where that has dropped by a given amount.
 */
final class Profile {
  private static final double TAU_LOWEST = -40;
  private static final double TAU_HIGHEST = 12;

  /** Each step reaches 1.6 times as far as the last, so that few reach anywhere. */
  private static final int STEPS = 200;

  private final LogTimeLikelihood likelihood;
  private final Coordinate coordinate;
  private final boolean fixedSigma;
  private final double best;
  private final double[] theta;
  private final double[] g = new double[2];
  private final double[] h = new double[4];
  private final double centre;
  private final double unit;

  /** What was solved so far: coordinate, nuisance, log likelihood. */
  private final List<double[]> solved = new ArrayList<>();

  private double slope;
  private double curvature;

  /**
   * @param maximum mu and ln sigma at the greatest likelihood
   * @param best the greatest likelihood
   * @param unit standard error of the coordinate
   * @param fixedSigma whether sigma is held, which leaves nothing to maximise over
   */
  Profile(
      LogTimeLikelihood likelihood,
      Coordinate coordinate,
      double[] maximum,
      double best,
      double unit,
      boolean fixedSigma) {
    this.likelihood = likelihood;
    this.coordinate = coordinate;
    this.fixedSigma = fixedSigma;
    this.best = best;
    this.theta = maximum.clone();
    this.unit = Math.max(unit, 1e-9);
    this.centre = coordinate.at(maximum[0], maximum[1]);
    solved.add(new double[] {centre, coordinate.isTau() ? maximum[0] : maximum[1], best});
  }

  /**
   * Returns the greatest log likelihood with the coordinate held, on the branch that starts at the
   * maximum: far values are approached in steps, each from the nearest solved before.
   */
  double at(double c) {
    if (fixedSigma) {
      theta[0] = coordinate.curve(c, theta[1])[0];
      return likelihood.at(theta, g, h);
    }
    double[] near = nearest(c);
    for (int i = 0; i < STEPS && c != near[0]; i++) {
      double reach = unit + 0.6 * Math.abs(near[0] - centre);
      double to = c;
      double l;
      do {
        double way = Math.max(-reach, Math.min(reach, c - near[0]));
        to = Math.abs(c - near[0]) <= reach ? c : near[0] + way;
        l = evaluate(to, near[1]);
        reach *= 0.25; // too far: from there the likelihood underflows
      } while (!Double.isFinite(l) && reach > 1e-9 * unit);
      near = new double[] {to, near[1], l};
      if (!Double.isFinite(l)) {
        return l;
      }
      maximise(near);
      solved.add(near);
    }
    return c == near[0] ? near[2] : Double.NEGATIVE_INFINITY;
  }

  private double[] nearest(double c) {
    double[] near = solved.get(0);
    for (double[] s : solved) {
      near = Math.abs(s[0] - c) < Math.abs(near[0] - c) ? s : near;
    }
    return near;
  }

  /** Climbs from a point's nuisance to the best one at its coordinate. */
  private void maximise(double[] point) {
    double low = coordinate.isTau() ? Double.NEGATIVE_INFINITY : TAU_LOWEST;
    double high = coordinate.isTau() ? Double.POSITIVE_INFINITY : TAU_HIGHEST;
    double longest = coordinate.isTau() ? 2 * Math.exp(point[0]) : 1;
    double l = evaluate(point[0], point[1]);
    for (int i = 0; i < 200; i++) {
      double s = slope;
      double step = curvature < 0 ? -s / curvature : Math.signum(s) * 0.5 * longest;
      step = Math.max(-longest, Math.min(longest, step));
      double gain = Math.abs(step * s);
      double to;
      double lTo;
      do {
        to = Math.max(low, Math.min(high, point[1] + step));
        lTo = evaluate(point[0], to);
        step *= 0.5;
      } while (!(lTo >= l - 1e-13 * Math.abs(l)) && Math.abs(step) > 1e-15 * longest);
      if (to == point[1] || !(lTo >= l - 1e-13 * Math.abs(l))) {
        break;
      }
      point[1] = to;
      l = lTo;
      if (gain < 1e-16 * Math.max(1, Math.abs(l))) {
        break;
      }
    }
    point[2] = l;
  }

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
   * @param firstStep where to look first, with the sign of the side
   * @param drop in log likelihood
   * @return the coordinate, or an infinity with the sign of the side if the profile stays above
   */
  double endpoint(double firstStep, double drop) {
    double target = Math.sqrt(2 * drop);
    double inside = centre;
    double atInside = -target;
    double step = firstStep;
    for (int i = 0; i < 60 && Math.abs(step) < 300 * Math.max(1, unit); i++) {
      double outside = inside + step;
      if (coordinate.isTau() && (outside > TAU_HIGHEST || outside < TAU_LOWEST)) {
        break; // a shape that is no life's: the profile has levelled off
      }
      double atOutside = root(outside) - target;
      if (atOutside > 0) {
        return between(inside, atInside, outside, atOutside, target);
      }
      inside = outside;
      atInside = atOutside;
      step *= 1.5;
    }
    return firstStep < 0 ? Double.NEGATIVE_INFINITY : Double.POSITIVE_INFINITY;
  }

  private double between(double a, double atA, double b, double atB, double target) {
    double accuracy = 1e-13 * Math.max(1e-3, Math.abs(centre));
    return new BracketingNthOrderBrentSolver(1e-13, accuracy, 5)
        .solve(
            200,
            c -> c == a ? atA : c == b ? atB : root(c) - target,
            Math.min(a, b),
            Math.max(a, b));
  }

  /** Returns the root of twice the drop: nearly linear in the coordinate. */
  private double root(double c) {
    double l = at(c);
    return Double.isFinite(l) ? Math.sqrt(Math.max(0, 2 * (best - l))) : 1e6;
  }
}
