package siltwright.fleet;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.function.DoubleUnaryOperator;
import org.apache.commons.math3.analysis.integration.gauss.GaussIntegrator;
import org.apache.commons.math3.analysis.integration.gauss.GaussIntegratorFactory;
import siltwright.life.Estimate;
import siltwright.life.Estimated;
import siltwright.life.Interval;
import siltwright.life.Reason;
import siltwright.life.SignificanceTest;

/**
 * What an intervention did to the rate of events, each machine as its own control.
 *
 * <pre>
 *   rate of machine i at hour t = a_i exp(trend (t - c_i) + step 1{t > c_i} + bend (t - c_i)+ + wave)
 *   l = sum over machines of [ sum over its events of ln f(t) - n_i ln integral of f over its windows ]
 * </pre>
 *
 * <p>c_i is the hour of the intervention; a_i drops out given the machine's number of events, and
 * with it whatever is peculiar to the machine and lasts. The wave is that of a year, where dates
 * are known. A machine without an intervention tells of the trend and the wave only. Errors leave
 * out each machine in turn, and refer to Student's law. Source: the conditional likelihood of a
 * Poisson process given its count, D. R. Cox, P. A. W. Lewis 1966 (from memory); own derivation of
 * the errors.
 */
public final class BeforeAfter {
  /** What the rate may depend on. */
  public enum Term {
    /** Trend with age before the intervention, per 1000 h. */
    TREND,
    /** Step at the intervention. */
    STEP,
    /** Change of the trend at the intervention, per 1000 h. */
    BEND,
    /** Yearly wave, its sine. */
    SINE,
    /** Yearly wave, its cosine. */
    COSINE
  }

  /** Fewer machines have too few signs for a p-value below 0.01. */
  private static final int FEWEST_BY_SIGNS = 8;

  /** With more, both forms agree, and leaving out is faster. */
  private static final int MOST_BY_SIGNS = 200;

  private static final double YEAR_DAYS = 365.25;
  private static final double UNIT_H = 1000;
  private static final int MOST_STEPS = 100;
  private static final int PIECES = 3;
  private static final GaussIntegrator RULE = new GaussIntegratorFactory().legendre(10, 0, 1);

  private final List<Term> terms;
  private final double[] coefficients;
  private final double[][] covariance;
  private final double[] degreesOfFreedom;
  private final Work work;
  private final EventData data;
  private final double[] interventionH;
  private final Calendar calendar;

  /** Which day it is on a machine's hour meter; for the yearly wave. */
  @FunctionalInterface
  public interface Calendar {
    /** Returns the day, counted from any one, at an hour of a machine. */
    double day(int machine, double hoursH);
  }

  private BeforeAfter(
      List<Term> terms,
      double[] coefficients,
      RateModel.LeaveOneOut errors,
      Work work,
      EventData data,
      double[] interventionH,
      Calendar calendar) {
    this.terms = List.copyOf(terms);
    this.coefficients = coefficients;
    this.covariance = errors.covariance();
    this.degreesOfFreedom = errors.degreesOfFreedom();
    this.work = work;
    this.data = data;
    this.interventionH = interventionH.clone();
    this.calendar = calendar;
  }

  /**
   * Fits.
   *
   * @param interventionH hour of the intervention on each machine, not a number where there was
   *     none
   * @param terms what the rate may depend on
   * @param calendar for the wave; may be null without it
   */
  public static Estimate<BeforeAfter> fit(
      EventData data, double[] interventionH, List<Term> terms, Calendar calendar) {
    Work work = new Work(data, interventionH, terms, calendar);
    double[] sides = work.sides();
    if (sides[0] == 0 || sides[1] == 0 || sides[2] == 0) {
      return Estimate.refused(
          Reason.TOO_FEW_FAILURES,
          sides[2] == 0
              ? "No machine was watched both before and after the intervention."
              : "There are no events "
                  + (sides[0] == 0 ? "before" : "after")
                  + " the intervention on machines watched on both sides of it.",
          "More hours on both sides would help.");
    }
    double[] b = new double[terms.size()];
    Sums at = work.at(b);
    for (int step = 0; step < MOST_STEPS; step++) {
      double[] move = RateModel.solve(at.information(), at.score());
      if (move == null) {
        return unidentified();
      }
      double gain = 0;
      for (int j = 0; j < b.length; j++) {
        gain += move[j] * at.score()[j];
      }
      if (gain < 1e-16 * Math.max(1, Math.abs(at.logLikelihood()))) {
        RateModel.LeaveOneOut errors =
            RateModel.leaveOneOut(at.information(), at.byMachine(), at.shares());
        for (int j = 0; j < b.length; j++) {
          if (!(errors.covariance()[j][j] > 0) || Math.abs(b[j]) > 15) {
            return unidentified();
          }
        }
        return Estimate.found(
            new BeforeAfter(terms, b, errors, work, data, interventionH, calendar));
      }
      double share = 1;
      double[] next;
      Sums there;
      do {
        next = b.clone();
        for (int j = 0; j < b.length; j++) {
          next[j] += share * move[j];
        }
        there = work.at(next);
        share /= 2;
      } while (!(there.logLikelihood() >= at.logLikelihood() - 1e-12) && share > 1e-8);
      b = next;
      at = there;
    }
    return unidentified();
  }

