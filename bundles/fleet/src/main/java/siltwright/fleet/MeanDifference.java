package siltwright.fleet;

import siltwright.life.Interval;

/**
 * How far the mean cumulative functions of two fleets are apart at an hour.
 *
 * <pre>  z = (M1 - M2) / sqrt(Var M1 + Var M2)  </pre>
 *
 * <p>The fleets share no machine, so their robust variances add. Source: W. Nelson, Recurrent
 * Events Data Analysis, 2003, chapter 5 (from memory).
 *
 * @param atH the hour
 * @param first mean of the first fleet
 * @param second mean of the second fleet
 * @param difference first less second
 * @param standardError its standard error
 * @param interval its interval, symmetric
 * @param z difference over its standard error; not a number if neither fleet varied
 * @param pValue two-sided
 */
public record MeanDifference(
    double atH,
    double first,
    double second,
    double difference,
    double standardError,
    Interval interval,
    double z,
    double pValue) {
  /**
   * Compares.
   *
   * @param confidence of the interval, such as 0.95
   */
  public static MeanDifference of(
      MeanCumulative first, MeanCumulative second, double atH, double confidence) {
    double difference = first.meanAt(atH) - second.meanAt(atH);
    double se = Math.sqrt(first.varianceAt(atH) + second.varianceAt(atH));
    double half = Tails.normalQuantile(confidence) * se;
    double z = difference / se;
    return new MeanDifference(
        atH,
        first.meanAt(atH),
        second.meanAt(atH),
        difference,
        se,
        new Interval(difference - half, difference + half),
        z,
        Tails.twoSided(z));
  }
}
