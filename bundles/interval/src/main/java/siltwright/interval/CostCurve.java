package siltwright.interval;

import java.util.List;
import siltwright.contamination.Circuit;
import siltwright.contamination.Cycle;
import siltwright.contamination.CycleSweep;
import siltwright.contamination.Wear;
import siltwright.model.Bands;
import siltwright.model.ChangeProcedure;
import siltwright.model.Machine;

/**
 * Long-run cost of an hour of operation as a function of the interval, for one machine and option.
 *
 * <p>Not for use by several threads.
 */
final class CostCurve {
  private final Machine machine;
  private final Circuit circuit;
  private final CycleSweep sweep;
  private final CycleSweep shutSweep;
  private final Pricing pricing;
  private final Cycle cycle;
  private final Cycle shutCycle;

  /**
   * Prepares the curve.
   *
   * @param fitted the machine with the option fitted
   * @param equipmentPerH what the option costs per hour
   */
  CostCurve(Machine fitted, double equipmentPerH) {
    machine = fitted;
    circuit = Circuit.inTheLongRun(fitted);
    List<Wear> wear = Wear.of(fitted);
    sweep = new CycleSweep(circuit, wear);
    shutSweep = new CycleSweep(circuit.withoutBypass(), wear);
    pricing = new Pricing(fitted, circuit, equipmentPerH);
    cycle = new Cycle(wear.size());
    shutCycle = new Cycle(wear.size());
  }

  Circuit circuit() {
    return circuit;
  }

  Machine machine() {
    return machine;
  }

  /** Cost per hour at an interval; infinite where the cycle does not repeat itself. */
  double perH(double intervalH, ChangeProcedure procedure) {
    return pricing.totalPerH(cycle(intervalH, procedure), procedure);
  }

  /** The repeating cycle at an interval; the next call fills the same one again. */
  Cycle cycle(double intervalH, ChangeProcedure procedure) {
    sweep.fill(intervalH, procedure, cycle);
    return cycle;
  }

  /** The split of the cost at an interval whose cycle repeats itself. */
  CostSplit split(double intervalH, ChangeProcedure procedure) {
    shutSweep.fill(intervalH, procedure, shutCycle);
    return pricing.split(cycle(intervalH, procedure), shutCycle, procedure);
  }

  /**
   * Mass in the element before the change at an interval, g; infinite without a repeating cycle.
   */
  double massG(double intervalH, ChangeProcedure procedure) {
    Cycle c = cycle(intervalH, procedure);
    return c.state() == Cycle.State.REPEATS ? c.retainedG() : Double.POSITIVE_INFINITY;
  }

  /** Band counts before the change at an interval; null without a repeating cycle. */
  Bands endPerMl(double intervalH, ChangeProcedure procedure) {
    Cycle c = cycle(intervalH, procedure);
    return c.state() == Cycle.State.REPEATS ? c.endPerMl() : null;
  }
}
