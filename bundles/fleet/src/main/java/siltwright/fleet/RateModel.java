package siltwright.fleet;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Map;
import org.apache.commons.math3.linear.Array2DRowRealMatrix;
import org.apache.commons.math3.linear.ArrayRealVector;
import org.apache.commons.math3.linear.DecompositionSolver;
import org.apache.commons.math3.linear.LUDecomposition;
import org.apache.commons.math3.linear.SingularValueDecomposition;
import siltwright.life.Covariate;
import siltwright.life.Estimate;
import siltwright.life.Reason;
import siltwright.life.Refusal;
import siltwright.life.SignificanceTest;

/**
 * Proportional rates: what explains how often machines have events, age allowed for.
 *
 * <pre>  rate of machine i at age t = r0(t) exp(x_i'b)  </pre>
 *
 * <p>r0 may be any function of age. The estimate is that of the partial likelihood with Breslow's
 * ties; its error is the sandwich with the machine as the unit, so that events of a machine may
 * depend on each other. Sources: P. K. Andersen, R. D. Gill, Annals of Statistics 10 (1982)
 * 1100-1120; D. Y. Lin, L. J. Wei, I. Yang, Z. Ying, JRSS B 62 (2000) 711-730 (both from memory).
 */
public final class RateModel {
  private static final int MOST_STEPS = 60;
  private static final double RUNAWAY = 12;

  private RateModel() {}

  /**
   * Fits.
   *
   * @param covariates a value for each machine, by name; of levels the first is the reference
   * @param strata a level for each machine within which alone machines are compared, or null
   * @return the fit, or why there is none: a level without events, covariates that determine each
   *     other
   */
  public static Estimate<RateFit> fit(
      EventData data, Map<String, Covariate> covariates, Covariate.Categorical strata) {
    Refusal refusal = levels(data, covariates);
    if (refusal != null) {
      return new Estimate.Refused<>(refusal);
    }
    RateDesign design = RateDesign.of(data.machines().size(), covariates);
    String collinear = collinear(design);
    if (collinear != null) {
      return Estimate.refused(
          Reason.COLLINEAR, collinear, "Their effects can't be told apart; leave one of them out.");
    }
    Strata sweeps = new Strata(data, design.x, strata);
    double[] b = new double[design.names.size()];
    RateSweep.Sums at = sweeps.at(b);
    double alone = at.logLikelihood();
    for (int step = 0; step < MOST_STEPS; step++) {
      double[] move = solve(at.information(), at.score());
      if (move == null) {
        return separated();
      }
      double gain = 0;
      for (int j = 0; j < b.length; j++) {
        gain += move[j] * at.score()[j];
      }
      double share = 1;
      double[] next = moved(b, move, share);
      RateSweep.Sums there = sweeps.at(next);
      while (!(there.logLikelihood() >= at.logLikelihood() - 1e-12 * Math.abs(at.logLikelihood()))
          && share > 1e-6) {
        share /= 2;
        next = moved(b, move, share);
        there = sweeps.at(next);
      }
      b = next;
      at = there;
      if (gain < 1e-18 * Math.max(1, Math.abs(alone))) {
        for (double v : b) {
          if (Math.abs(v) > RUNAWAY) {
            return separated();
          }
        }
        return Estimate.found(new RateFit(data, design, covariates, strata, b, alone, at));
      }
    }
    return separated();
  }

  private static double[] moved(double[] b, double[] move, double share) {
    double[] next = b.clone();
    for (int j = 0; j < b.length; j++) {
      next[j] += share * move[j];
    }
    return next;
  }

