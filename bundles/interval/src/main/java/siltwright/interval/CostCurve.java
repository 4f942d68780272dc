package siltwright.interval;

import java.util.List;
import java.util.function.BiFunction;
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
  private final double equipmentPerH;
  private final List<Wear> wear;
  private final Circuit circuit;
  private final CycleSweep sweep;
  private final Pricing pricing;
  private final Cycle cycle;
  private final Cycle shutCycle;
  private CycleSweep shutSweep;
  private CostCurve rough;

  /**
   * Prepares the curve.
   *
   * @param fitted the machine with the option fitted
   * @param equipmentPerH what the option costs per hour
   */
  CostCurve(Machine fitted, double equipmentPerH) {
    this(
        fitted,
        equipmentPerH,
        Circuit.inTheLongRun(fitted),
        Wear.of(fitted),
        null,
        CycleSweep::new);
  }

  /**
   * Returns the curve of the machine of this one with something else fitted.
   *
   * @param other the machine, fitted so
   * @param otherEquipmentPerH what that costs per hour
   */
  CostCurve with(Machine other, double otherEquipmentPerH) {
    return like(other, otherEquipmentPerH, CycleSweep::new);
  }

  /**
   * Returns a curve to some thousandths, for a draw of uncertain numbers.
   *
   * @param drawn the machine of this curve with the numbers drawn
   */
  CostCurve coarse(Machine drawn) {
    return like(drawn, equipmentPerH, CycleSweep::coarse);
  }

  private CostCurve like(
      Machine other, double otherPerH, BiFunction<Circuit, List<Wear>, CycleSweep> sweepOf) {
    return new CostCurve(
        other,
        otherPerH,
        Circuit.inTheLongRun(other, circuit),
        Wear.of(other, wear),
        pricing,
        sweepOf);
  }

  private CostCurve(
      Machine fitted,
      double equipmentPerH,
      Circuit circuit,
      List<Wear> wear,
      Pricing like,
      BiFunction<Circuit, List<Wear>, CycleSweep> sweepOf) {
    machine = fitted;
    this.equipmentPerH = equipmentPerH;
    this.wear = wear;
    this.circuit = circuit;
    sweep = sweepOf.apply(circuit, wear);
    pricing = new Pricing(fitted, circuit, equipmentPerH, like);
    cycle = new Cycle(wear.size());
    shutCycle = new Cycle(wear.size());
  }

  /** The same curve to some thousandths, to see where to look. */
  CostCurve rough() {
    if (rough == null) {
      rough = new CostCurve(machine, equipmentPerH, circuit, wear, pricing, CycleSweep::coarse);
      rough.rough = rough;
    }
    return rough;
  }

  Circuit circuit() {
    return circuit;
  }

  Machine machine() {
    return machine;
  }

  /** Cost per hour at an interval; infinite where the cycle does not repeat itself. */
  double perH(double intervalH, ChangeProcedure procedure) {
    return perH(cycle(intervalH, procedure), procedure);
  }

  /** Cost per hour of a cycle; infinite where it does not repeat itself. */
  double perH(Cycle of, ChangeProcedure procedure) {
    return pricing.totalPerH(of, procedure);
  }

  /** The repeating cycle at an interval; the next call fills the same one again. */
  Cycle cycle(double intervalH, ChangeProcedure procedure) {
    sweep.fill(intervalH, procedure, cycle);
    return cycle;
  }

  /** The split of the cost at an interval whose cycle repeats itself. */
  CostSplit split(double intervalH, ChangeProcedure procedure) {
    if (shutSweep == null) {
      shutSweep = new CycleSweep(circuit.withoutBypass(), wear);
    }
    shutSweep.fill(intervalH, procedure, shutCycle);
    return pricing.split(cycle(intervalH, procedure), shutCycle, procedure);
  }

  /**
   * Mass in the element before the change at an interval, g; infinite without a repeating cycle.
   */
  double massG(double intervalH, ChangeProcedure procedure) {
    double all = circuit.retainedOfAllG(intervalH, procedure);
    if (!Double.isNaN(all)) {
      return all;
    }
    return sweep.retainedG(
        intervalH, procedure.backFlushShare(), procedure.handlingParticles(), cycle);
  }

  /** Mass in the element before the change of a cycle, g; infinite where it does not repeat. */
  static double massG(Cycle of) {
    return of.state() == Cycle.State.REPEATS ? of.retainedG() : Double.POSITIVE_INFINITY;
  }

  /**
   * Band counts at which the oil settles with the mass that the element has before the change: the
   * dirtiest of the cycle but for the wash-out. Null without a repeating cycle.
   */
  Bands dirtiestPerMl(double intervalH, ChangeProcedure procedure) {
    return settledPerMl(massG(intervalH, procedure));
  }

  /** Band counts at which the oil settles with a mass in the element; null if it is infinite. */
  Bands settledPerMl(double massG) {
    return Double.isInfinite(massG) ? null : circuit.steadyPerMl(massG);
  }
}
