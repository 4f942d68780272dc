package siltwright.life;

/**
 * The coordinate in which a quantity's intervals are made: plain mu, ln sigma, a log life, or the
 * standardised time of an age. Wald intervals are symmetric in it, and profiles are taken along it.
 *
 * <p>All but ln sigma lie on a curve mu = c - k(tau), c held while tau is free.
 */
final class Coordinate {
  private final Quantity quantity;
  private final LifeFamily family;

  Coordinate(Quantity quantity, LifeFamily family) {
    this.quantity = quantity;
    this.family = family;
  }

  /** Returns whether the coordinate is ln sigma itself. */
  boolean isTau() {
    return quantity == Quantity.SHAPE || quantity == Quantity.SIGMA;
  }

  /** Returns the coordinate at parameters. */
  double at(double mu, double tau) {
    double sigma = Math.exp(tau);
    if (isTau()) {
      return tau;
    }
    if (quantity instanceof Quantity.BLife b) {
      return mu + sigma * family.standardQuantile(b.failedShare());
    }
    if (quantity instanceof Quantity.Reliability r) {
      return (Math.log(r.hoursH()) - mu) / sigma;
    }
    return quantity == Quantity.MEAN_LIFE ? mu + family.logMean(sigma) : mu;
  }

  /** Returns the derivatives of the coordinate by mu and by tau. */
  double[] gradient(double mu, double tau) {
    double sigma = Math.exp(tau);
    if (isTau()) {
      return new double[] {0, 1};
    }
    if (quantity instanceof Quantity.BLife b) {
      return new double[] {1, sigma * family.standardQuantile(b.failedShare())};
    }
    if (quantity instanceof Quantity.Reliability) {
      return new double[] {-1 / sigma, -at(mu, tau)};
    }
    return new double[] {1, quantity == Quantity.MEAN_LIFE ? family.logMeanSlope(sigma) : 0};
  }

  /** Returns the quantity, in its own unit, at a coordinate. */
  double value(double c) {
    if (quantity == Quantity.MU) {
      return c;
    }
    if (quantity == Quantity.SHAPE) {
      return Math.exp(-c);
    }
    return quantity instanceof Quantity.Reliability ? family.standardSurvival(c) : Math.exp(c);
  }

  /** Returns the derivative of {@link #value}. */
  double slope(double c) {
    if (quantity == Quantity.MU) {
      return 1;
    }
    if (quantity == Quantity.SHAPE) {
      return -Math.exp(-c);
    }
    return quantity instanceof Quantity.Reliability ? -family.standardDensity(c) : Math.exp(c);
  }

  /** Returns the coordinate of a value of the quantity. */
  double of(double value) {
    if (quantity == Quantity.MU) {
      return value;
    }
    if (quantity == Quantity.SHAPE) {
      return -Math.log(value);
    }
    return quantity instanceof Quantity.Reliability
        ? family.standardQuantile(1 - value)
        : Math.log(value);
  }

  /** Returns whether the quantity falls as the coordinate rises. */
  boolean falls() {
    return quantity == Quantity.SHAPE || quantity instanceof Quantity.Reliability;
  }

  /** Returns mu, and its first and second derivative by tau, on the curve of a coordinate. */
  double[] curve(double c, double tau) {
    double sigma = Math.exp(tau);
    if (quantity instanceof Quantity.BLife b) {
      double k = sigma * family.standardQuantile(b.failedShare());
      return new double[] {c - k, -k, -k};
    }
    if (quantity instanceof Quantity.Reliability r) {
      double k = sigma * c;
      return new double[] {Math.log(r.hoursH()) - k, -k, -k};
    }
    if (quantity == Quantity.MEAN_LIFE) {
      return new double[] {
        c - family.logMean(sigma), -family.logMeanSlope(sigma), -family.logMeanCurvature(sigma)
      };
    }
    return new double[] {c, 0, 0};
  }
}
