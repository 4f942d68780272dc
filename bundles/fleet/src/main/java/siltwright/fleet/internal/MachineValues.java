package siltwright.fleet.internal;

import java.util.Arrays;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.stream.IntStream;
import siltwright.analysis.Records;
import siltwright.life.Covariate;

/** Values of machines: a column of a table that has one value for all rows of a machine. */
final class MachineValues {
  private final Records.Column column;

  /** Row that holds the value of each machine; -1 where none does. */
  private final int[] row;

  /**
   * Finds the row of each machine that holds its value, the first that has one.
   *
   * @param machine code of the machine of each row, negative where it has none
   */
  MachineValues(Records.Column column, int[] machine, int machines) {
    this.column = column;
    row = new int[machines];
    Arrays.fill(row, -1);
    for (int i = 0; i < machine.length; i++) {
      if (machine[i] >= 0 && row[machine[i]] < 0 && !column.missing(i)) {
        row[machine[i]] = i;
      }
    }
  }

  boolean missing(int machine) {
    return row[machine] < 0;
  }

  /** Returns whether a row says something else than the first of its machine. */
  boolean differs(int machine, int at) {
    if (column.missing(at) || row[machine] < 0) {
      return false;
    }
    if (column instanceof Records.Words words) {
      return words.codes()[at] != words.codes()[row[machine]];
    }
    double[] values = ((Records.Numbers) column).values();
    return values[at] != values[row[machine]];
  }

  String text(int machine) {
    return row[machine] < 0 ? "" : column.text(row[machine]);
  }

  double number(int machine) {
    return row[machine] < 0 ? Double.NaN : ((Records.Numbers) column).values()[row[machine]];
  }

  /** Returns the values of some machines as a covariate; words sorted, the first the reference. */
  Covariate covariate(int[] machines) {
    if (column instanceof Records.Numbers) {
      return new Covariate.Numeric(Arrays.stream(machines).mapToDouble(this::number).toArray());
    }
    return levels(Arrays.stream(machines).mapToObj(this::text).toList());
  }

  static Covariate.Categorical levels(List<String> words) {
    List<String> levels = words.stream().distinct().sorted().toList();
    Map<String, Integer> index = new HashMap<>();
    IntStream.range(0, levels.size()).forEach(i -> index.put(levels.get(i), i));
    return new Covariate.Categorical(levels, words.stream().mapToInt(index::get).toArray());
  }
}
