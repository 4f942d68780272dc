package siltwright.fleet;

import java.util.List;
import java.util.Map;
import java.util.concurrent.ConcurrentHashMap;
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

  private static final int MOST_STEPS = 100;

  private final List<Term> terms;
  private final double[] coefficients;
  private final double[][] covariance;
  private final double[] degreesOfFreedom;
  private final StepLikelihood work;
  private final EventData data;
  private final double[] interventionH;
  private final Calendar calendar;

  /** What was asked for already: by signs it takes some refits. */
  private final Map<Map.Entry<Integer, Double>, Interval> ends = new ConcurrentHashMap<>();

  private final Map<Integer, Double> pValues = new ConcurrentHashMap<>();

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
      StepLikelihood work,
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
    StepLikelihood work = new StepLikelihood(data, interventionH, terms, calendar);
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
    StepLikelihood.Sums at = work.at(b);
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
      StepLikelihood.Sums there;
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
    Interval logs = ends.computeIfAbsent(Map.entry(j, confidence), k -> ends(j, se, confidence));
    double value = Math.exp(coefficients[j]);
    return new Estimated(
        value, value * se, se, new Interval(Math.exp(logs.lower()), Math.exp(logs.upper())));
  }

  private Interval ends(int j, double se, double confidence) {
    RobustScore score = score(j);
    if (bySigns(score)) {
      return score.intervalBySigns(se, confidence);
    }
    double half = Tails.studentQuantile(confidence, degreesOfFreedom[j]) * se;
    return new Interval(coefficients[j] - half, coefficients[j] + half);
  }

  /** Returns the two-sided p-value of a term. */
  public double pValue(Term term) {
    return pValues.computeIfAbsent(terms.indexOf(term), this::tested);
  }

  private double tested(int j) {
    RobustScore score = score(j);
    return bySigns(score)
        ? score.pValueBySigns(0)
        : Tails.twoSided(coefficients[j] / Math.sqrt(covariance[j][j]), degreesOfFreedom[j]);
  }

  private RobustScore score(int j) {
    return new RobustScore(
        b -> {
          StepLikelihood.Sums s = work.at(b);
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
}
