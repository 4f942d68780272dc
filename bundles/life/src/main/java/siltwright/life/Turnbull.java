package siltwright.life;

import java.util.Arrays;
import java.util.Comparator;

/**
 * Survival without a law from failures known within intervals: the nonparametric maximum-likelihood
 * estimate, converged.
 *
 * <p>All mass lies in the innermost intervals, between an open left and a closed right end with no
 * other end between (B. W. Turnbull, JRSS B 38 (1976) 290-295). Where in such an interval is not
 * identified. Method: expectation-maximisation to start, then Newton steps on the masses not at
 * zero; the maximum is recognised by the Kuhn-Tucker conditions, not by small steps.
 *
 * <p>The arrays are handed out as they are, not copied: read them, don't write to them.
 *
 * @param leftH open left ends of the innermost intervals, h; equal to the right for a point
 * @param rightH closed right ends, h; infinite for mass never seen to fail
 * @param mass share of components in each, sums to 1
 * @param logLikelihood at the estimate
 * @param kuhnTuckerGap how far the likelihood could still rise per unit of mass moved and component
 */
public record Turnbull(
    double[] leftH, double[] rightH, double[] mass, double logLikelihood, double kuhnTuckerGap) {
  private static final double GAP = 1e-10;

  /** Above this many free masses a Newton step costs more than it saves. */
  private static final int NEWTON_LIMIT = 1200;

  /**
   * Estimates survival.
   *
   * @throws IllegalArgumentException if a row came under watch late: the estimate is then not
   *     defined by these intervals
   */
  public static Turnbull of(LifeData data) {
    if (data.hasLateEntry()) {
      throw new IllegalArgumentException(
          "late entry together with interval-censored failures has no estimate here");
    }
    Problem problem = Problem.of(data);
    double[] p = problem.solve();
    int kept = 0;
    for (double v : p) {
      kept += v > 0 ? 1 : 0;
    }
    double[] left = new double[kept];
    double[] right = new double[kept];
    double[] mass = new double[kept];
    int k = 0;
    for (int j = 0; j < p.length; j++) {
      if (p[j] > 0) {
        left[k] = problem.left[j];
        right[k] = problem.right[j];
        mass[k++] = p[j];
      }
    }
    return new Turnbull(left, right, mass, problem.logLikelihood(p), problem.gap(p));
  }

  /** Returns the share that survives the end of each innermost interval. */
  public double[] survivalAfter() {
    double[] s = new double[mass.length];
    double sum = 0;
    for (int i = mass.length - 1; i >= 0; i--) {
      s[i] = sum;
      sum += mass[i];
    }
    return s;
  }

  /** Rows as ranges of innermost intervals. */
  private static final class Problem {
    double[] left;
    double[] right;
    private int[] from;
    private int[] to;
    private double[] weight;
    private double total;

    static Problem of(LifeData data) {
      int n = data.rows();
      // Ends in order; at one time a point's left end comes first, then right ends, then open left.
      double[] time = new double[2 * n];
      Integer[] ends = new Integer[2 * n];
      for (int i = 0; i < n; i++) {
        time[2 * i] = data.lowerH(i);
        time[2 * i + 1] = data.upperH(i);
        ends[2 * i] = 2 * i;
        ends[2 * i + 1] = 2 * i + 1;
      }
      Arrays.sort(
          ends,
          Comparator.<Integer>comparingDouble(e -> time[e]).thenComparingInt(e -> rank(data, e)));
      Problem problem = new Problem();
      problem.left = new double[n];
      problem.right = new double[n];
      problem.from = new int[n];
      problem.to = new int[n];
      problem.weight = new double[n];
      int m = 0;
      for (int k = 0; k < ends.length; k++) {
        int row = ends[k] / 2;
        if (ends[k] % 2 == 0) {
          problem.from[row] = m;
          if (k + 1 < ends.length && ends[k + 1] % 2 == 1) {
            problem.left[m] = time[ends[k]];
            problem.right[m++] = time[ends[k + 1]];
          }
        } else {
          problem.to[row] = m;
        }
      }
      for (int i = 0; i < n; i++) {
        problem.weight[i] = data.countAt(i);
        problem.total += problem.weight[i];
      }
      problem.left = Arrays.copyOf(problem.left, m);
      problem.right = Arrays.copyOf(problem.right, m);
      return problem;
    }

    private static int rank(LifeData data, int end) {
      int row = end / 2;
      if (end % 2 == 1) {
        return 1;
      }
      return data.lowerH(row) == data.upperH(row) ? 0 : 2;
    }

    double[] solve() {
      int m = left.length;
      double[] p = new double[m];
      Arrays.fill(p, 1.0 / m);
      for (int i = 0; i < 30; i++) {
        expectationMaximisation(p);
      }
      for (int i = 0; i < 20000 && gap(p) > GAP; i++) {
        if (!newton(p)) {
          expectationMaximisation(p);
        }
      }
      double sum = 0;
      for (int j = 0; j < m; j++) {
        p[j] = p[j] < 1e-13 ? 0 : p[j];
        sum += p[j];
      }
      for (int j = 0; j < m; j++) {
        p[j] /= sum;
      }
      return p;
    }

    private double[] rowShares(double[] p) {
      double[] cumulated = new double[p.length + 1];
      for (int j = 0; j < p.length; j++) {
        cumulated[j + 1] = cumulated[j] + p[j];
      }
      double[] share = new double[from.length];
      for (int i = 0; i < share.length; i++) {
        if (to[i] - from[i] == 1) {
          share[i] = p[from[i]]; // without the rounding of a difference
        } else {
          share[i] = cumulated[to[i]] - cumulated[from[i]];
        }
      }
      return share;
    }

    double logLikelihood(double[] p) {
      double[] share = rowShares(p);
      double l = 0;
      for (int i = 0; i < share.length; i++) {
        l += weight[i] * Math.log(share[i]);
      }
      return l;
    }

    /** Returns the likelihood's rise by each mass, less the total count that holds the sum at 1. */
    private double[] gradient(double[] p) {
      double[] share = rowShares(p);
      double[] g = new double[p.length + 1];
      for (int i = 0; i < share.length; i++) {
        g[from[i]] += weight[i] / share[i];
        g[to[i]] -= weight[i] / share[i];
      }
      double sum = 0;
      for (int j = 0; j < p.length; j++) {
        sum += g[j];
        g[j] = sum - total;
      }
      return Arrays.copyOf(g, p.length);
    }

    /** Returns by how much the Kuhn-Tucker conditions fail, per component. */
    double gap(double[] p) {
      double gap = 0;
      double[] g = gradient(p);
      for (int j = 0; j < p.length; j++) {
        gap = Math.max(gap, Math.max(g[j], -g[j] * p[j]));
      }
      return gap / total;
    }

    private void expectationMaximisation(double[] p) {
      double[] g = gradient(p);
      double sum = 0;
      for (int j = 0; j < p.length; j++) {
        p[j] *= (g[j] + total) / total;
        sum += p[j];
      }
      for (int j = 0; j < p.length; j++) {
        p[j] /= sum;
      }
    }

    private double objective(double[] p) {
      double sum = 0;
      for (double v : p) {
        sum += v;
      }
      return logLikelihood(p) - total * sum;
    }

    /** Takes a projected Newton step on the masses that are, or want to be, above zero. */
    private boolean newton(double[] p) {
      double[] g = gradient(p);
      int[] free = new int[p.length];
      int f = 0;
      for (int j = 0; j < p.length; j++) {
        if (p[j] > 0 || g[j] > 0) {
          free[f++] = j;
        }
      }
      if (f > NEWTON_LIMIT) {
        return false;
      }
      double[] h = curvature(p, free, f);
      double[] rhs = new double[f];
      for (int j = 0; j < f; j++) {
        rhs[j] = g[free[j]];
      }
      Cholesky c = Cholesky.of(h, f, f, 1, 1e-12);
      for (double ridge = 1e-9; c == null && ridge < 1e3; ridge *= 10) {
        c = Cholesky.of(h, f, f, 1, ridge);
      }
      if (c == null) {
        return false;
      }
      double[] step = c.solve(rhs);
      double before = objective(p);
      double[] trial = p.clone();
      for (double factor = 1; factor > 1e-6; factor *= 0.5) {
        double slope = 0;
        for (int j = 0; j < f; j++) {
          trial[free[j]] = Math.max(0, p[free[j]] + factor * step[j]);
          slope += rhs[j] * (trial[free[j]] - p[free[j]]);
        }
        double after = objective(trial);
        if (slope > 0 && after >= before + 1e-4 * slope - 1e-13 * Math.abs(before)) {
          System.arraycopy(trial, 0, p, 0, p.length);
          return true;
        }
      }
      return false;
    }

    /** Returns minus the second derivatives among the free masses. */
    private double[] curvature(double[] p, int[] free, int f) {
      double[] share = rowShares(p);
      int[] position = new int[p.length + 1];
      int k = 0;
      for (int j = 0; j <= p.length; j++) {
        position[j] = k; // free masses before interval j
        if (k < f && j == free[k]) {
          k++;
        }
      }
      // Each row weighs on all pairs within its range: put it on the widest pair, then spread
      // inwards.
      double[] h = new double[f * f];
      for (int i = 0; i < share.length; i++) {
        int first = position[from[i]];
        int last = position[to[i]] - 1;
        if (first <= last) {
          h[last * f + first] += weight[i] / (share[i] * share[i]);
        }
      }
      for (int last = f - 1; last >= 0; last--) {
        for (int first = 0; first <= last; first++) {
          double wider = last + 1 < f ? h[(last + 1) * f + first] : 0;
          double before = first > 0 ? h[last * f + first - 1] : 0;
          double both = last + 1 < f && first > 0 ? h[(last + 1) * f + first - 1] : 0;
          h[last * f + first] += wider + before - both;
        }
      }
      return h;
    }
  }
}
