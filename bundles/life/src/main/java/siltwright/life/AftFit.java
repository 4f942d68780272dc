package siltwright.life;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Map;

/** A fitted regression of life on covariates. Immutable. */
public final class AftFit {
  private final LifeFamily family;
  private final List<String> covariates;
  private final List<String> names;
  private final Map<String, Covariate> columns;
  private final double[] coefficients;
  private final double sigma;
  private final double[][] covariance;
  private final double logLikelihood;
  private final LifeFit withoutCovariates;
  private final Maximum maximum;
  private final double[] mean;
  private final double[] spread;
  private final LogTimeLikelihood likelihood;

  AftFit(
      LifeFamily family,
      LifeData data,
      List<String> covariates,
      Design design,
      LogTimeLikelihood likelihood,
      Maximum maximum,
      LifeFit withoutCovariates) {
    this.family = family;
    this.covariates = List.copyOf(covariates);
    this.names = List.copyOf(design.names);
    this.columns = data.covariates();
    this.withoutCovariates = withoutCovariates;
    this.likelihood = likelihood;
    this.maximum = maximum;
    this.mean = design.mean;
    this.spread = design.spread;
    this.logLikelihood = maximum.logLikelihood();
    int p = design.columns;
    sigma = Math.exp(maximum.theta()[p]);
    coefficients = new double[p];
    coefficients[0] = maximum.theta()[0];
    for (int j = 1; j < p; j++) {
      coefficients[j] = maximum.theta()[j] / design.spread[j];
      coefficients[0] -= design.mean[j] * coefficients[j];
    }
    covariance = inOwnUnits(maximum.covariance(), design);
  }

  /**
   * Returns the covariance back from centred and scaled columns: C = A V A', A the identity but for
   * 1/spread on the diagonal and -mean/spread in the intercept's row.
   */
  private static double[][] inOwnUnits(double[][] standardised, Design design) {
    double[][] c = LifeFit.copy(standardised);
    int p = design.columns;
    for (double[] row : c) { // V A'
      for (int j = 1; j < p; j++) {
        row[j] /= design.spread[j];
        row[0] -= design.mean[j] * row[j];
      }
    }
    for (int k = 0; k < c.length; k++) { // A (V A')
      for (int j = 1; j < p; j++) {
        c[j][k] /= design.spread[j];
        c[0][k] -= design.mean[j] * c[j][k];
      }
    }
    return c;
  }

  /** Returns the law. */
  public LifeFamily family() {
    return family;
  }

  /** Returns the covariates' names. */
  public List<String> covariates() {
    return covariates;
  }

  /** Returns the coefficients' names: {@code (Intercept)}, a number's name, or name=level. */
  public List<String> names() {
    return names;
  }

  /** Returns the coefficients on ln hours, in the order of {@link #names}. */
  public double[] coefficients() {
    return coefficients.clone();
  }

  /** Returns sigma, 1/shape of a Weibull; 1 for an exponential. */
  public double sigma() {
    return sigma;
  }

  /** Returns 1/sigma, the Weibull shape. */
  public double shape() {
    return 1 / sigma;
  }

  /** Returns the covariance of the coefficients and, last and unless it is held, ln sigma. */
  public double[][] covariance() {
    return LifeFit.copy(covariance);
  }

  /** Returns the standard error of ln sigma, 0 where it is held. */
  public double logSigmaStandardError() {
    int p = coefficients.length;
    return covariance.length > p ? Math.sqrt(covariance[p][p]) : 0;
  }

  /** Returns the greatest log likelihood, of T in hours. */
  public double logLikelihood() {
    return logLikelihood;
  }

  /** Returns Akaike's criterion. */
  public double aic() {
    return 2 * covariance.length - 2 * logLikelihood;
  }

  /** Returns the fit without covariates. */
  public LifeFit withoutCovariates() {
    return withoutCovariates;
  }

  /** Returns the likelihood-ratio test of all covariates together. */
  public SignificanceTest likelihoodRatioTest() {
    return SignificanceTest.of(
        2 * (logLikelihood - withoutCovariates.logLikelihood()), coefficients.length - 1);
  }

