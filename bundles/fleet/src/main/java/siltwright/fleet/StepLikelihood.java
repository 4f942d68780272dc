package siltwright.fleet;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.function.DoubleUnaryOperator;
import org.apache.commons.math3.analysis.integration.gauss.GaussIntegrator;
import org.apache.commons.math3.analysis.integration.gauss.GaussIntegratorFactory;
import siltwright.fleet.BeforeAfter.Calendar;
import siltwright.fleet.BeforeAfter.Term;

/** The likelihood of {@link BeforeAfter}, given each machine's number of events. */
final class StepLikelihood {
  private static final double YEAR_DAYS = 365.25;
  private static final double UNIT_H = 1000;
  private static final int PIECES = 3;
  private static final GaussIntegrator RULE = new GaussIntegratorFactory().legendre(10, 0, 1);

  /** Up to so many machines what the rate depends on is kept at each node of the integrals. */
  private static final int MOST_KEPT = 200;

  /**
   * Sums over machines at coefficients.
   *
   * @param logLikelihood logarithm of the likelihood
   * @param score its slopes
   * @param information its curvature
   * @param byMachine each machine's part of the slopes
   * @param shares each machine's part of the information, row by row
   */
  record Sums(
      double logLikelihood,
      double[] score,
      double[][] information,
      double[][] byMachine,
      double[][] shares) {}

  private final EventData data;
  private final double[] c;
  private final List<Term> terms;
  private final Calendar calendar;
  private final int p;

  /** Pieces of windows by machine: from, to. */
  private final List<List<double[]>> pieces = new ArrayList<>();

  private final double[] count;

  /** What the rate depends on at the nodes of each machine, one after another; null for many. */
  private final double[][] nodes;

  StepLikelihood(EventData data, double[] interventionH, List<Term> terms, Calendar calendar) {
    this.data = data;
    this.c = interventionH;
    this.terms = terms;
    this.calendar = calendar;
    p = terms.size();
    count = data.countByMachine();
    for (int m = 0; m < count.length; m++) {
      pieces.add(new ArrayList<>());
    }
    for (int w = 0; w < data.windows(); w++) {
      int m = data.windowMachine(w);
      double from = data.fromH(w);
      double to = data.toH(w);
      if (c[m] > from && c[m] < to) {
        cut(m, from, c[m]);
        cut(m, c[m], to);
      } else {
        cut(m, from, to);
      }
    }
    nodes = count.length > MOST_KEPT ? null : nodes();
  }

  private double[][] nodes() {
    double[][] all = new double[count.length][];
    double[] x = new double[p];
    for (int m = 0; m < all.length; m++) {
      all[m] = new double[pieces.get(m).size() * RULE.getNumberOfPoints() * p];
      int node = 0;
      for (double[] piece : pieces.get(m)) {
        for (int q = 0; q < RULE.getNumberOfPoints(); q++) {
          features(m, piece[0] + (piece[1] - piece[0]) * RULE.getPoint(q), x);
          System.arraycopy(x, 0, all[m], p * node++, p);
        }
      }
    }
    return all;
  }

  /** Cuts a piece so that a wave is smooth within each part. */
  private void cut(int m, double from, double to) {
    int parts = 1;
    if (terms.contains(Term.SINE)) {
      double days = Math.abs(calendar.day(m, to) - calendar.day(m, from));
      parts = 1 + (int) Math.min(1000, 4 * days / YEAR_DAYS);
    } else if (terms.contains(Term.TREND)) {
      parts = PIECES;
    }
    for (int k = 0; k < parts; k++) {
      pieces
          .get(m)
          .add(new double[] {from + (to - from) * k / parts, from + (to - from) * (k + 1) / parts});
    }
  }

  int machines() {
    return count.length;
  }

  /** Returns events before and after, and machines seen on both sides. */
  double[] sides() {
    double[] seen = new double[3];
    boolean[] before = new boolean[count.length];
    boolean[] after = new boolean[count.length];
    for (int w = 0; w < data.windows(); w++) {
      int m = data.windowMachine(w);
      before[m] |= data.fromH(w) < c[m];
      after[m] |= data.toH(w) > c[m];
    }
    for (int m = 0; m < count.length; m++) {
      seen[2] += before[m] && after[m] ? 1 : 0;
    }
    for (int e = 0; e < data.events(); e++) {
      int m = data.eventMachine(e);
      if (before[m] && after[m]) {
        seen[data.atH(e) > c[m] ? 1 : 0]++;
      }
    }
    return seen;
  }

