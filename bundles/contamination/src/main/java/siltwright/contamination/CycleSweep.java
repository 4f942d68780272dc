package siltwright.contamination;

import java.util.List;
import siltwright.model.Bands;
import siltwright.model.ChangeProcedure;
import siltwright.model.SizeBands;

/**
 * Finds the repeating cycle of any interval and procedure of a circuit.
 *
 * <p>Where the oil settles far faster than the element loads, which is nearly always, by the closed
 * forms of {@link SettledCycles}; where the two time scales meet, by the slower {@link
 * SteppedCycles}.
 *
 * <p>Not for use by several threads. Filling a cycle allocates nothing once the course is long
 * enough.
 */
public final class CycleSweep {
  private static final int J = SizeBands.COUNT;

  /** Share of the flow below which the element counts as passed by. */
  static final double LITTLE_MET = 1e-3;

  private final Circuit c;
  private final List<Wear> wear;
  private final SettledCycles settled;
  private final double[] handling = new double[J];
  private final double[] met = new double[2];
  private SteppedCycles stepped;

  /**
   * Prepares a sweep, right to a thousandth.
   *
   * @param circuit the circuit, in the long run
   * @param wear wear of its components
   */
  public CycleSweep(Circuit circuit, List<Wear> wear) {
    this(circuit, wear, SettledCycles.Grain.FINE);
  }

  /**
   * Prepares a sweep right to some thousandths, for many draws of uncertain numbers.
   *
   * @param circuit the circuit, in the long run
   * @param wear wear of its components
   */
  public static CycleSweep coarse(Circuit circuit, List<Wear> wear) {
    return new CycleSweep(circuit, wear, SettledCycles.Grain.COARSE);
  }

  private CycleSweep(Circuit circuit, List<Wear> wear, SettledCycles.Grain grain) {
    c = circuit;
    this.wear = wear;
    settled = new SettledCycles(circuit, wear, grain);
  }

  /**
   * Finds the cycle that repeats itself with an interval and a procedure.
   *
   * @param intervalH hours from change to change, above 0
   * @param procedure the procedure of every change
   * @param out filled
   */
  public void fill(double intervalH, ChangeProcedure procedure, Cycle out) {
    fill(intervalH, procedure.backFlushShare(), procedure.handlingParticles(), out);
  }

  /**
   * Finds the cycle that repeats itself with an interval and a release.
   *
   * @param intervalH hours from change to change, above 0
   * @param backFlush φ, 0 up to below 1
   * @param handlingParticles particles of each band let in at a change
   * @param out filled
   */
  public void fill(double intervalH, double backFlush, Bands handlingParticles, Cycle out) {
    out.intervalH = intervalH;
    if (!hasWayOut(handlingParticles)) {
      out.state = Cycle.State.NO_WAY_OUT;
      return;
    }
    if (settled.fill(intervalH, backFlush, handling, out)) {
      out.state = Cycle.State.REPEATS;
      return;
    }
    if (neverHeld(intervalH, backFlush)) {
      out.state = Cycle.State.OVERLOADED;
      return;
    }
    if (stepped == null) {
      stepped = new SteppedCycles(c, wear);
    }
    stepped.fill(intervalH, backFlush, handling, out);
  }

  /**
   * Returns what the element holds before the change in the cycle that repeats itself.
   *
   * @param intervalH hours from change to change, above 0
   * @param backFlush φ, 0 up to below 1
   * @param handlingParticles particles of each band let in at a change
   * @param spare filled where it must be
   * @return mass, fines with it, g; infinite where no cycle repeats itself
   */
  public double retainedG(
      double intervalH, double backFlush, Bands handlingParticles, Cycle spare) {
    if (hasWayOut(handlingParticles) && settled.find(intervalH, backFlush, handling)) {
      return settled.retainedG();
    }
    fill(intervalH, backFlush, handlingParticles, spare);
    return spare.state == Cycle.State.REPEATS ? spare.massG : Double.POSITIVE_INFINITY;
  }

  /** Takes on what a change lets in; whether something takes out each band that comes in. */
  private boolean hasWayOut(Bands handlingParticles) {
    for (int j = 0; j < J; j++) {
      handling[j] = handlingParticles.get(j);
    }
    return settled.hasWayOut(handling);
  }

  /**
   * Whether all that must end in the element from change to change is more than it holds before
   * next to no flow meets it any more.
   */
  private boolean neverHeld(double t, double phi) {
    double mass = c.retainedOfAllG(t, phi, handling);
    if (!c.bypassOpens || Double.isNaN(mass)) {
      return false;
    }
    c.met(mass, met);
    return met[1] < LITTLE_MET * c.meanFlowMlPerH;
  }
}
