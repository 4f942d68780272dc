package siltwright.life;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.Collections;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.function.IntPredicate;

/**
 * Life records as primitive columns, without an object a row.
 *
 * <p>A row says that a component's life lies in (lower, upper]: equal bounds are a failure seen at
 * that hour, an infinite upper bound is a component taken out or still running, a lower bound of
 * zero is one found failed at its first inspection. A row may count for several components, may
 * have come under watch late ({@code entry}: it is in the records only because it survived to that
 * age), and may carry a failure mode and covariates. Immutable.
 */
public final class LifeData {
  private final double[] lower;
  private final double[] upper;
  private final double[] entry;
  private final double[] count;
  private final Covariate.Categorical mode;
  private final Map<String, Covariate> covariates;

  private LifeData(
      double[] lower,
      double[] upper,
      double[] entry,
      double[] count,
      Covariate.Categorical mode,
      Map<String, Covariate> covariates) {
    this.lower = lower;
    this.upper = upper;
    this.entry = entry;
    this.count = count;
    this.mode = mode;
    this.covariates = covariates;
  }

  /**
   * Returns failures and removals, one component a row.
   *
   * @param hours age at failure or removal, h; copied
   * @param failed whether the row is a failure, same length
   * @throws IllegalArgumentException as {@link #ofColumns} does
   */
  public static LifeData of(double[] hours, boolean[] failed) {
    sameLength("failed", failed.length, hours.length);
    double[] upper = hours.clone();
    for (int i = 0; i < upper.length; i++) {
      if (!failed[i]) {
        upper[i] = Double.POSITIVE_INFINITY;
      }
    }
    return ofColumns(hours, upper, null, null);
  }

  /**
   * Returns rows from columns, which are copied.
   *
   * @param lowerHours lower bound of the life, h, at least 0
   * @param upperHours upper bound, h: equal to the lower for a failure seen, infinite for a removal
   * @param entryHours age at which watching began, h, 0 for new; or null if all were new
   * @param counts components a row stands for, above 0; or null if each row is one
   * @throws IllegalArgumentException naming the row (from 0), the value and the bound: a bound that
   *     is negative or no number, bounds in the wrong order, a failure at 0 h, an entry that is not
   *     before the end, a count that is not above 0, columns of different length
   */
  public static LifeData ofColumns(
      double[] lowerHours, double[] upperHours, double[] entryHours, double[] counts) {
    int n = lowerHours.length;
    sameLength("upper", upperHours.length, n);
    double[] lower = lowerHours.clone();
    double[] upper = upperHours.clone();
    double[] entry = null;
    double[] count = null;
    if (entryHours != null) {
      sameLength("entry", entryHours.length, n);
      entry = entryHours.clone();
    }
    if (counts != null) {
      sameLength("count", counts.length, n);
      count = counts.clone();
    }
    boolean late = false;
    for (int i = 0; i < n; i++) {
      double lo = lower[i];
      double hi = upper[i];
      if (!(lo >= 0 && lo < Double.POSITIVE_INFINITY)) {
        throw wrong(i, "lower bound", lo, "at least 0 h, finite");
      }
      if (!(hi >= lo && hi > 0)) {
        throw wrong(i, "upper bound", hi, "above 0 h and not below " + lo + " h");
      }
      if (count != null && !(count[i] > 0 && count[i] < Double.POSITIVE_INFINITY)) {
        throw wrong(i, "count", count[i], "above 0, finite");
      }
      if (entry != null) {
        double e = entry[i];
        double end = hi == Double.POSITIVE_INFINITY ? lo : hi;
        if (!(e >= 0 && (e < end || e == 0))) {
          throw wrong(i, "entry", e, "from 0 h to below " + end + " h");
        }
        late |= e > 0;
        if (lo < e) {
          lower[i] = e; // it was seen alive at its entry
        }
      }
    }
    return new LifeData(lower, upper, late ? entry : null, count, null, Map.of());
  }

  /** Returns a builder for rows that arrive one by one. */
  public static Builder builder() {
    return new Builder();
  }

  /** Returns these rows with a numeric covariate, which is copied; every value must be finite. */
  public LifeData withCovariate(String name, double[] values) {
    sameLength(name, values.length, rows());
    for (int i = 0; i < values.length; i++) {
      if (!Double.isFinite(values[i])) {
        throw wrong(i, name, values[i], "a finite number");
      }
    }
    return withColumn(name, new Covariate.Numeric(values.clone()));
  }

