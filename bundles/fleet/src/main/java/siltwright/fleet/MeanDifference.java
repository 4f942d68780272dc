package siltwright.fleet;

import siltwright.life.Interval;

/**
 * How far the mean cumulative functions of two fleets are apart at an hour.
 *
 * <p>The fleets share no machine, so their variances add.
 *
 * @param atH the hour
 * @param first mean of the first fleet
 * @param second mean of the second fleet
 * @param difference first less second
 * @param standardError its standard error
 * @param degreesOfFreedom those of Student's law that the test refers to; infinite for the normal
 *     law
 * @param interval its interval, symmetric
 * @param statistic difference over its standard error; not a number if neither fleet varied
 * @param pValue two-sided
 */
public record MeanDifference(
    double atH,
    double first,
    double second,
    double difference,
    double standardError,
    double degreesOfFreedom,
    Interval interval,
    double statistic,
    double pValue) {
  /**
   * Compares fleets of many machines: robust variances and the normal law. With fewer than some
   * hundred machines it says "differs" too often.
   *
   * <p>Source: W. Nelson, Recurrent Events Data Analysis, 2003, chapter 5 (from memory).
   *
   * @param confidence of the interval, such as 0.95
   */
  public static MeanDifference ofMany(
      MeanCumulative first, MeanCumulative second, double atH, double confidence) {
    return of(
        first,
        second,
        atH,
        Math.sqrt(first.varianceAt(atH) + second.varianceAt(atH)),
        Double.POSITIVE_INFINITY,
        confidence);
  }

  /**
   * Compares fleets of any size: variances for few machines, and Student's law with the degrees of
   * freedom that Welch and Satterthwaite give, taking for each fleet the machines at risk on
   * average over the events.
   *
   * <pre>  (V1 + V2)² / (V1²/(n1 - 1) + V2²/(n2 - 1)),   n = M / sum of d/r²  </pre>
   *
   * <p>How well it holds its level stands in docs/compare-level.md. Source: F. E. Satterthwaite,
   * Biometrics Bulletin 2 (1946) 110-114 (from memory); n is an own choice.
   */
  public static MeanDifference of(
      MeanCumulative first, MeanCumulative second, double atH, double confidence) {
    double v1 = first.smallFleetVarianceAt(atH);
    double v2 = second.smallFleetVarianceAt(atH);
    double below = part(v1, first.machinesAt(atH)) + part(v2, second.machinesAt(atH));
    return of(first, second, atH, Math.sqrt(v1 + v2), (v1 + v2) * (v1 + v2) / below, confidence);
  }

  private static double part(double variance, double machines) {
    return variance == 0 ? 0 : variance * variance / Math.max(1, machines - 1);
  }

  private static MeanDifference of(
      MeanCumulative first,
      MeanCumulative second,
      double atH,
      double error,
      double degreesOfFreedom,
      double confidence) {
    double difference = first.meanAt(atH) - second.meanAt(atH);
    boolean many = Double.isInfinite(degreesOfFreedom);
    double half =
        error
            * (many
                ? Tails.normalQuantile(confidence)
                : Tails.studentQuantile(confidence, degreesOfFreedom));
    double statistic = difference / error;
    return new MeanDifference(
        atH,
        first.meanAt(atH),
        second.meanAt(atH),
        difference,
        error,
        degreesOfFreedom,
        new Interval(difference - half, difference + half),
        statistic,
        many ? Tails.twoSided(statistic) : Tails.twoSided(statistic, degreesOfFreedom));
  }
}