  private void features(int m, double t, double[] x) {
    boolean none = Double.isNaN(c[m]);
    double since = (t - (none ? data.toH(0) : c[m])) / UNIT_H;
    for (int j = 0; j < p; j++) {
      x[j] =
          switch (terms.get(j)) {
            case TREND -> since;
            case STEP -> !none && t > c[m] ? 1 : 0;
            case BEND -> none ? 0 : Math.max(0, since);
            case SINE -> Math.sin(2 * Math.PI * calendar.day(m, t) / YEAR_DAYS);
            case COSINE -> Math.cos(2 * Math.PI * calendar.day(m, t) / YEAR_DAYS);
          };
    }
  }

  private double log(double[] b, double[] x) {
    double sum = 0;
    for (int j = 0; j < p; j++) {
      sum += b[j] * x[j];
    }
    return sum;
  }

  Sums at(double[] b) {
    double l = 0;
    double[] score = new double[p];
    double[][] information = new double[p][p];
    double[][] byMachine = new double[count.length][p];
    double[][] shares = new double[count.length][p * p];
    double[] x = new double[p];
    for (int e = 0; e < data.events(); e++) {
      int m = data.eventMachine(e);
      features(m, data.atH(e), x);
      l += log(b, x);
      for (int j = 0; j < p; j++) {
        byMachine[m][j] += x[j];
      }
    }
    double[] s1 = new double[p];
    double[][] s2 = new double[p][p];
    for (int m = 0; m < count.length; m++) {
      if (count[m] == 0) {
        continue;
      }
      double s0 = 0;
      Arrays.fill(s1, 0);
      for (double[] row : s2) {
        Arrays.fill(row, 0);
      }
      int node = 0;
      for (double[] piece : pieces.get(m)) {
        double length = piece[1] - piece[0];
        for (int q = 0; q < RULE.getNumberOfPoints(); q++) {
          if (nodes == null) {
            features(m, piece[0] + length * RULE.getPoint(q), x);
          } else {
            System.arraycopy(nodes[m], p * node++, x, 0, p);
          }
          double w = length * RULE.getWeight(q) * Math.exp(log(b, x));
          s0 += w;
          for (int j = 0; j < p; j++) {
            s1[j] += w * x[j];
            for (int k = 0; k <= j; k++) {
              s2[j][k] += w * x[j] * x[k];
            }
          }
        }
      }
      l -= count[m] * Math.log(s0);
      for (int j = 0; j < p; j++) {
        byMachine[m][j] -= count[m] * s1[j] / s0;
        score[j] += byMachine[m][j];
        for (int k = 0; k <= j; k++) {
          double v = count[m] * (s2[j][k] / s0 - s1[j] * s1[k] / (s0 * s0));
          information[j][k] += v;
          shares[m][j * p + k] = v;
          shares[m][k * p + j] = v;
          if (k < j) {
            information[k][j] += v;
          }
        }
      }
    }
    return new Sums(l, score, information, byMachine, shares);
  }

  double[] expected(double[] b, double[] bounds) {
    double[] all = new double[bounds.length - 1];
    double[] x = new double[p];
    for (int m = 0; m < count.length; m++) {
      if (count[m] == 0 || Double.isNaN(c[m])) {
        continue;
      }
      double whole = 0;
      double[] parts = new double[all.length];
      for (double[] piece : pieces.get(m)) {
        whole += integral(b, x, m, piece[0], piece[1]);
        for (int k = 0; k < all.length; k++) {
          double from = Math.max(piece[0], c[m] + bounds[k]);
          double to = Math.min(piece[1], c[m] + bounds[k + 1]);
          parts[k] += from < to ? integral(b, x, m, from, to) : 0;
        }
      }
      for (int k = 0; k < all.length; k++) {
        all[k] += count[m] * parts[k] / whole;
      }
    }
    return all;
  }

  private double integral(double[] b, double[] x, int m, double from, double to) {
    DoubleUnaryOperator f =
        u -> {
          features(m, from + (to - from) * u, x);
          return Math.exp(log(b, x));
        };
    return (to - from) * RULE.integrate(f::applyAsDouble);
  }
}