  /**
   * Tests whether groups have events equally often, age allowed for, without an estimate: the
   * robust score test, which holds its level better than Wald's with few machines.
   *
   * <pre>  U' V⁻ U,  U = sum of u_i,  V = sum of u_i u_i' over machines  </pre>
   *
   * <p>u_i is the machine's events in its group less its share of those expected if all groups were
   * alike. Source: J. F. Lawless, C. Nadeau, Technometrics 37 (1995) 158-168 (from memory).
   *
   * @param group a level for each machine
   * @param strata as in {@link #fit}
   */
  public static SignificanceTest compare(
      EventData data, Covariate.Categorical group, Covariate.Categorical strata) {
    RateDesign design = RateDesign.of(data.machines().size(), Map.of("group", group));
    RateSweep.Sums at = new Strata(data, design.x, strata).at(new double[design.names.size()]);
    int p = design.names.size();
    double[][] v = new double[p][p];
    addOuter(v, at.residuals());
    SingularValueDecomposition svd = new SingularValueDecomposition(new Array2DRowRealMatrix(v));
    double[] solved = svd.getSolver().solve(new Array2DRowRealMatrix(at.score())).getColumn(0);
    double chiSquare = 0;
    for (int j = 0; j < p; j++) {
      chiSquare += at.score()[j] * solved[j];
    }
    return Tails.test(chiSquare, svd.getRank());
  }

  static void addOuter(double[][] v, double[][] rows) {
    for (double[] row : rows) {
      for (int j = 0; j < row.length; j++) {
        for (int k = 0; k < row.length; k++) {
          v[j][k] += row[j] * row[k];
        }
      }
    }
  }

  /**
   * What leaving out each machine in turn gives.
   *
   * @param covariance of the coefficients
   * @param degreesOfFreedom of Student's law that each coefficient over its error follows
   */
  record LeaveOneOut(double[][] covariance, double[] degreesOfFreedom) {}

  /**
   * Leaves out each machine in turn, in one step each.
   *
   * <pre>
   *   V = sum over machines of w w',  w = (I - I_i)⁻¹ u_i
   *   degrees of freedom = 2 V²/(sum of w⁴ - V²/n)
   * </pre>
   *
   * <p>u_i is the machine's part of the score and I_i of the information, so w is how far the
   * estimate moves without it. The plain sandwich has I for I - I_i and is too small with few
   * machines. The degrees of freedom are Satterthwaite's with the spread of w² taken from the
   * machines: fewer where a few decide; a third of the way to n - p, since the fourth powers of few
   * machines say little (own choice, by the levels in docs/compare-level.md). Sources: own
   * derivation; for linear models J. G. MacKinnon, H. White, Journal of Econometrics 29 (1985)
   * 305-325; F. E. Satterthwaite, Biometrics Bulletin 2 (1946) 110-114 (both from memory).
   */
  static LeaveOneOut leaveOneOut(double[][] information, double[][] u, double[][] shares) {
    int p = information.length;
    double[][] v = new double[p][p];
    double[] fourth = new double[p];
    double[][] rest = new double[p][p];
    int n = 0;
    for (int m = 0; m < u.length; m++) {
      for (int j = 0; j < p; j++) {
        for (int k = 0; k < p; k++) {
          rest[j][k] = information[j][k] - shares[m][j * p + k];
        }
      }
      double[] w = solve(rest, u[m]);
      if (w == null) {
        for (double[] row : v) {
          Arrays.fill(row, Double.NaN); // the rest without it tells nothing
        }
        return new LeaveOneOut(v, fourth);
      }
      boolean tells = false;
      for (int j = 0; j < p; j++) {
        tells |= w[j] != 0;
        fourth[j] += w[j] * w[j] * w[j] * w[j];
        for (int k = 0; k < p; k++) {
          v[j][k] += w[j] * w[k];
        }
      }
      n += tells ? 1 : 0;
    }
    double[] df = new double[p];
    for (int j = 0; j < p; j++) {
      double square = v[j][j] * v[j][j];
      double own = Math.max(1, Math.min(n - p, 2 * square / (fourth[j] - square / n)));
      df[j] = (2 * own + Math.max(1, n - p)) / 3;
    }
    return new LeaveOneOut(v, df);
  }

  static double[] solve(double[][] m, double[] rhs) {
    if (rhs.length == 0) {
      return rhs;
    }
    DecompositionSolver solver =
        new LUDecomposition(new Array2DRowRealMatrix(m), 1e-13).getSolver();
    return solver.isNonSingular() ? solver.solve(new ArrayRealVector(rhs, false)).toArray() : null;
  }

  private static Estimate<RateFit> separated() {
    return Estimate.refused(
        Reason.SEPARATED,
        "A combination of covariates separates machines with events from those without.",
        "Leave one of them out.");
  }

