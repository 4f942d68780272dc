package siltwright.model;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.OptionalDouble;
import java.util.function.DoubleUnaryOperator;

/**
 * How parts of a kind live, on a clock that counts exposure in scales.
 *
 * <pre>  S(u) = exp(-H(u)),  H(0) = 0,  Weibull: H = u^β  </pre>
 *
 * <p>Of another law H is kept at points, between which it is linear: a constant hazard from each
 * point to the next.
 *
 * <p>Source: definition of the cumulative hazard.
 */
public final class Survival {
  private static final double EARLIEST = 1e-6;
  private static final double LATEST = 30;
  private static final double FARTHEST = 1e30;
  private static final double TOLERANCE = 1e-4;
  private static final int PIECES = 64;
  private static final int DEEPEST = 6;

  /** Share of the mean life that may lie behind the last point. */
  private static final double LOST = 1e-3;

  private final double shape;
  private final double[] exposure;
  private final double[] hazard;

  private Survival(double shape, double[] exposure, double[] hazard) {
    this.shape = shape;
    this.exposure = exposure;
    this.hazard = hazard;
  }

  /**
   * Returns the Weibull life of a shape.
   *
   * @param shape β, above 0
   */
  public static Survival weibull(double shape) {
    return new Survival(shape, null, null);
  }

  /**
   * Returns the life by a law, which is asked here and not again: H up to where one part of 10^13
   * is left, so finely that it is right to about 0.0001 (1 + H).
   *
   * @param cumulativeHazard H over the exposure in scales; rises from 0 at 0
   * @throws IllegalArgumentException if it is no number or falls, or parts live so long that there
   *     is no mean
   */
  public static Survival sampled(DoubleUnaryOperator cumulativeHazard) {
    DoubleUnaryOperator inLogs = x -> cumulativeHazard.applyAsDouble(Math.exp(x));
    double first = reached(inLogs, EARLIEST);
    double last = reached(inLogs, LATEST);
    List<double[]> points = new ArrayList<>(List.of(new double[] {0, 0}));
    add(points, first, inLogs.applyAsDouble(first));
    double from = first;
    for (int i = 1; i <= PIECES; i++) {
      double to = first + (last - first) * i / PIECES;
      piece(inLogs, points, from, to, inLogs.applyAsDouble(to), DEEPEST);
      from = to;
    }
    Survival all =
        new Survival(
            Double.NaN,
            points.stream().mapToDouble(p -> p[0]).toArray(),
            points.stream().mapToDouble(p -> p[1]).toArray());
    int end = points.size() - 1;
    double mean = 0;
    for (int i = 1; i <= end; i++) {
      double rise = all.hazard[i] - all.hazard[i - 1];
      mean +=
          (all.exposure[i] - all.exposure[i - 1])
              * Math.exp(-all.hazard[i - 1])
              * (rise == 0 ? 1 : -Math.expm1(-rise) / rise);
    }
    if (!(all.exposure[end] * Math.exp(-all.hazard[end]) <= LOST * mean)) {
      throw new IllegalArgumentException("a life law must have a mean life");
    }
    return all;
  }

  /** Returns ln of the exposure at which a hazard is reached. */
  private static double reached(DoubleUnaryOperator inLogs, double hazard) {
    double low = -Math.log(FARTHEST);
    double high = Math.log(FARTHEST);
    if (!(inLogs.applyAsDouble(high) >= hazard)) {
      throw new IllegalArgumentException("a life law must let every part fail at last");
    }
    for (int i = 0; i < 60; i++) {
      double middle = (low + high) / 2;
      if (inLogs.applyAsDouble(middle) >= hazard) {
        high = middle;
      } else {
        low = middle;
      }
    }
    return high;
  }

  private static void piece(
      DoubleUnaryOperator inLogs,
      List<double[]> points,
      double from,
      double to,
      double hazard,
      int depth) {
    double before = points.get(points.size() - 1)[1];
    double middle = (from + to) / 2;
    double at = inLogs.applyAsDouble(middle);
    double share =
        (Math.exp(middle) - Math.exp(from)) / (Math.exp(to) - Math.exp(from)); // along the chord
    double off = Math.abs(at - before - share * (hazard - before));
    if (depth > 0 && !(off <= TOLERANCE * (1 + at))) {
      piece(inLogs, points, from, middle, at, depth - 1);
      piece(inLogs, points, middle, to, hazard, depth - 1);
    } else {
      add(points, to, hazard);
    }
  }

  private static void add(List<double[]> points, double logExposure, double hazard) {
    double before = points.get(points.size() - 1)[1];
    if (!(hazard >= before) || Double.isInfinite(hazard)) {
      throw new IllegalArgumentException(
          "the hazard that a life law adds up must be a number and never fall, and is "
              + hazard
              + " at an exposure of "
              + Math.exp(logExposure)
              + " after "
              + before);
    }
    points.add(new double[] {Math.exp(logExposure), hazard});
  }

  /** Returns β of a Weibull life; nothing of another. */
  public OptionalDouble weibullShape() {
    return exposure == null ? OptionalDouble.of(shape) : OptionalDouble.empty();
  }

  /** Returns the exposures at which another life is kept, from 0; none of a Weibull one. */
  public double[] exposures() {
    return exposure == null ? new double[0] : exposure.clone();
  }

  /**
   * Returns H.
   *
   * @param u exposure in scales, at least 0
   */
  public double cumulativeHazard(double u) {
    if (exposure == null) {
      return Math.pow(u, shape);
    }
    int i = Arrays.binarySearch(exposure, u);
    int to = Math.min(exposure.length - 1, Math.max(1, i >= 0 ? i : -i - 1));
    return hazard[to - 1]
        + (hazard[to] - hazard[to - 1])
            * (u - exposure[to - 1])
            / (exposure[to] - exposure[to - 1]);
  }

  @Override
  public boolean equals(Object other) {
    return other instanceof Survival s
        && Double.compare(shape, s.shape) == 0
        && Arrays.equals(exposure, s.exposure)
        && Arrays.equals(hazard, s.hazard);
  }

  @Override
  public int hashCode() {
    return Arrays.hashCode(
        new Object[] {shape, Arrays.hashCode(exposure), Arrays.hashCode(hazard)});
  }
}
