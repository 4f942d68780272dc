package siltwright.contamination;

import siltwright.model.Bands;
import siltwright.model.SizeBands;

/**
 * The service cycle that repeats itself when the element is changed every so many hours in the same
 * way.
 *
 * <p>Filled by {@link CycleSweep}, which may fill the same one again.
 */
public final class Cycle {
  private static final int J = SizeBands.COUNT;

  /** Whether a cycle repeats itself. Where it does not, its other numbers mean nothing. */
  public enum State {
    /** It does. */
    REPEATS,
    /** Particles of some size come in and nothing takes them out: the oil grows ever dirtier. */
    NO_WAY_OUT,
    /**
     * More dirt comes in from change to change than the element can hold, or can hold before the
     * bypass passes all but a thousandth of the flow.
     */
    OVERLOADED
  }

  double intervalH;
  double massG;
  State state = State.REPEATS;
  final double[] start = new double[J];
  final double[] end = new double[J];
  final double[] retained = new double[J];
  final double[] dose = new double[J];
  final double[] released = new double[J];
  final double[] exposureH;

  /** Makes a cycle to be filled, for a number of components. */
  public Cycle(int components) {
    exposureH = new double[components];
  }

  /** Returns the hours from one change to the next, h. */
  public double intervalH() {
    return intervalH;
  }

  /** Returns the mass in the element just before the change, fines with it, g. */
  public double retainedG() {
    return massG;
  }

  /** Returns whether there is a cycle that repeats itself, or why there is none. */
  public State state() {
    return state;
  }

  /** Returns the band counts just after the change, release mixed in, 1/mL. */
  public Bands startPerMl() {
    return Bands.of(start);
  }

  /** Returns the band counts just before the change, 1/mL. */
  public Bands endPerMl() {
    return Bands.of(end);
  }

  /** Returns the particles of each band that the element holds before the change. */
  public Bands retained() {
    return Bands.of(retained);
  }

  /** Returns the particles of each band that the change releases into the tank. */
  public Bands released() {
    return Bands.of(released);
  }

  /** Returns the mean count of a band over the cycle, wash-out included, 1/mL. */
  public double meanPerMl(int j) {
    return dose[j] / intervalH;
  }

  /** Returns the mean relative wear of a component over the cycle, wash-out included. */
  public double meanWear(int component) {
    return exposureH[component] / intervalH;
  }
}
