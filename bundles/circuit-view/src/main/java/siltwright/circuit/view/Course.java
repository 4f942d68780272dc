package siltwright.circuit.view;

import java.util.Arrays;
import java.util.List;
import java.util.stream.DoubleStream;
import java.util.stream.IntStream;
import siltwright.analysis.Progress;
import siltwright.contamination.Circuit;
import siltwright.contamination.Simulation;
import siltwright.contamination.Simulation.Look;
import siltwright.contamination.Simulation.ServiceCycle;
import siltwright.contamination.Wear;
import siltwright.model.ChangeProcedure;
import siltwright.model.Machine;

/**
 * What the balance computes for one change of a machine: some cycles of today's interval and
 * procedure, then a change in a way of its own, and the cycle after it at even steps.
 *
 * @param machine the machine
 * @param procedure how the change is done
 * @param circuit its circuit
 * @param wear wear of its components, in their order
 * @param last the cycle that the change ends
 * @param minutes the minutes after the change, {@link #STEPS} + 1 even steps
 * @param cycle the cycle after the change, {@link #STEPS} + 1 even steps
 */
record Course(
    Machine machine,
    ChangeProcedure procedure,
    Circuit circuit,
    List<Wear> wear,
    ServiceCycle last,
    List<Look> minutes,
    List<Look> cycle) {
  /** Steps of each of the two courses. */
  static final int STEPS = 240;

  /** Cycles before the change: as many as a simulation runs when not told otherwise. */
  static final int CYCLES = 4;

  /** Time constants of the particles from 14 µm(c) on that the minutes after a change cover. */
  private static final double WASH_OUTS = 8;

  private static final int THIRD_OF_THE_CODE = 2;

  /** The two stretches of time that there are to go through. */
  enum Stretch {
    MINUTES,
    CYCLE
  }

  Course {
    wear = List.copyOf(wear);
    minutes = List.copyOf(minutes);
    cycle = List.copyOf(cycle);
  }

  /**
   * Computes the course of a change.
   *
   * @param machine the machine, serviced as today until then
   * @param procedure how the change is done
   * @param progress told how far it is
   * @throws java.util.concurrent.CancellationException if progress asks to stop
   */
  static Course of(Machine machine, ChangeProcedure procedure, Progress progress) {
    ChangeProcedure today = machine.procedure(machine.today().procedure()).orElse(procedure);
    double intervalH = machine.today().intervalH();
    Simulation simulation = Simulation.of(machine, today);
    double[] minutes =
        even(
            Math.min(
                simulation.washOutSpanH(intervalH),
                WASH_OUTS * simulation.circuit().washOutH(THIRD_OF_THE_CODE)));
    double[] cycle = even(intervalH);
    double[] hours =
        DoubleStream.concat(Arrays.stream(minutes), Arrays.stream(cycle))
            .sorted()
            .distinct()
            .toArray();
    Simulation.Aftermath after = simulation.after(intervalH, CYCLES, procedure, hours, progress);
    return new Course(
        machine,
        procedure,
        simulation.circuit(),
        Wear.of(machine),
        after.before().get(CYCLES - 1),
        at(minutes, hours, after.looks()),
        at(cycle, hours, after.looks()));
  }

  private static double[] even(double lengthH) {
    return IntStream.rangeClosed(0, STEPS).mapToDouble(i -> lengthH * i / STEPS).toArray();
  }

  private static List<Look> at(double[] some, double[] all, List<Look> looks) {
    return Arrays.stream(some).mapToObj(h -> looks.get(Arrays.binarySearch(all, h))).toList();
  }

  /** Returns the looks of a stretch. */
  List<Look> looks(Stretch stretch) {
    return stretch == Stretch.MINUTES ? minutes : cycle;
  }

  /** Returns the machine at a step of a stretch. */
  Look look(Stretch stretch, int step) {
    return looks(stretch).get(step);
  }
}
