package siltwright.life;

import java.util.List;

/**
 * Accelerated-failure-time regression: covariates multiply life.
 *
 * <pre>  ln T = b0 + b1 x1 + ... + sigma Z  </pre>
 *
 * <p>exp(b) is the factor on life for one more unit of x. With cleanliness as log2 of counts (one
 * ISO 4406 number is one doubling) exp(b) is life per code, and -b/ln 2 the exponent of life
 * against counts. A categorical covariate compares each level with its first.
 *
 * <p>Source: J. F. Lawless, Statistical Models and Methods for Lifetime Data, 1982, chapter 6 (from
 * memory).
 */
public final class AftModel {
  /** A standardised effect this large with an error this large is no estimate. */
  private static final double RUNAWAY_EFFECT = 8;

  private static final double RUNAWAY_ERROR = 300;

  private AftModel() {}

  /**
   * Fits the regression.
   *
   * @param covariates names of columns of the data, at least one, in the order wanted
   * @return the fit, or why the records carry none: a level without failures, covariates that
   *     determine each other, too few failures
   * @throws IllegalArgumentException if a name is no covariate of the data or none is given
   */
  public static Estimate<AftFit> fit(LifeData data, LifeFamily family, List<String> covariates) {
    Estimate<LifeFit> alone = LifeFitting.fit(data, family);
    return alone.exists()
        ? fit(data, alone.get(), covariates)
        : new Estimate.Refused<>(alone.refusal());
  }

  /**
   * Fits the regression beside the fit of the same records and law without covariates.
   *
   * @param alone that fit
   * @return as above
   * @throws IllegalArgumentException as above
   */
  public static Estimate<AftFit> fit(LifeData data, LifeFit alone, List<String> covariates) {
    if (covariates.isEmpty()) {
      throw new IllegalArgumentException("a regression needs at least one covariate");
    }
    LifeFamily family = alone.family();
    for (String name : covariates) {
      Refusal refusal = oneSided(data, name);
      if (refusal != null) {
        return new Estimate.Refused<>(refusal);
      }
    }
    Design design = Design.of(data, covariates);
    String collinear = design.collinearity(data);
    if (collinear != null) {
      return Estimate.refused(
          Reason.COLLINEAR, collinear, "Their effects can't be told apart; leave one of them out.");
    }
    LogTimeLikelihood likelihood =
        LogTimeLikelihood.of(family, data, null, design.x, design.columns, 0);
    double[] start = new double[design.columns + 1];
    start[0] = alone.mu();
    start[design.columns] = Math.log(alone.sigma());
    boolean freeSigma = family != LifeFamily.EXPONENTIAL;
    Maximum maximum = Maximum.climb(likelihood, start, freeSigma);
    if (maximum == null) {
      return data.failures() <= design.columns
          ? Estimate.refused(
              Reason.TOO_FEW_FAILURES,
              "There are no more failures than coefficients: the model passes through them all.",
              "Use fewer covariates.")
          : separated("A combination of " + covariates + " separates failures from survivors.");
    }
    double sigma = Math.exp(maximum.theta()[design.columns]);
    for (int j = 1; j < design.columns; j++) {
      double effect = Math.abs(maximum.theta()[j]) / sigma;
      double error = Math.sqrt(maximum.covariance()[j][j]) / sigma;
      if (effect > RUNAWAY_EFFECT && error > RUNAWAY_ERROR) {
        return separated(design.names.get(j) + " separates failures from survivors.");
      }
    }
    return Estimate.found(new AftFit(family, data, covariates, design, likelihood, maximum, alone));
  }

  private static Estimate<AftFit> separated(String why) {
    return Estimate.refused(
        Reason.SEPARATED,
        why + " Its effect is unbounded.",
        "Leave it out, or join it with a neighbour.");
  }

  /**
   * Returns why a covariate's effect is unbounded: one of its few values only failed or only ran.
   */
  private static Refusal oneSided(LifeData data, String name) {
    Covariate c = Design.column(data, name);
    List<String> levels;
    int[] codes;
    if (c instanceof Covariate.Categorical categorical) {
      levels = categorical.levels();
      codes = categorical.codes();
    } else {
      double[] v = ((Covariate.Numeric) c).values();
      double first = v[0];
      double second = Double.NaN;
      codes = new int[v.length];
      for (int i = 0; i < v.length; i++) {
        if (v[i] != first) {
          if (!Double.isNaN(second) && v[i] != second) {
            return null; // more than two values: judged by the climb
          }
          second = v[i];
          codes[i] = 1;
        }
      }
      if (Double.isNaN(second)) {
        return null; // constant: judged as collinear
      }
      levels = List.of(Double.toString(first), Double.toString(second));
    }
    boolean[] ran = new boolean[levels.size()];
    boolean[] failed = new boolean[levels.size()];
    boolean[] present = new boolean[levels.size()];
    for (int i = 0; i < codes.length; i++) {
      present[codes[i]] = true;
      failed[codes[i]] |= data.failed(i);
      ran[codes[i]] |= data.lowerH(i) > data.entryH(i);
    }
    for (int k = 0; k < levels.size(); k++) {
      if (!(present[k] && failed[k] && ran[k])) {
        return oneSided(name + " " + levels.get(k), present[k], failed[k]);
      }
    }
    return null;
  }

  private static Refusal oneSided(String level, boolean present, boolean failed) {
    if (!present) {
      return new Refusal(Reason.COLLINEAR, level + " occurs in no row.", "Leave the level out.");
    }
    if (!failed) {
      return new Refusal(
          Reason.LEVEL_WITHOUT_FAILURES,
          "Nothing failed where " + level + ": its effect on life is unbounded.",
          "The other rows can be fitted alone; for these a lower bound of life at an assumed shape"
              + " can be given.");
    }
    return new Refusal(
        Reason.LEVEL_NEVER_SEEN_ALIVE,
        "Everything had failed by its first inspection where "
            + level
            + ": its effect on life is unbounded.",
        "The other rows can be fitted alone.");
  }
}
