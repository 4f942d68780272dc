package siltwright.model;

import java.util.Arrays;
import java.util.Map;
import java.util.Optional;

/** The laws of life that are always there; Weibull holds where a file names none. */
public enum BasicLife implements LifeLaw {
  /** ln of life has the smallest extreme value distribution. */
  WEIBULL("weibull", "S = exp(-u^shape)") {
    @Override
    Survival of(double shape) {
      return Survival.weibull(shape);
    }
  },
  /** ln of life is normal with the standard deviation 1/shape; the scale is the median. */
  LOGNORMAL("lognormal", "S = 1 - Φ(shape ln u): the scale is the median, 1/shape the spread") {
    @Override
    Survival of(double shape) {
      return Survival.sampled(u -> logNormalHazard(shape * Math.log(u)));
    }
  };

  private static final double SERIES_ENDS = 3;
  private static final int STEPS = 60;

  private final String id;
  private final String meaning;

  BasicLife(String id, String meaning) {
    this.id = id;
    this.meaning = meaning;
  }

  /** Returns the one of a name. */
  static Optional<BasicLife> named(String id) {
    return Arrays.stream(values()).filter(l -> l.id.equals(id)).findFirst();
  }

  /** Returns the survival of a shape. */
  abstract Survival of(double shape);

  @Override
  public String id() {
    return id;
  }

  @Override
  public String meaning() {
    return meaning;
  }

  @Override
  public Survival life(Component component, Map<String, Double> numbers) {
    return of(component.life().shape());
  }

  /**
   * Returns -ln(1 - Φ(z)).
   *
   * <p>Source: Abramowitz and Stegun, Handbook of Mathematical Functions (1964), 26.2.11 up to |z|
   * = 3 and the continued fraction 26.2.14 beyond.
   */
  private static double logNormalHazard(double z) {
    double logDensity = -z * z / 2 - Math.log(2 * Math.PI) / 2;
    if (Math.abs(z) > SERIES_ENDS) {
      double fraction = Math.abs(z);
      for (int k = STEPS; k > 0; k--) {
        fraction = Math.abs(z) + k / fraction;
      }
      double logTail = logDensity - Math.log(fraction);
      return z > 0 ? -logTail : -Math.log1p(-Math.exp(logTail));
    }
    double term = z;
    double sum = z;
    for (int k = 1; k < STEPS; k++) {
      term *= z * z / (2 * k + 1);
      sum += term;
    }
    return -Math.log(0.5 - Math.exp(logDensity) * sum);
  }
}