  private static Estimate<BeforeAfter> unidentified() {
    return Estimate.refused(
        Reason.UNBOUNDED_LIKELIHOOD,
        "The events do not tell step and slopes apart.",
        "Ask for the step alone.");
  }

  /** Returns the terms. */
  public List<Term> terms() {
    return terms;
  }

  /**
   * Returns the factor on the rate of a term: at once of a step, of 1000 h of a trend or bend. Its
   * error leaves out each machine in turn; its interval holds what the test of the term does not
   * reject.
   */
  public Estimated factor(Term term, double confidence) {
    int j = terms.indexOf(term);
    double se = Math.sqrt(covariance[j][j]);
    double half = Tails.studentQuantile(confidence, degreesOfFreedom[j]) * se;
    RobustScore score = score(j);
    Interval logs =
        bySigns(score)
            ? score.intervalBySigns(se, confidence)
            : new Interval(coefficients[j] - half, coefficients[j] + half);
    double value = Math.exp(coefficients[j]);
    return new Estimated(
        value, value * se, se, new Interval(Math.exp(logs.lower()), Math.exp(logs.upper())));
  }

  /** Returns the two-sided p-value of a term. */
  public double pValue(Term term) {
    int j = terms.indexOf(term);
    RobustScore score = score(j);
    return bySigns(score)
        ? score.pValueBySigns(0)
        : Tails.twoSided(coefficients[j] / Math.sqrt(covariance[j][j]), degreesOfFreedom[j]);
  }

  private RobustScore score(int j) {
    return new RobustScore(
        b -> {
          Sums s = work.at(b);
          return new RobustScore.Slopes(
              s.logLikelihood(), s.score(), s.information(), s.byMachine());
        },
        coefficients,
        j);
  }

  private boolean bySigns(RobustScore score) {
    return work.machines() <= MOST_BY_SIGNS && score.machines() >= FEWEST_BY_SIGNS;
  }

  /** Returns the test of the yearly wave. */
  public SignificanceTest waveTest() {
    int s = terms.indexOf(Term.SINE);
    int c = terms.indexOf(Term.COSINE);
    double[][] v = {{covariance[s][s], covariance[s][c]}, {covariance[c][s], covariance[c][c]}};
    double[] b = {coefficients[s], coefficients[c]};
    double[] solved = RateModel.solve(v, b);
    return Tails.test(b[0] * solved[0] + b[1] * solved[1], 2);
  }

  /**
   * Returns the events expected in bins of hours since the intervention, by the fit, each machine
   * with as many events as it had.
   *
   * @param boundsH ends of the bins, rising
   */
  public double[] expected(double[] boundsH) {
    return work.expected(coefficients, boundsH);
  }

  private record Sums(
      double logLikelihood,
      double[] score,
      double[][] information,
      double[][] byMachine,
      double[][] shares) {}

  /** The sums over machines. */
  private static final class Work {
    private final EventData data;
    private final double[] c;
    private final List<Term> terms;
    private final Calendar calendar;
    private final int p;

    /** Pieces of windows by machine: from, to. */
    private final List<List<double[]>> pieces = new ArrayList<>();

    private final double[] count;

    Work(EventData data, double[] interventionH, List<Term> terms, Calendar calendar) {
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
            .add(
                new double[] {
                  from + (to - from) * k / parts, from + (to - from) * (k + 1) / parts
                });
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
        for (double[] piece : pieces.get(m)) {
          double length = piece[1] - piece[0];
          for (int q = 0; q < RULE.getNumberOfPoints(); q++) {
            features(m, piece[0] + length * RULE.getPoint(q), x);
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
}
