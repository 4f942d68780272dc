package siltwright.fleet;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import siltwright.life.Covariate;
import siltwright.life.Estimated;
import siltwright.life.Interval;
import siltwright.life.SignificanceTest;

/** A fitted regression of the rate of events on covariates. Immutable. */
public final class RateFit {
  private final List<String> names;
  private final List<String> covariates;
  private final double[] coefficients;
  private final double[][] naive;
  private final double[][] robust;
  private final double[][] leftOut;
  private final EventData data;
  private final Map<String, Covariate> columns;
  private final Covariate.Categorical strata;
  private final double alone;
  private final double logLikelihood;

  RateFit(
      EventData data,
      RateDesign design,
      Map<String, Covariate> covariates,
      Covariate.Categorical strata,
      double[] b,
      double alone,
      RateSweep.Sums at) {
    this.names = List.copyOf(design.names);
    this.covariates = List.copyOf(covariates.keySet());
    this.alone = alone;
    this.logLikelihood = at.logLikelihood();
    int p = b.length;
    coefficients = new double[p];
    double[][] inverse = new double[p][];
    for (int j = 0; j < p; j++) {
      coefficients[j] = b[j] / design.spread[j];
      double[] unit = new double[p];
      unit[j] = 1;
      inverse[j] = RateModel.solve(at.information(), unit);
    }
    double[][] influence = new double[at.residuals().length][p];
    for (int m = 0; m < influence.length; m++) {
      for (int j = 0; j < p; j++) {
        for (int k = 0; k < p; k++) {
          influence[m][j] += inverse[j][k] * at.residuals()[m][k];
        }
      }
    }
    robust = new double[p][p];
    RateModel.addOuter(robust, influence);
    naive = inverse;
    leftOut = RateModel.leaveOneOut(at.information(), at.residuals(), at.shares()).covariance();
    this.data = data;
    this.columns = covariates;
    this.strata = strata;
    for (int j = 0; j < p; j++) {
      for (int k = 0; k < p; k++) {
        double scale = design.spread[j] * design.spread[k];
        robust[j][k] /= scale;
        leftOut[j][k] /= scale;
        naive[j][k] /= scale;
      }
    }
  }

  /** Returns the names of the coefficients: a number's name, or name=level. */
  public List<String> names() {
    return names;
  }

  /** Returns the names of the covariates. */
  public List<String> covariates() {
    return covariates;
  }

  /** Returns the coefficients on the log rate. */
  public double[] coefficients() {
    return coefficients.clone();
  }

  /** Returns the sandwich error of a coefficient: for many machines. */
  public double standardError(String name) {
    int j = index(name);
    return Math.sqrt(robust[j][j]);
  }

  /** Returns the error that would hold if events came by chance alone. */
  public double standardErrorByChance(String name) {
    int j = index(name);
    return Math.sqrt(naive[j][j]);
  }

  /**
   * A ratio of rates.
   *
   * @param estimate value, leave-one-out error, interval
   * @param pValue two-sided, against a ratio of 1
   */
  public record Ratio(Estimated estimate, double pValue) {}

  /** Above this many machines Wald's interval is that of the score test, and costs nothing. */
  private static final int MANY = 2000;

  /**
   * Returns the factor on the rate of one level of a covariate against another, by the robust score
   * test: its interval holds all ratios that the test does not reject. With many machines Wald's
   * interval, which is then the same.
   */
  public Ratio ratio(String covariate, String level, String against, double confidence) {
    int a = names.indexOf(covariate + "=" + level);
    int b = names.indexOf(covariate + "=" + against);
    double log = (a < 0 ? 0 : coefficients[a]) - (b < 0 ? 0 : coefficients[b]);
    double variance = (a < 0 ? 0 : leftOut[a][a]) + (b < 0 ? 0 : leftOut[b][b]);
    if (a >= 0 && b >= 0) {
      variance -= 2 * leftOut[a][b];
    }
    double se = Math.sqrt(variance);
    double value = Math.exp(log);
    double p;
    Interval interval;
    if (data.machines().size() > MANY) {
      p = Tails.twoSided(log / se);
      double half = Tails.normalQuantile(confidence) * se;
      interval = new Interval(log - half, log + half);
    } else {
      RobustScore test = test(covariate, level, against, b);
      p = test.pValue(0);
      interval = test.interval(se, confidence);
    }
    return new Ratio(
        new Estimated(
            value,
            value * se,
            se,
            new Interval(Math.exp(interval.lower()), Math.exp(interval.upper()))),
        p);
  }