  /**
   * Returns these rows with a categorical covariate; the levels sorted, the first the reference.
   */
  public LifeData withCovariate(String name, String[] values) {
    sameLength(name, values.length, rows());
    return withColumn(name, categorical(name, values));
  }

  /**
   * Returns these rows with a categorical covariate with its levels in the given order.
   *
   * @throws IllegalArgumentException if a value is not among the levels, or the length is wrong
   */
  public LifeData withCovariate(String name, String[] values, List<String> levels) {
    sameLength(name, values.length, rows());
    return withColumn(name, coded(name, values, levels));
  }

  /** Returns these rows with the mode of each failure; the modes of removals are not read. */
  public LifeData withModes(String[] modes) {
    sameLength("mode", modes.length, rows());
    String[] m = modes.clone();
    for (int i = 0; i < m.length; i++) {
      if (!failed(i)) {
        m[i] = "";
      } else if (m[i] == null || m[i].isEmpty()) {
        throw new IllegalArgumentException("row " + i + ": a failure needs its mode");
      }
    }
    return new LifeData(lower, upper, entry, count, categorical("mode", m), covariates);
  }

  private LifeData withColumn(String name, Covariate column) {
    Map<String, Covariate> all = new LinkedHashMap<>(covariates);
    all.put(name, column);
    return new LifeData(lower, upper, entry, count, mode, Collections.unmodifiableMap(all));
  }

  /** Returns the rows that a condition on the row number keeps, with all their columns. */
  public LifeData where(IntPredicate keep) {
    int[] kept = new int[rows()];
    int n = 0;
    for (int i = 0; i < rows(); i++) {
      if (keep.test(i)) {
        kept[n++] = i;
      }
    }
    kept = Arrays.copyOf(kept, n);
    Map<String, Covariate> columns = new LinkedHashMap<>();
    for (Map.Entry<String, Covariate> c : covariates.entrySet()) {
      columns.put(c.getKey(), c.getValue().rows(kept));
    }
    return new LifeData(
        pick(lower, kept),
        pick(upper, kept),
        entry == null ? null : pick(entry, kept),
        count == null ? null : pick(count, kept),
        mode == null ? null : (Covariate.Categorical) mode.rows(kept),
        Collections.unmodifiableMap(columns));
  }

  /** Returns these rows with failures of every other mode turned into removals at that hour. */
  LifeData onlyMode(int code) {
    double[] u = upper.clone();
    for (int i = 0; i < u.length; i++) {
      if (failed(i) && mode.codes()[i] != code) {
        if (lower[i] != u[i]) {
          throw new IllegalArgumentException(
              "row " + i + ": competing modes need failures at a known hour, not an interval");
        }
        u[i] = Double.POSITIVE_INFINITY;
      }
    }
    return new LifeData(lower, u, entry, count, mode, covariates);
  }

  /** Returns the number of rows. */
  public int rows() {
    return lower.length;
  }

  /** Returns the number of components, the sum of the counts. */
  public double components() {
    double n = 0;
    for (int i = 0; i < rows(); i++) {
      n += countAt(i);
    }
    return n;
  }

  /** Returns the number of components known to have failed, at an hour or within an interval. */
  public double failures() {
    double n = 0;
    for (int i = 0; i < rows(); i++) {
      n += failed(i) ? countAt(i) : 0;
    }
    return n;
  }

  /** Returns the lower bound of a row, h. */
  public double lowerH(int row) {
    return lower[row];
  }

  /** Returns the upper bound of a row, h; infinite for a removal. */
  public double upperH(int row) {
    return upper[row];
  }

  /** Returns the age at which watching a row began, h. */
  public double entryH(int row) {
    return entry == null ? 0 : entry[row];
  }

  /** Returns how many components a row stands for. */
  public double countAt(int row) {
    return count == null ? 1 : count[row];
  }

  /** Returns whether a row is a failure, at an hour or within an interval. */
  public boolean failed(int row) {
    return upper[row] != Double.POSITIVE_INFINITY;
  }

  /** Returns whether any row came under watch late. */
  public boolean hasLateEntry() {
    return entry != null;
  }

