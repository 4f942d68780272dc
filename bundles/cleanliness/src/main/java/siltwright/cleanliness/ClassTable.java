package siltwright.cleanliness;

import java.math.BigDecimal;
import java.util.List;

/** Classes by the highest count per 100 mL in each column, read from a table of the package. */
final class ClassTable {
  private final CountClass first;
  private final double[][] per100Ml;

  private ClassTable(CountClass first, double[][] per100Ml) {
    this.first = first;
    this.per100Ml = per100Ml;
  }

  static ClassTable read(String name) {
    List<String[]> rows = TableResource.rows(name);
    double[][] limits = new double[rows.get(0).length - 1][];
    for (int column = 0; column < limits.length; column++) {
      limits[column] = TableResource.column(rows, column + 1);
    }
    return new ClassTable(CountClass.parse(rows.get(0)[0]), limits);
  }

  /** Returns the cleanest class whose limit is not exceeded. */
  CountClass classOf(BigDecimal perMl, int column) {
    BigDecimal count = perMl.movePointRight(2);
    int row = 0;
    while (row < per100Ml[column].length
        && count.compareTo(BigDecimal.valueOf(per100Ml[column][row])) > 0) {
      row++;
    }
    return CountClass.values()[first.ordinal() + row];
  }

  double limitPer100Ml(CountClass countClass, int column) {
    int row = row(countClass);
    return row < per100Ml[column].length ? per100Ml[column][row] : Double.POSITIVE_INFINITY;
  }

  CountRange rangePerMl(CountClass countClass, int column) {
    int row = row(countClass);
    return new CountRange(
        row == 0 ? 0 : per100Ml[column][row - 1] / 100, limitPer100Ml(countClass, column) / 100);
  }

  private int row(CountClass countClass) {
    int row = countClass.ordinal() - first.ordinal();
    if (row < 0) {
      throw new IllegalArgumentException(
          "the cleanest class of this table is " + first + ", not " + countClass);
    }
    return row;
  }
}
