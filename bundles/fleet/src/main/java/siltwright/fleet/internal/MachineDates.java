package siltwright.fleet.internal;

import java.time.DateTimeException;
import java.time.LocalDate;
import java.util.Arrays;
import java.util.Comparator;
import siltwright.fleet.BeforeAfter;

/**
 * Which day it is at an hour of a machine, from rows with both: in a straight line between them,
 * and on in the mean slope beyond.
 */
final class MachineDates implements BeforeAfter.Calendar {
  private final double[][] hours;
  private final double[][] days;

  private MachineDates(double[][] hours, double[][] days) {
    this.hours = hours;
    this.days = days;
  }

  /** Returns the day of a date from 1970 on, or no number if the text is none. */
  static double day(String text) {
    try {
      return LocalDate.parse(text).toEpochDay();
    } catch (DateTimeException e) {
      return Double.NaN;
    }
  }

  /**
   * Returns the dates of machines; one with a single date goes on from it as the others do on
   * average. Null if a machine has no date, or none has two.
   *
   * @param machine machine of each row
   * @param atH hour of each row
   * @param day day of each row, not a number where it has none; not falling with the hours
   */
  static MachineDates of(int machines, int[] machine, double[] atH, double[] day) {
    double[][] hours = new double[machines][0];
    double[][] days = new double[machines][0];
    Integer[] order = new Integer[machine.length];
    Arrays.setAll(order, i -> i);
    Arrays.sort(
        order,
        Comparator.<Integer>comparingInt(i -> machine[i])
            .thenComparingDouble(i -> atH[i])
            .thenComparingDouble(i -> day[i]));
    for (int i : order) {
      int m = machine[i];
      int n = hours[m].length;
      if (!Double.isNaN(day[i]) && (n == 0 || hours[m][n - 1] < atH[i])) {
        hours[m] = Arrays.copyOf(hours[m], n + 1);
        days[m] = Arrays.copyOf(days[m], n + 1);
        hours[m][n] = atH[i];
        days[m][n] = day[i];
      }
    }
    double allHours = 0;
    double allDays = 0;
    for (int m = 0; m < machines; m++) {
      int n = days[m].length;
      if (n == 0) {
        return null;
      }
      allHours += hours[m][n - 1] - hours[m][0];
      allDays += days[m][n - 1] - days[m][0];
    }
    if (!(allDays > 0)) {
      return null;
    }
    for (int m = 0; m < machines; m++) {
      int n = days[m].length;
      if (!(days[m][n - 1] > days[m][0])) {
        hours[m] = new double[] {hours[m][0], hours[m][0] + allHours / allDays};
        days[m] = new double[] {days[m][0], days[m][0] + 1};
      }
    }
    return new MachineDates(hours, days);
  }

  @Override
  public double day(int machine, double hoursH) {
    return along(hours[machine], days[machine], hoursH);
  }

  /** Returns the hour of a machine on a day. */
  double hourH(int machine, double day) {
    return along(days[machine], hours[machine], day);
  }

  private static double along(double[] xs, double[] ys, double x) {
    int n = xs.length;
    double slope = (ys[n - 1] - ys[0]) / (xs[n - 1] - xs[0]);
    if (x <= xs[0]) {
      return ys[0] + slope * (x - xs[0]);
    }
    if (x >= xs[n - 1]) {
      return ys[n - 1] + slope * (x - xs[n - 1]);
    }
    int i = Arrays.binarySearch(xs, x);
    int before = i >= 0 ? i : -i - 2;
    if (i >= 0 || xs[before + 1] == xs[before]) {
      return ys[before];
    }
    return ys[before]
        + (ys[before + 1] - ys[before]) * (x - xs[before]) / (xs[before + 1] - xs[before]);
  }
}
