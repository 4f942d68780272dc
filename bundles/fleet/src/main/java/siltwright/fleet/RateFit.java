package siltwright.fleet;

import java.util.ArrayList;
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
  private final double alone;
  private final double logLikelihood;

  RateFit(
      RateDesign design,
      Map<String, Covariate> covariates,
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
    for (int j = 0; j < p; j++) {
      for (int k = 0; k < p; k++) {
        double scale = design.spread[j] * design.spread[k];
        robust[j][k] /= scale;
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

  /** Returns the error of a coefficient, the machine as its unit. */
  public double standardError(String name) {
    int j = index(name);
    return Math.sqrt(robust[j][j]);
  }

  /** Returns the error that would hold if events came by chance alone. */
  public double standardErrorByChance(String name) {
    int j = index(name);
    return Math.sqrt(naive[j][j]);
  }

  /** Returns the factor on the rate of one more unit, or of a level against the reference. */
  public Estimated rateRatio(String name, double confidence) {
    int j = index(name);
    double se = Math.sqrt(robust[j][j]);
    return ratio(coefficients[j], se, confidence);
  }

  /** Returns the factor on the rate of one level against another, either may be the reference. */
  public Estimated rateRatio(String covariate, String level, String against, double confidence) {
    int a = names.indexOf(covariate + "=" + level);
    int b = names.indexOf(covariate + "=" + against);
    double log = (a < 0 ? 0 : coefficients[a]) - (b < 0 ? 0 : coefficients[b]);
    double variance = (a < 0 ? 0 : robust[a][a]) + (b < 0 ? 0 : robust[b][b]);
    if (a >= 0 && b >= 0) {
      variance -= 2 * robust[a][b];
    }
    return ratio(log, Math.sqrt(variance), confidence);
  }

  private static Estimated ratio(double log, double se, double confidence) {
    double half = Tails.normalQuantile(confidence) * se;
    double value = Math.exp(log);
    return new Estimated(
        value, value * se, se, new Interval(Math.exp(log - half), Math.exp(log + half)));
  }

  /** Returns the two-sided p-value of a coefficient against zero. */
  public double pValue(String name) {
    return Tails.twoSided(coefficients[index(name)] / standardError(name));
  }

  /** Returns the Wald test of a covariate, all its levels together. */
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
