package siltwright.model;

import java.util.Arrays;
import java.util.List;
import java.util.function.DoubleUnaryOperator;

/**
 * How an element's pressure drop rises with the mass that it holds, at constant flow and viscosity.
 *
 * <pre>  dh/dm = k h^n,  h(0) = 1,  h(1) = r = p_term / p_clean
 *   n = 1:  h = r^m       else  k = (r^(1-n) - 1)/(1 - n),  h = [1 + (1-n) k m]^(1/(1-n))  </pre>
 *
 * <p>m is retained mass over capacity. n &gt; 1 has a wall at a finite m, beyond which h is
 * infinite. A curve, measured or of another law, is used instead where there is one: ln h is
 * interpolated linearly in m and the last slope goes on beyond its end.
 *
 * <p>Source: Hermia's blocking laws written for constant flow (own derivation in docs/theory.md);
 * intermediate blocking is n = 1, cake is n = 0, standard n = 3/2, complete n = 2.
 */
public final class Loading {
  private static final double FARTHEST = 4;
  private static final double HIGHEST = 1e6;
  private static final double TOLERANCE = 1e-4;
  private static final int PIECES = 32;
  private static final int DEEPEST = 9;

  private final double exponent;
  private final double logRatio;
  private final double slope;
  private final double[] curveMass;
  private final double[] curveLogDrop;

  private Loading(double exponent, double ratio, double[] curveMass, double[] curveLogDrop) {
    this.exponent = exponent;
    this.logRatio = Math.log(ratio);
    this.slope = Math.expm1((1 - exponent) * logRatio); // (1-n) k of the law above
    this.curveMass = curveMass;
    this.curveLogDrop = curveLogDrop;
  }

  /**
   * Returns the loading of a blocking exponent.
   *
   * @param exponent n, any finite number; within 1e-9 of 1 it is taken as 1
   * @param ratio r = terminal over clean pressure drop, above 1
   * @throws IllegalArgumentException if the ratio is not above 1
   */
  public static Loading blocking(double exponent, double ratio) {
    if (!(ratio > 1)) {
      throw new IllegalArgumentException("terminal over clean drop must be above 1, not " + ratio);
    }
    return new Loading(Math.abs(exponent - 1) < 1e-9 ? 1 : exponent, ratio, null, null);
  }

  /**
   * Returns the loading of a measured curve.
   *
   * @param curve at least two points, rising from (0, 1) in both
   */
  public static Loading measured(List<LoadingPoint> curve) {
    return curve(
        curve.stream().mapToDouble(LoadingPoint::massShare).toArray(),
        curve.stream().mapToDouble(p -> Math.log(p.dropRatio())).toArray());
  }

  private static Loading curve(double[] mass, double[] logDrop) {
    return new Loading(1, Math.E, mass, logDrop);
  }

  /**
   * Returns the loading of a law, which is asked here and not again: its curve up to four times the
   * capacity, or to where h is a million, so finely that ln h is right to about 0.0001, or the mass
   * at it where a wall is near.
   *
   * @param law h over m; rises from 1 at 0, and may be infinite from some m on
   * @throws IllegalArgumentException if it does not begin at 1 or does not rise
   */
  public static Loading sampled(DoubleUnaryOperator law) {
    double first = law.applyAsDouble(0);
    if (!(Math.abs(first - 1) < 1e-6)) {
      throw new IllegalArgumentException("a loading law must begin at 1, not " + first);
    }
    double end = FARTHEST;
    if (!(law.applyAsDouble(end) <= HIGHEST)) {
      double low = 0;
      for (int i = 0; i < 60; i++) {
        double middle = (low + end) / 2;
        if (law.applyAsDouble(middle) <= HIGHEST) {
          low = middle;
        } else {
          end = middle;
        }
      }
      if (Double.isNaN(law.applyAsDouble(end))) {
        throw new IllegalArgumentException("a loading law must be a number at " + end);
      }
      end = low;
    }
    Curve curve = new Curve(law, PIECES << DEEPEST);
    curve.add(0, 0);
    for (int i = 0; i < PIECES; i++) {
      double to = end * (i + 1) / PIECES;
      curve.piece(to, Math.log(law.applyAsDouble(to)), DEEPEST);
    }
    return curve(Arrays.copyOf(curve.mass, curve.size), Arrays.copyOf(curve.logDrop, curve.size));
  }

  /** Points of a law, closer where it bends. */
  private static final class Curve {
    private final DoubleUnaryOperator law;
    private final double[] mass;
    private final double[] logDrop;
    private int size;

