package siltwright.life;

/** Why records carry no estimate. */
public enum Reason {
  /** Nothing failed. */
  NO_FAILURES,
  /** Every component had failed at its first inspection. */
  NONE_SEEN_ALIVE,
  /** The only failure is the last thing that happened: any steeper law fits better. */
  SINGLE_FAILURE_AT_LARGEST_TIME,
  /** All failures fall on one hour and nothing outlived it. */
  FAILURES_TIED_AT_LARGEST_TIME,
  /** One life would satisfy every inspection record. */
  ONE_LIFE_FITS_ALL_INSPECTIONS,
  /** Failed inspections are no older than the passed ones: the shape falls to zero. */
  NO_AGEING_IN_INSPECTIONS,
  /** A level of a covariate has no failures: its effect is unbounded. */
  LEVEL_WITHOUT_FAILURES,
  /** A level of a covariate was never seen alive: its effect is unbounded. */
  LEVEL_NEVER_SEEN_ALIVE,
  /** Covariates determine each other. */
  COLLINEAR,
  /** A combination of covariates separates failures from survivors. */
  SEPARATED,
  /** Fewer different failures than parameters: the model passes through them all. */
  TOO_FEW_FAILURES,
  /** No failure-free time has a local maximum of the likelihood. */
  NO_LOCAL_MAXIMUM,
  /** The method does not hold for this censoring. */
  UNSUITABLE_CENSORING,
  /** The likelihood keeps rising towards the edge of its parameters. */
  UNBOUNDED_LIKELIHOOD
}