  /** Returns whether any failure is known only within an interval. */
  public boolean hasIntervals() {
    for (int i = 0; i < rows(); i++) {
      if (failed(i) && lower[i] != upper[i]) {
        return true;
      }
    }
    return false;
  }

  /** Returns the covariates by name, in the order they were added. */
  public Map<String, Covariate> covariates() {
    return covariates;
  }

  /**
   * Returns the modes of the failures, sorted.
   *
   * @throws IllegalStateException if the rows have no modes
   */
  public List<String> modes() {
    List<String> names = new ArrayList<>(modeColumn().levels());
    names.remove("");
    return List.copyOf(names);
  }

  Covariate.Categorical modeColumn() {
    if (mode == null) {
      throw new IllegalStateException("the rows have no failure modes");
    }
    return mode;
  }

  private static double[] pick(double[] from, int[] kept) {
    double[] to = new double[kept.length];
    for (int i = 0; i < kept.length; i++) {
      to[i] = from[kept[i]];
    }
    return to;
  }

  private static Covariate.Categorical categorical(String name, String[] values) {
    return coded(name, values, Arrays.stream(values).distinct().sorted().toList());
  }

  private static Covariate.Categorical coded(String name, String[] values, List<String> levels) {
    Map<String, Integer> index = new HashMap<>();
    for (String level : levels) {
      index.put(level, index.size());
    }
    int[] codes = new int[values.length];
    for (int i = 0; i < values.length; i++) {
      Integer code = index.get(values[i]);
      if (code == null) {
        throw new IllegalArgumentException(
            "row " + i + ": " + name + " is " + values[i] + ", expected one of " + levels);
      }
      codes[i] = code;
    }
    return new Covariate.Categorical(levels, codes);
  }

  private static void sameLength(String name, int length, int rows) {
    if (length != rows) {
      throw new IllegalArgumentException(
          "column " + name + " has " + length + " rows, expected " + rows);
    }
  }

  private static IllegalArgumentException wrong(
      int row, String name, double value, String expected) {
    return new IllegalArgumentException(
        "row " + row + ": " + name + " is " + value + ", expected " + expected);
  }

  /** Collects rows one by one; {@link #enteredAt} and {@link #times} speak of the last row. */
  public static final class Builder {
    private double[] lower = new double[64];
    private double[] upper = new double[64];
    private double[] entry;
    private double[] count;
    private int n;

    private Builder() {}

    /** Adds a component that failed at an hour. */
    public Builder failedAt(double hours) {
      return add(hours, hours);
    }

    /** Adds a component that was taken out or still ran at an hour. */
    public Builder runningAt(double hours) {
      return add(hours, Double.POSITIVE_INFINITY);
    }

    /** Adds a component that failed after {@code lowerH} and not after {@code upperH}. */
    public Builder failedBetween(double lowerH, double upperH) {
      return add(lowerH, upperH);
    }

    /** Says at which age watching the last row began, h. */
    public Builder enteredAt(double hours) {
      if (entry == null) {
        entry = new double[lower.length];
      }
      entry[last()] = hours;
      return this;
    }

    /** Says how many components the last row stands for. */
    public Builder times(double components) {
      if (count == null) {
        count = new double[lower.length];
        Arrays.fill(count, 1);
      }
      count[last()] = components;
      return this;
    }

    /** Returns the rows; refuses what {@link LifeData#ofColumns} refuses. */
    public LifeData build() {
      return ofColumns(
          Arrays.copyOf(lower, n),
          Arrays.copyOf(upper, n),
          entry == null ? null : Arrays.copyOf(entry, n),
          count == null ? null : Arrays.copyOf(count, n));
    }

    private int last() {
      if (n == 0) {
        throw new IllegalStateException("no row was added yet");
      }
      return n - 1;
    }

    private Builder add(double lo, double hi) {
      if (n == lower.length) {
        int size = 2 * n;
        lower = Arrays.copyOf(lower, size);
        upper = Arrays.copyOf(upper, size);
        if (entry != null) {
          entry = Arrays.copyOf(entry, size);
        }
        if (count != null) {
          count = Arrays.copyOf(count, size);
          Arrays.fill(count, n, size, 1);
        }
      }
      lower[n] = lo;
      upper[n++] = hi;
      return this;
    }
  }
}
