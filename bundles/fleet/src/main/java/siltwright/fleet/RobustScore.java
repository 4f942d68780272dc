package siltwright.fleet;

import java.util.Arrays;
import java.util.SplittableRandom;
import java.util.function.DoublePredicate;
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
 *
 * <p>Where the others take much out of the parts, as slopes on either side of a step do, the normal
 * law is too cautious. Then the test by signs: if the value is right, each u_i might as well have
 * the other sign, so p is the share of signs, drawn anew, that make |U| as great. Source: J.
 * Hemerik, J. J. Goeman, L. Finos, JRSS B 82 (2020) 841-864 (from memory).
 */
final class RobustScore {
  private static final int MOST_STEPS = 40;
  private static final int HALVINGS = 40;
  private static final int MOST_WIDENINGS = 15;

  /** Up to so many machines all signs are gone through; above, so many are drawn. */
  private static final int ALL_SIGNS = 11;

  private static final int DRAWS = 1999;
  private static final long SEED = 20261128;

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
    return Tails.twoSided(z(parts(value)));
  }

  /**
   * Returns the values that are not rejected.
   *
   * @param error the error of the estimate, from which the ends are looked for
   */
  Interval interval(double error, double confidence) {
    double z = Tails.normalQuantile(confidence);
    return turned(error, v -> !(Math.abs(z(parts(v))) < z));
  }

  /** Returns the two-sided p-value by signs of the coefficient being a value. */
  double pValueBySigns(double value) {
    return bySigns(parts(value));
  }

  /**
   * Returns the values that the test by signs does not reject.
   *
   * @param error the error of the estimate, from which the ends are looked for
   */
  Interval intervalBySigns(double error, double confidence) {
    return turned(error, v -> !(bySigns(parts(v)) > 1 - confidence));
  }

  /** Returns the number of machines that tell anything of the coefficient. */
  int machines() {
    return telling(parts(best[at])).length;
  }

  private Interval turned(double error, DoublePredicate rejected) {
    return new Interval(end(-error, rejected), end(error, rejected));
  }

  private double end(double step, DoublePredicate rejected) {
    double near = best[at];
    double far = near + step;
    int tries = 0;
    while (!rejected.test(far)) {
      near = far;
      step *= 1.5;
      far += step;
      if (++tries > MOST_WIDENINGS) {
        return step < 0 ? Double.NEGATIVE_INFINITY : Double.POSITIVE_INFINITY;
      }
    }
    for (int i = 0; i < HALVINGS && Math.abs(far - near) > 1e-7 * Math.abs(step); i++) {
      double middle = 0.5 * (near + far);
      if (rejected.test(middle)) {
        far = middle;
      } else {
        near = middle;
      }
    }
    return 0.5 * (near + far);
  }

  private double z(double[] parts) {
    double sum = 0;
    double squares = 0;
    int n = telling(parts).length;
    for (double u : parts) {
      sum += u;
      squares += u * u;
    }
    return sum / Math.sqrt(squares * n / Math.max(1, n - best.length));
  }

  private static double[] telling(double[] parts) {
    return Arrays.stream(parts).filter(u -> u != 0).toArray();
  }

  private static double bySigns(double[] parts) {
    double[] u = telling(parts);
    // A sum is as great as the one seen even if it was added up in another order.
    double seen = Math.abs(Arrays.stream(u).sum()) * (1 - 1e-12);
    if (Double.isNaN(seen) || u.length == 0) {
      return Double.NaN;
    }
    if (u.length <= ALL_SIGNS) {
      int all = 1 << (u.length - 1);
      int great = 0;
      for (int signs = 0; signs < all; signs++) {
        great += Math.abs(sum(u, signs)) >= seen ? 1 : 0;
      }
      return (double) great / all;
    }
    SplittableRandom random = new SplittableRandom(SEED);
    int great = 1;
    for (int draw = 0; draw < DRAWS; draw++) {
      double sum = 0;
      for (int first = 0; first < u.length; first += Long.SIZE) {
        long signs = random.nextLong();
        for (int i = first; i < Math.min(u.length, first + Long.SIZE); i++) {
          sum += (signs >>> i & 1) == 0 ? u[i] : -u[i];
        }
      }
      great += Math.abs(sum) >= seen ? 1 : 0;
    }
    return great / (DRAWS + 1.0);
  }

  private static double sum(double[] u, long signs) {
    double sum = 0;
    for (int i = 0; i < u.length; i++) {
      sum += (signs >>> i & 1) == 0 ? u[i] : -u[i];
    }
    return sum;
  }

  /** Returns the parts of the machines, u_i; not numbers where the others cannot be fitted. */
  private double[] parts(double value) {
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
        return new double[] {Double.NaN};
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
        return new double[] {Double.NaN};
      }
    }
    double[] parts = new double[s.byMachine().length];
    for (int m = 0; m < parts.length; m++) {
      double[] row = s.byMachine()[m];
      parts[m] = row[at];
      for (int j = 0; j < others.length; j++) {
        parts[m] -= onto[j] * row[others[j]];
      }
    }
    return parts;
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