  /** Returns a coefficient with its error and Wald interval; its scale is ln hours itself. */
  public Estimated coefficient(String name, double confidence) {
    int j = index(name);
    double se = Math.sqrt(covariance[j][j]);
    double half = LifeFit.normalQuantile(confidence) * se;
    double b = coefficients[j];
    return new Estimated(b, se, se, new Interval(b - half, b + half));
  }

  /**
   * Returns the profile-likelihood interval of a coefficient, on ln hours as it is.
   *
   * @param name as {@link #coefficient} takes it
   * @param confidence such as 0.95
   */
  public Interval profileInterval(String name, double confidence) {
    int j = index(name);
    if (j == 0) {
      return profile(new double[coefficients.length], 0, 0, confidence);
    }
    Interval i = profile(mean, 0, j, confidence);
    return new Interval(i.lower() / spread[j], i.upper() / spread[j]);
  }

  /** Returns the profile-likelihood interval of sigma, unless it is held. */
  public Interval sigmaProfileInterval(double confidence) {
    if (family == LifeFamily.EXPONENTIAL) {
      throw new IllegalStateException("the sigma of exponential lives is held at 1");
    }
    Interval i = profile(mean, 0, coefficients.length, confidence);
    return new Interval(Math.exp(i.lower()), Math.exp(i.upper()));
  }

  /** Returns the profile-likelihood interval of the life, h, that {@link #bLife} tells. */
  public Interval bLifeProfileInterval(Map<String, ?> at, double failedShare, double confidence) {
    Interval i = profile(row(at), family.standardQuantile(failedShare), 0, confidence);
    return new Interval(Math.exp(i.lower()), Math.exp(i.upper()));
  }

  /**
   * Returns the profile log likelihood of a coefficient, less its maximum.
   *
   * @param name as {@link #coefficient} takes it, but not the intercept's
   * @param values values of the coefficient
   * @return as many; not a number where the others find no maximum
   */
  public double[] profileBelowMaximum(String name, double[] values) {
    int j = index(name);
    double[] scaled = Arrays.stream(values).map(v -> v * spread[j]).toArray();
    return profile(mean, 0, j).belowMaximum(scaled);
  }

  private Interval profile(double[] x, double quantile, int held, double confidence) {
    return profile(x, quantile, held).interval(confidence);
  }

  private AftProfile profile(double[] x, double quantile, int held) {
    double[] shift = new double[coefficients.length];
    for (int j = 1; j < shift.length; j++) {
      shift[j] = (x[j] - mean[j]) / spread[j];
    }
    return new AftProfile(likelihood.fork(), maximum, shift, quantile, held);
  }

  /** Returns the factor on life of one more unit, or of a level against the reference. */
  public Estimated lifeFactor(String name, double confidence) {
    Estimated b = coefficient(name, confidence);
    return positive(b.value(), b.standardError(), confidence);
  }

  /** Returns the factor on the hazard of a Weibull or exponential life. */
  public double hazardRatio(String name) {
    if (family == LifeFamily.LOGNORMAL) {
      throw new IllegalStateException("the hazards of lognormal lives are not proportional");
    }
    return Math.exp(-coefficients[index(name)] / sigma);
  }

  /**
   * Returns the exponent m of life against counts, life ~ counts^-m, from the coefficient of a
   * cleanliness in ISO 4406 numbers (log2 of counts).
   *
   * <pre>  m = -b / ln 2  </pre>
   */
  public Estimated countExponent(String name, double confidence) {
    Estimated b = coefficient(name, confidence);
    double ln2 = Math.log(2);
    return new Estimated(
        -b.value() / ln2,
        b.standardError() / ln2,
        b.standardError() / ln2,
        new Interval(-b.wald().upper() / ln2, -b.wald().lower() / ln2));
  }

  /** Returns the two-sided p-value of a coefficient against zero. */
  public double pValue(String name) {
    int j = index(name);
    return 2 * NormalTail.upper(Math.abs(coefficients[j]) / Math.sqrt(covariance[j][j]));
  }

