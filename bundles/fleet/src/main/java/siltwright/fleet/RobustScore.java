package siltwright.fleet;

import java.util.function.Function;
import siltwright.life.Interval;

/**
 * Score test of one coefficient, the others fitted, with the machine as the unit; and the interval
 * of all values that it does not reject.
 *
 * <pre>
 *   z(v) = U/sqrt(n/(n - p) sum of u_i²)   at the maximum over the others with the coefficient at v
 *   u_i = s_i - I_1o I_oo⁻¹ o_i,  U = sum of u_i
 * </pre>
 *
 * <p>s_i and o_i are the machine's parts of the slopes by the coefficient and by the others; n the
 * machines that tell anything, p the coefficients, as each one fitted makes the parts smaller. The
 * variance is that under the value tested, so the test holds its level with far fewer machines than
 * Wald's, whose estimate and error go together. Source: D. D. Boos, The American Statistician 46
 * (1992) 327-333 (from memory).
 */
final class RobustScore {
  private static final int MOST_STEPS = 40;
  private static final int HALVINGS = 40;

  /** What the likelihood gives at coefficients. */
  record Slopes(
      double logLikelihood, double[] score, double[][] information, double[][] byMachine) {}

  private final Function<double[], Slopes> likelihood;
  private final double[] best;
  private final int at;

  /**
   * Prepares the test of a coefficient.
   *
   * @param likelihood slopes at coefficients
   * @param best coefficients of greatest likelihood
   * @param at index of the coefficient
   */
  RobustScore(Function<double[], Slopes> likelihood, double[] best, int at) {
    this.likelihood = likelihood;
    this.best = best;
    this.at = at;
  }

  /** Returns the two-sided p-value of the coefficient being a value. */
  double pValue(double value) {
    return Tails.twoSided(z(value));
  }

  /**
   * Returns the values that are not rejected.
   *
   * @param error the error of the estimate, from which the ends are looked for
   */
  Interval interval(double error, double confidence) {
    double z = Tails.normalQuantile(confidence);
    return new Interval(end(-error, z), end(error, z));
  }

  private double end(double step, double z) {
    double near = best[at];
    double far = near + step;
    int tries = 0;
    while (Math.abs(z(far)) < z) {
      near = far;
      step *= 1.5;
      far += step;
      if (++tries > 15) {
        return step < 0 ? Double.NEGATIVE_INFINITY : Double.POSITIVE_INFINITY;
      }
    }
    for (int i = 0; i < HALVINGS && Math.abs(far - near) > 1e-7 * Math.abs(step); i++) {
      double middle = 0.5 * (near + far);
      if (Math.abs(z(middle)) < z) {
        near = middle;
      } else {
        far = middle;
      }
    }
    return 0.5 * (near + far);
  }

  /** Returns the signed statistic; not a number where the others cannot be fitted. */
  private double z(double value) {
    double[] b = best.clone();
    b[at] = value;
    int p = b.length;
    int[] others = new int[p - 1];
    for (int j = 0; j < p - 1; j++) {
      others[j] = j < at ? j : j + 1;
    }
    Slopes s = likelihood.apply(b);
    for (int step = 0; step < MOST_STEPS && others.length > 0; step++) {
      double[] slope = pick(s.score(), others);
      double[] move = RateModel.solve(pick(s.information(), others), slope);
      if (move == null) {
        return Double.NaN;
      }
      double gain = 0;
      for (int j = 0; j < move.length; j++) {
        gain += move[j] * slope[j];
      }
      if (gain < 1e-14 * Math.max(1, Math.abs(s.logLikelihood()))) {
        break;
      }
      double share = 1;
      double[] next;
      Slopes there;
      do {
        next = b.clone();
        for (int j = 0; j < move.length; j++) {
          next[others[j]] += share * move[j];
        }
        there = likelihood.apply(next);
        share /= 2;
      } while (!(there.logLikelihood() >= s.logLikelihood() - 1e-10) && share > 1e-6);
      b = next;
      s = there;
    }
    double[] onto = new double[others.length];
    if (others.length > 0) {
      double[] cross = new double[others.length];
      for (int j = 0; j < cross.length; j++) {
        cross[j] = s.information()[at][others[j]];
      }
      onto = RateModel.solve(pick(s.information(), others), cross);
      if (onto == null) {
        return Double.NaN;
      }
    }
    double sum = 0;
    double squares = 0;
    int n = 0;
    for (double[] row : s.byMachine()) {
      double u = row[at];
      for (int j = 0; j < others.length; j++) {
        u -= onto[j] * row[others[j]];
      }
      sum += u;
      squares += u * u;
      n += u == 0 ? 0 : 1;
    }
    return sum / Math.sqrt(squares * n / Math.max(1, n - p));
  }

  private static double[] pick(double[] from, int[] at) {
    double[] to = new double[at.length];
    for (int j = 0; j < to.length; j++) {
      to[j] = from[at[j]];
    }
    return to;
  }

  private static double[][] pick(double[][] from, int[] at) {
    double[][] to = new double[at.length][];
    for (int j = 0; j < to.length; j++) {
      to[j] = pick(from[at[j]], at);
    }
    return to;
  }
}
