package siltwright.life;

import siltwright.life.ReferenceCases.Recipe;

/**
 * The invented records of the timing jobs, the same here, in the reference tests and in what is
 * timed beside: one minimal standard generator, a life and a removal hour a row.
 */
final class TimingRecords {
  private TimingRecords() {}

  /** 100 000 rows with three covariates: code, temp and mob. */
  static LifeData regression() {
    return AftModelTest.hundredThousand();
  }

  /** A million rows, all hours distinct. */
  static LifeData survival() {
    return Recipe.weibull(1_000_000, 777, 1.5, 5000, 0, 9000);
  }

  /** 200 rows, 111 of them failures. */
  static LifeData bootstrap() {
    return Recipe.weibull(200, 99, 1.8, 3000, 0, 6000);
  }
}
