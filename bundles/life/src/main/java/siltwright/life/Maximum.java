package siltwright.life;

/**
 * A maximum of the likelihood.
 *
 * @param theta coefficients, then ln sigma
 * @param logLikelihood at the maximum
 * @param covariance inverse of the observed information in the free parameters
 */
record Maximum(double[] theta, double logLikelihood, double[][] covariance) {
  /** Above so many rows a climb over a part of them first finds where to start. */
  private static final int MANY_ROWS = 40_000;

  private static final int PART_ROWS = 4_000;

  /**
   * Climbs from a start.
   *
   * @param likelihood what to climb
   * @param start coefficients and ln sigma
   * @param freeSigma whether ln sigma may move
   * @return the maximum, or null if the climb ran off or the summit is flat
   */
  static Maximum climb(LogTimeLikelihood likelihood, double[] start, boolean freeSigma) {
    int rows = likelihood.rows();
    if (rows > MANY_ROWS) {
      Maximum part = climb(likelihood.every(rows / PART_ROWS), start, freeSigma);
      if (part != null) {
        Maximum whole = climbAll(likelihood, part.theta, freeSigma);
        if (whole != null) {
          return whole;
        }
      }
    }
    return climbAll(likelihood, start, freeSigma);
  }

  private static Maximum climbAll(LogTimeLikelihood likelihood, double[] start, boolean freeSigma) {
    Climb climb = new Climb(start, freeSigma);
    double[] g = new double[start.length];
    double[] h = new double[start.length * start.length];
    while (climb.wanted() != null) {
      climb.tell(likelihood.at(climb.wanted(), g, h), g, h);
    }
    return climb.maximum();
  }
}
