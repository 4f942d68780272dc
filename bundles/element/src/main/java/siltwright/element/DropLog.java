package siltwright.element;

import java.util.Arrays;

/**
 * A log of the pressure drop over one filter, in the order of time. Arrays are not modified.
 *
 * @param name name of the log, which places it among others
 * @param times time of each row, in the log's own unit, rising
 * @param dropKPa pressure drop, kPa
 * @param flowLPerMin flow, L/min; empty where it was not logged
 * @param oilDegC oil temperature, °C; empty where it was not logged
 * @param feed dirt coming in per unit of time, in any unit; empty where it is not known
 */
public record DropLog(
    String name,
    double[] times,
    double[] dropKPa,
    double[] flowLPerMin,
    double[] oilDegC,
    double[] feed) {
  /** Checks that columns are as long as the log, or empty. */
  public DropLog {
    int n = times.length;
    if (n == 0 || dropKPa.length != n) {
      throw new IllegalArgumentException("times and pressure drops of one length, at least one");
    }
    for (double[] column : new double[][] {flowLPerMin, oilDegC, feed}) {
      if (column.length != 0 && column.length != n) {
        throw new IllegalArgumentException("a column as long as the log, or an empty one");
      }
    }
  }

  /** Returns the rows from one on. */
  public DropLog from(int row) {
    return new DropLog(
        name,
        tail(times, row),
        tail(dropKPa, row),
        tail(flowLPerMin, row),
        tail(oilDegC, row),
        tail(feed, row));
  }

  /** Returns the first rows, up to a number of them. */
  public DropLog first(int rows) {
    return new DropLog(
        name,
        head(times, rows),
        head(dropKPa, rows),
        head(flowLPerMin, rows),
        head(oilDegC, rows),
        head(feed, rows));
  }

  private static double[] tail(double[] column, int row) {
    return column.length == 0 ? column : Arrays.copyOfRange(column, row, column.length);
  }

  private static double[] head(double[] column, int rows) {
    return column.length == 0 ? column : Arrays.copyOf(column, rows);
  }
}