  /** Returns the p-value of {@link #ratio} alone, which saves the search for the interval. */
  double pValue(String covariate, String level, String against) {
    return test(covariate, level, against, names.indexOf(covariate + "=" + against)).pValue(0);
  }

  /** Returns the test of a level, with the one it stands against as the reference. */
  private RobustScore test(String covariate, String level, String against, int b) {
    Map<String, Covariate> turned = new LinkedHashMap<>(columns);
    Covariate.Categorical levels = (Covariate.Categorical) columns.get(covariate);
    List<String> order = new ArrayList<>(levels.levels());
    order.remove(against);
    order.add(0, against);
    int[] codes =
        Arrays.stream(levels.codes()).map(c -> order.indexOf(levels.levels().get(c))).toArray();
    turned.put(covariate, new Covariate.Categorical(order, codes));
    RateDesign design = RateDesign.of(codes.length, turned);
    double[][] x = new double[codes.length][design.names.size()];
    double[] best = new double[design.names.size()];
    for (int j = 0; j < best.length; j++) {
      String name = design.names.get(j);
      int own = names.indexOf(name);
      boolean ofCovariate = name.startsWith(covariate + "=");
      best[j] = (own < 0 ? 0 : coefficients[own]) - (ofCovariate && b >= 0 ? coefficients[b] : 0);
      for (int m = 0; m < x.length; m++) {
        x[m][j] = design.x[m][j] * design.spread[j]; // in its own unit, so that values are as told
      }
    }
    RateModel.Strata sweeps = new RateModel.Strata(data, x, strata);
    return new RobustScore(
        at -> {
          RateSweep.Sums s = sweeps.at(at);
          return new RobustScore.Slopes(
              s.logLikelihood(), s.score(), s.information(), s.residuals());
        },
        best,
        design.names.indexOf(covariate + "=" + level));
  }

  /**
   * Returns the Wald test of a covariate, all its levels together, by the sandwich: for many
   * machines.
   */
  public SignificanceTest waldTest(String covariate) {
    List<Integer> at = new ArrayList<>();
    for (int j = 0; j < names.size(); j++) {
      if (names.get(j).equals(covariate) || names.get(j).startsWith(covariate + "=")) {
        at.add(j);
      }
    }
    int n = at.size();
    double[][] block = new double[n][n];
    double[] b = new double[n];
    for (int k = 0; k < n; k++) {
      b[k] = coefficients[at.get(k)];
      for (int m = 0; m < n; m++) {
        block[k][m] = robust[at.get(k)][at.get(m)];
      }
    }
    double[] solved = RateModel.solve(block, b);
    double chiSquare = Double.NaN;
    if (solved != null) {
      chiSquare = 0;
      for (int k = 0; k < n; k++) {
        chiSquare += b[k] * solved[k];
      }
    }
    return Tails.test(chiSquare, n);
  }

  /** Returns the log of the greatest partial likelihood. */
  public double logLikelihood() {
    return logLikelihood;
  }

  /** Returns the log of the partial likelihood without covariates. */
  public double logLikelihoodWithout() {
    return alone;
  }

  private int index(String name) {
    int j = names.indexOf(name);
    if (j < 0) {
      throw new IllegalArgumentException("no coefficient " + name + ", expected one of " + names);
    }
    return j;
  }
}
