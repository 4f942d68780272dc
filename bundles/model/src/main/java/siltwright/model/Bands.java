package siltwright.model;

import java.util.Arrays;

/** Six numbers, one for each size band of {@link SizeBands}, that never change. */
public final class Bands {
  /** Zero in every band. */
  public static final Bands ZERO = new Bands(new double[SizeBands.COUNT]);

  private final double[] values;

  private Bands(double[] values) {
    this.values = values;
  }

  /**
   * Returns the numbers given, one a band.
   *
   * @param values length 6, copied
   * @throws IllegalArgumentException if there are not six
   */
  public static Bands of(double... values) {
    if (values.length != SizeBands.COUNT) {
      throw new IllegalArgumentException("six bands expected, not " + values.length);
    }
    return new Bands(values.clone());
  }

  /** Returns the number of band {@code j}, 0 to 5. */
  public double get(int j) {
    return values[j];
  }

  /** Returns a copy as an array of length 6. */
  public double[] toArray() {
    return values.clone();
  }

  /** Returns these numbers times a factor. */
  public Bands times(double factor) {
    double[] scaled = values.clone();
    for (int j = 0; j < scaled.length; j++) {
      scaled[j] *= factor;
    }
    return new Bands(scaled);
  }

  /** Returns these numbers plus others, band by band. */
  public Bands plus(Bands other) {
    double[] sum = values.clone();
    for (int j = 0; j < sum.length; j++) {
      sum[j] += other.values[j];
    }
    return new Bands(sum);
  }

  @Override
  public boolean equals(Object other) {
    return other instanceof Bands b && Arrays.equals(values, b.values);
  }

  @Override
  public int hashCode() {
    return Arrays.hashCode(values);
  }

  @Override
  public String toString() {
    return Arrays.toString(values);
  }
}