    Curve(DoubleUnaryOperator law, int most) {
      this.law = law;
      this.mass = new double[most + 1];
      this.logDrop = new double[most + 1];
    }

    void piece(double toMass, double toLogDrop, int depth) {
      double fromLogDrop = logDrop[size - 1];
      double middle = (mass[size - 1] + toMass) / 2;
      double at = Math.log(law.applyAsDouble(middle));
      if (depth > 0 && Math.abs(at - (fromLogDrop + toLogDrop) / 2) > TOLERANCE) {
        piece(middle, at, depth - 1);
        piece(toMass, toLogDrop, depth - 1);
      } else {
        add(toMass, toLogDrop);
      }
    }

    void add(double toMass, double toLogDrop) {
      if (size > 0 && !(toLogDrop > logDrop[size - 1])) {
        throw new IllegalArgumentException(
            "a loading law must rise, and is "
                + Math.exp(toLogDrop)
                + " at "
                + toMass
                + " of the capacity after "
                + Math.exp(logDrop[size - 1])
                + " at "
                + mass[size - 1]);
      }
      mass[size] = toMass;
      logDrop[size++] = toLogDrop;
    }
  }

  /**
   * Returns the pressure drop over its clean value.
   *
   * @param massShare retained mass over capacity, at least 0
   * @return h, at least 1; infinite at and beyond the wall
   */
  public double dropRatio(double massShare) {
    if (curveMass != null) {
      return Math.exp(onCurve(massShare));
    }
    if (exponent == 1) {
      return Math.exp(logRatio * massShare);
    }
    double base = 1 + slope * massShare;
    return base <= 0 ? Double.POSITIVE_INFINITY : Math.exp(Math.log(base) / (1 - exponent));
  }

  /**
   * Returns the retained mass over capacity at which a pressure drop is reached.
   *
   * @param dropRatio h, at least 1
   * @return mass share, 0 for h = 1
   */
  public double massShareAt(double dropRatio) {
    double logDrop = Math.log(dropRatio);
    if (curveMass != null) {
      int i = segment(curveLogDrop, logDrop);
      return curveMass[i - 1]
          + (logDrop - curveLogDrop[i - 1])
              * (curveMass[i] - curveMass[i - 1])
              / (curveLogDrop[i] - curveLogDrop[i - 1]);
    }
    if (exponent == 1) {
      return logDrop / logRatio;
    }
    return Math.expm1((1 - exponent) * logDrop) / slope;
  }

  /** Returns the mass over capacity at which h is infinite; infinite where it never is. */
  public double wall() {
    return curveMass == null && exponent > 1 ? -1 / slope : Double.POSITIVE_INFINITY;
  }

  /**
   * Returns d ln h / dm.
   *
   * @param massShare retained mass over capacity; infinite at and beyond the wall
   */
  public double logSlope(double massShare) {
    if (curveMass != null) {
      int i = segment(curveMass, massShare);
      return (curveLogDrop[i] - curveLogDrop[i - 1]) / (curveMass[i] - curveMass[i - 1]);
    }
    if (exponent == 1) {
      return logRatio;
    }
    double base = 1 + slope * massShare;
    return base <= 0 ? Double.POSITIVE_INFINITY : slope / ((1 - exponent) * base);
  }

  /**
   * The first piece that ends at or beyond a value, else the last; by halves, since there may be
   * many.
   */
  private static int segment(double[] ends, double value) {
    int low = 1;
    int high = ends.length - 1;
    while (low < high) {
      int middle = (low + high) >>> 1;
      if (ends[middle] < value) {
        low = middle + 1;
      } else {
        high = middle;
      }
    }
    return low;
  }

  private double onCurve(double massShare) {
    int i = segment(curveMass, massShare);
    return curveLogDrop[i - 1]
        + (massShare - curveMass[i - 1])
            * (curveLogDrop[i] - curveLogDrop[i - 1])
            / (curveMass[i] - curveMass[i - 1]);
  }

  @Override
  public boolean equals(Object other) {
    return other instanceof Loading l
        && exponent == l.exponent
        && logRatio == l.logRatio
        && Arrays.equals(curveMass, l.curveMass)
        && Arrays.equals(curveLogDrop, l.curveLogDrop);
  }

  @Override
  public int hashCode() {
    return Arrays.hashCode(
        new Object[] {
          exponent, logRatio, Arrays.hashCode(curveMass), Arrays.hashCode(curveLogDrop)
        });
  }
}