  /** Returns the Wald test of a covariate, all its levels together. */
  public SignificanceTest waldTest(String covariate) {
    List<Integer> at = new ArrayList<>();
    for (int j = 1; j < names.size(); j++) {
      if (names.get(j).equals(covariate) || names.get(j).startsWith(covariate + "=")) {
        at.add(j);
      }
    }
    if (at.isEmpty()) {
      throw new IllegalArgumentException(
          "no covariate " + covariate + ", expected one of " + covariates);
    }
    int n = at.size();
    double[] block = new double[n * n];
    double[] b = new double[n];
    for (int k = 0; k < n; k++) {
      b[k] = coefficients[at.get(k)];
      for (int m = 0; m < n; m++) {
        block[k * n + m] = covariance[at.get(k)][at.get(m)];
      }
    }
    double[] solved = Cholesky.of(block, n, n, 1, 0).solve(b);
    double chiSquare = 0;
    for (int k = 0; k < n; k++) {
      chiSquare += b[k] * solved[k];
    }
    return SignificanceTest.of(chiSquare, n);
  }

  /**
   * Returns the life, h, that a share does not reach at given covariates.
   *
   * @param at a number or a level's name for each covariate
   */
  public Estimated bLife(Map<String, ?> at, double failedShare, double confidence) {
    double[] x = row(at);
    double z = family.standardQuantile(failedShare);
    int p = coefficients.length;
    double[] d = new double[covariance.length];
    System.arraycopy(x, 0, d, 0, p);
    if (d.length > p) {
      d[p] = sigma * z;
    }
    double variance = 0;
    for (int i = 0; i < d.length; i++) {
      for (int j = 0; j < d.length; j++) {
        variance += d[i] * d[j] * covariance[i][j];
      }
    }
    return positive(mu(x) + sigma * z, Math.sqrt(variance), confidence);
  }

  /** Returns the share that survives an age, h, at given covariates. */
  public double reliability(Map<String, ?> at, double hoursH) {
    return family.standardSurvival((Math.log(hoursH) - mu(row(at))) / sigma);
  }

  /**
   * Returns each row's standardised residual (ln t - x'b)/sigma, of its upper bound if it failed
   * and its lower bound if not; with the law they follow its standard Z, censored where the row is.
   */
  public double[] standardisedResiduals(LifeData data) {
    double[] z = new double[data.rows()]; // first x'b
    Arrays.fill(z, coefficients[0]);
    int j = 1;
    for (String name : covariates) {
      Covariate c = Design.column(data, name);
      if (c instanceof Covariate.Numeric numeric) {
        double b = coefficients[j++];
        double[] values = numeric.values();
        for (int i = 0; i < z.length; i++) {
          z[i] += b * values[i];
        }
      } else if (c instanceof Covariate.Categorical levels) {
        int[] codes = levels.codes();
        for (int i = 0; i < z.length; i++) {
          z[i] += codes[i] == 0 ? 0 : coefficients[j + codes[i] - 1];
        }
        j += levels.levels().size() - 1;
      }
    }
    for (int i = 0; i < z.length; i++) {
      double t = data.failed(i) ? data.upperH(i) : data.lowerH(i);
      z[i] = (Math.log(t) - z[i]) / sigma;
    }
    return z;
  }

  private double mu(double[] x) {
    double mu = 0;
    for (int j = 0; j < x.length; j++) {
      mu += coefficients[j] * x[j];
    }
    return mu;
  }

  private double[] row(Map<String, ?> at) {
    double[] x = new double[coefficients.length];
    x[0] = 1;
    int j = 1;
    for (String name : covariates) {
      Object value = at.get(name);
      if (columns.get(name) instanceof Covariate.Categorical levels) {
        int code = value instanceof String s ? levels.levels().indexOf(s) : -1;
        if (code < 0) {
          throw new IllegalArgumentException(
              name + " is " + value + ", expected one of " + levels.levels());
        }
        for (int k = 1; k < levels.levels().size(); k++) {
          x[j++] = k == code ? 1 : 0;
        }
      } else if (value instanceof Number number) {
        x[j++] = number.doubleValue();
      } else {
        throw new IllegalArgumentException(name + " is " + value + ", expected a number");
      }
    }
    return x;
  }

  private int index(String name) {
    int j = names.indexOf(name);
    if (j < 0) {
      throw new IllegalArgumentException("no coefficient " + name + ", expected one of " + names);
    }
    return j;
  }

  private static Estimated positive(double log, double logError, double confidence) {
    double half = LifeFit.normalQuantile(confidence) * logError;
    double value = Math.exp(log);
    return new Estimated(
        value,
        value * logError,
        logError,
        new Interval(Math.exp(log - half), Math.exp(log + half)));
  }
}