  private static Refusal levels(EventData data, Map<String, Covariate> covariates) {
    if (data.events() == 0) {
      return new Refusal(Reason.NO_FAILURES, "There are no events.", "Rates have upper bounds.");
    }
    double[] counts = data.countByMachine();
    for (Map.Entry<String, Covariate> c : covariates.entrySet()) {
      if (c.getValue() instanceof Covariate.Categorical levels) {
        double[] events = new double[levels.levels().size()];
        boolean[] present = new boolean[events.length];
        for (int m = 0; m < counts.length; m++) {
          events[levels.codes()[m]] += counts[m];
          present[levels.codes()[m]] = true;
        }
        for (int k = 0; k < events.length; k++) {
          String level = c.getKey() + " " + levels.levels().get(k);
          if (!present[k]) {
            return new Refusal(Reason.COLLINEAR, level + " occurs nowhere.", "Leave it out.");
          }
          if (events[k] == 0) {
            return new Refusal(
                Reason.LEVEL_WITHOUT_FAILURES,
                "There are no events where " + level + ": a ratio to its rate is unbounded.",
                "Its exact interval has an upper end; the others can be compared without it.");
          }
        }
      }
    }
    return null;
  }

  private static String collinear(RateDesign design) {
    int p = design.names.size();
    for (int j = 0; j < p; j++) {
      if (design.spread[j] == 0) {
        return design.names.get(j) + " is the same for every machine.";
      }
      if (j == 0) {
        continue;
      }
      double[][] gram = new double[j][j];
      double[] onto = new double[j];
      for (double[] row : design.x) {
        for (int a = 0; a < j; a++) {
          onto[a] += row[a] * row[j] / design.x.length;
          for (int c = 0; c < j; c++) {
            gram[a][c] += row[a] * row[c] / design.x.length;
          }
        }
      }
      double[] solved = solve(gram, onto);
      double rest = 1;
      List<String> others = new ArrayList<>();
      for (int a = 0; solved != null && a < j; a++) {
        rest -= solved[a] * onto[a];
        if (Math.abs(solved[a]) > 1e-6) {
          others.add(design.names.get(a));
        }
      }
      if (solved == null || rest < 1e-9) {
        return design.names.get(j) + " is determined by " + String.join(", ", others) + ".";
      }
    }
    return null;
  }

  /** A pass for each stratum, their sums. */
  static final class Strata {
    private final List<RateSweep> sweeps = new ArrayList<>();
    private final List<int[]> members = new ArrayList<>();
    private final int machines;
    private final int p;

    Strata(EventData data, double[][] x, Covariate.Categorical strata) {
      machines = x.length;
      p = x.length == 0 ? 0 : x[0].length;
      if (strata == null) {
        add(data, x, null);
        return;
      }
      for (int s = 0; s < strata.levels().size(); s++) {
        int code = s;
        int[] in = new int[machines];
        int n = 0;
        for (int m = 0; m < machines; m++) {
          if (strata.codes()[m] == code) {
            in[n++] = m;
          }
        }
        if (n > 0) {
          double[][] rows = new double[n][];
          for (int i = 0; i < n; i++) {
            rows[i] = x[in[i]];
          }
          add(data.where(m -> strata.codes()[m] == code), rows, Arrays.copyOf(in, n));
        }
      }
    }

    private void add(EventData part, double[][] x, int[] in) {
      sweeps.add(new RateSweep(part, x));
      members.add(in);
    }

    RateSweep.Sums at(double[] b) {
      if (sweeps.size() == 1) {
        return sweeps.get(0).at(b);
      }
      double l = 0;
      double[] score = new double[p];
      double[][] information = new double[p][p];
      double[][] residuals = new double[machines][];
      double[][] shares = new double[machines][];
      for (int s = 0; s < sweeps.size(); s++) {
        RateSweep.Sums part = sweeps.get(s).at(b);
        l += part.logLikelihood();
        for (int j = 0; j < p; j++) {
          score[j] += part.score()[j];
          for (int k = 0; k < p; k++) {
            information[j][k] += part.information()[j][k];
          }
        }
        for (int i = 0; i < part.residuals().length; i++) {
          residuals[members.get(s)[i]] = part.residuals()[i];
          shares[members.get(s)[i]] = part.shares()[i];
        }
      }
      return new RateSweep.Sums(l, score, information, residuals, shares);
    }
  }
}
