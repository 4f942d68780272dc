package siltwright.life;

/** A quantity of a fitted law that has an estimate and intervals. */
public sealed interface Quantity {
  /** Time: Weibull scale, exponential mean, lognormal median; exp(mu), h. */
  Quantity SCALE = Parameter.SCALE;

  /** Weibull shape, 1/sigma. */
  Quantity SHAPE = Parameter.SHAPE;

  /** Mean of ln T, ln h. */
  Quantity MU = Parameter.MU;

  /** Standard deviation of the lognormal's ln T; 1/shape of a Weibull. */
  Quantity SIGMA = Parameter.SIGMA;

  /** Mean life, h. */
  Quantity MEAN_LIFE = Parameter.MEAN_LIFE;

  /** The quantities without an argument. */
  enum Parameter implements Quantity {
    /** exp(mu). */
    SCALE,
    /** 1/sigma. */
    SHAPE,
    /** mu. */
    MU,
    /** sigma. */
    SIGMA,
    /** Mean life. */
    MEAN_LIFE
  }

  /**
   * The life that a share of components does not reach, h; 0.1 gives the B10 life.
   *
   * @param failedShare between 0 and 1
   */
  record BLife(double failedShare) implements Quantity {
    /** Checks the share. */
    public BLife {
      if (!(failedShare > 0 && failedShare < 1)) {
        throw new IllegalArgumentException(
            "failed share is " + failedShare + ", expected between 0 and 1");
      }
    }
  }

  /**
   * The share that survives an age.
   *
   * @param hoursH age, h, above 0
   */
  record Reliability(double hoursH) implements Quantity {
    /** Checks the age. */
    public Reliability {
      if (!(hoursH > 0 && hoursH < Double.POSITIVE_INFINITY)) {
        throw new IllegalArgumentException("age is " + hoursH + " h, expected above 0 h, finite");
      }
    }
  }
}
