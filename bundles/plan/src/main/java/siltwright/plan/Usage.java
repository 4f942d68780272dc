package siltwright.plan;

/**
 * How much a machine is used, and how well that is known.
 *
 * <pre>
 *   expected hours from day t to day u:   μ = r ∫ s
 *   variance of the hours run:            (σ_r/r)² μ² + φ μ
 * </pre>
 *
 * <p>The first part is that the machine's mean is not known exactly, the second that its days
 * differ.
 *
 * @param perDayH r, hours a day over a mean year
 * @param perDaySdH σ_r, its standard error, h
 * @param dispersionH φ, variance of the hours run, per hour, h
 * @param season how use varies over the year
 * @param ownShare how much of r comes from the machine's own readings; the rest from its class
 */
public record Usage(
    double perDayH, double perDaySdH, double dispersionH, Season season, double ownShare) {
  /** Returns the hours expected from one day to another, counted from 1970-01-01. */
  public double hours(double fromDay, double toDay) {
    return perDayH * season.meanDays(fromDay, toDay);
  }

  /** Returns the variance of the hours run where so many are expected, h². */
  public double variance(double expectedH) {
    double relative = perDaySdH / perDayH;
    return relative * relative * expectedH * expectedH + dispersionH * expectedH;
  }
}
