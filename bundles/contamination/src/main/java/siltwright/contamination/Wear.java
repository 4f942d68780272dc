package siltwright.contamination;

import java.util.ArrayList;
import java.util.List;
import siltwright.cleanliness.Iso4406;
import siltwright.model.Component;
import siltwright.model.Machine;
import siltwright.model.PressureFilter;
import siltwright.model.SizeBands;

/**
 * Wear of a component relative to that at its reference cleanliness.
 *
 * <pre>  kappa = max(kappa_min, (sum w_j n_j / sum w_j n_ref,j)^m)  </pre>
 *
 * <p>Behind a pressure filter the component sees n_j / beta_p,j. Counts in the tank go in; the
 * filter's share is in the weights.
 *
 * <p>Source: design brief, component life.
 */
public final class Wear {
  private static final int J = SizeBands.COUNT;

  /** Share of the reference count below which its course does not matter. */
  private static final double TRACE = 1e-9;

  private static final int PIECES = 32;

  private final double[] weight;
  private final Power power;
  private final double least;
  private final double floor;

  Wear(double[] weight, double exponent, double least) {
    this(weight, new Power(exponent), least);
  }

  private Wear(double[] weight, Power power, double least) {
    floor = Math.pow(least, 1 / power.exponent);
    this.weight = weight;
    this.power = power;
    this.least = least;
  }

  /** Returns the wear of a component of a machine. */
  public static Wear of(Machine machine, Component c) {
    return of(machine, c, new Power(c.exponent()));
  }

  private static Wear of(Machine machine, Component c, Power power) {
    double[] reference = SizeBands.toBands(Iso4406.cumulativePerMl(c.reference()));
    double[] passed = passedShare(machine, c);
    double sum = 0;
    for (int j = 0; j < J; j++) {
      sum += c.sensitivity().get(j) * reference[j];
    }
    double[] weight = new double[J];
    for (int j = 0; j < J; j++) {
      weight[j] = c.sensitivity().get(j) * passed[j] / sum;
    }
    return new Wear(weight, power, c.minimumRelativeWear());
  }

  /** Returns the wear of each component of a machine, in its order. */
  public static List<Wear> of(Machine machine) {
    return machine.components().stream().map(c -> of(machine, c)).toList();
  }

  /**
   * Returns the wear of each component of a machine like another whose wear is known: what only
   * depends on an exponent that is the same is taken from there.
   *
   * @param known wear of the other's components, in the same order
   */
  public static List<Wear> of(Machine machine, List<Wear> known) {
    List<Wear> wear = new ArrayList<>(known.size());
    for (int i = 0; i < known.size(); i++) {
      Component c = machine.components().get(i);
      Power power = known.get(i).power;
      wear.add(of(machine, c, power.exponent == c.exponent() ? power : new Power(c.exponent())));
    }
    return List.copyOf(wear);
  }

  /**
   * Returns the share of each band's particles in the tank that gets as far as a component: 1, or
   * what the pressure filter before it lets through.
   *
   * @return length 6
   */
  public static double[] passedShare(Machine machine, Component c) {
    double[] passed = {1, 1, 1, 1, 1, 1};
    if (c.behindPressureFilter()) {
      PressureFilter p = machine.pressureFilter().orElseThrow();
      double[] e = Circuit.efficiency(p.beta(), p.fieldEfficiency());
      for (int j = 0; j < J; j++) {
        passed[j] = 1 - e[j];
      }
    }
    return passed;
  }

  /**
   * Returns the relative wear at some counts.
   *
   * @param n band counts in the tank, 1/mL, length 6
   * @return κ, at least κ_min
   */
  public double relative(double[] n) {
    return power(weighted(n));
  }

  private double weighted(double[] n) {
    double x = 0;
    for (int j = 0; j < J; j++) {
      x += weight[j] * n[j];
    }
    return x;
  }

  /**
   * Mean relative wear over a step, from the counts at its start, middle and end and their
   * integral.
   *
   * <p>The mean of X is exact; what the power makes of its spread is taken to the second order. A
   * step in which X runs far, or meets the floor, is cut into pieces of a parabola instead.
   */
  double mean(double[] n0, double[] n1, double[] n2, double[] dose, double stepH) {
    double x0 = weighted(n0);
    double x1 = weighted(n1);
    double x2 = weighted(n2);
    double low = Math.min(x0, Math.min(x1, x2));
    double high = Math.max(x0, Math.max(x1, x2));
    double kLow = power(low);
    if (kLow == least && power(high) == least) {
      return least;
    }
    if (kLow > least && high <= 1.6 * low) {
      double mean = weighted(dose) / stepH;
      double spread =
          ((x0 - mean) * (x0 - mean) + 4 * (x1 - mean) * (x1 - mean) + (x2 - mean) * (x2 - mean))
              / 6;
      double m = power.exponent;
      return power(mean) * (1 + m * (m - 1) / 2 * spread / (mean * mean));
    }
    double sum = 0;
    for (int i = 0; i < PIECES; i++) {
      double s = (i + 0.5) / PIECES;
      double r = 1 - s;
      sum += power(x0 * r * (r - s) + 4 * x1 * s * r + x2 * s * (s - r));
    }
    return sum / PIECES;
  }

  double power(double x) {
    if (x <= 0) {
      return least;
    }
    return Math.max(least, power.of(x));
  }

  /** Weighted count X at which the wear meets its floor. */
  double floor() {
    return floor;
  }

  /** dκ/d ln X just above the floor. */
  double floorSlope() {
    return power.exponent * least;
  }

  /** dκ/dX at a weighted count X and its κ. */
  double slope(double x, double relative) {
    return relative > least ? power.exponent * relative / x : 0;
  }

  /** Whether of two relative wears one is at the floor and the other is not. */
  boolean meetsFloor(double first, double second) {
    return (first == least) != (second == least);
  }

  double weight(int j) {
    return weight[j];
  }

  /**
   * How fast the weighted count X runs at most, |d ln X / dt|, 1/h.
   *
   * @param relaxationPerH fastest rate of the balance; keeps the pace finite where X is still zero
   */
  double pacePerH(double[] n, double[] dn, double relaxationPerH) {
    double x = 0;
    double d = 0;
    for (int j = 0; j < J; j++) {
      x += weight[j] * n[j];
      d += weight[j] * Math.abs(dn[j]);
    }
    return d == 0 ? 0 : d / (x + TRACE + 1e-4 * d / Math.max(1, relaxationPerH));
  }
}
