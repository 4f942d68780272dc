package siltwright.contamination;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.stream.IntStream;
import siltwright.analysis.Progress;
import siltwright.cleanliness.Iso4406;
import siltwright.model.Bands;
import siltwright.model.ChangeProcedure;
import siltwright.model.Machine;
import siltwright.model.OilChange;
import siltwright.model.SizeBands;

/**
 * Runs a machine through a number of service cycles from a fresh element on.
 *
 * <p>The first cycle begins with the counts that the machine is said to start with. Each change
 * fits a fresh element and releases what its procedure lets go, at once. The oil is exchanged at
 * its own hours; where that falls together with a change of the element, the oil goes first.
 */
public final class Simulation {
  private static final int J = SizeBands.COUNT;
  private static final int MOST_MOMENTS = 4000;
  private static final int WASH_OUT_MOMENTS = 24;
  private static final int EVEN_MOMENTS = 48;
  private static final int FINE_MOMENTS = 120;

  /** Longest time constants that the minutes after a change cover. */
  private static final double WASH_OUTS = 8;

  /** Shortest time constants at which they begin. */
  private static final double FIRST_LOOK = 0.05;

  private static final double LONGEST_WASH_OUT_H = 4;

  private final Machine machine;
  private final ChangeProcedure procedure;
  private final Circuit circuit;
  private final List<Wear> wear;
  private final int indicatorState;
  private final double[] opensAtG;
  private final double tripsAtG;

  private Simulation(Machine machine, ChangeProcedure procedure) {
    this.machine = machine;
    this.procedure = procedure;
    circuit = Circuit.of(machine);
    wear = Wear.of(machine);
    OptionalDouble setting = machine.returnFilter().indicatorKPa();
    indicatorState = setting.isPresent() ? machine.indicatorStateIndex() : -1;
    opensAtG = IntStream.range(0, circuit.states()).mapToDouble(circuit::bypassOpensAtG).toArray();
    tripsAtG =
        setting.isPresent()
            ? circuit.massAtReadingG(indicatorState, setting.getAsDouble())
            : Double.POSITIVE_INFINITY;
  }

  /** Returns the simulation of a machine whose element is always changed in the same way. */
  public static Simulation of(Machine machine, ChangeProcedure procedure) {
    return new Simulation(machine, procedure);
  }

  /**
   * A service cycle and the change that ends it.
   *
   * @param number 1 for the first
   * @param startH hour at which it begins
   * @param endH hour of the change
   * @param startPerMl band counts at its start, 1/mL
   * @param endPerMl band counts just before the change, 1/mL
   * @param afterChangePerMl band counts just after the change, release mixed in, 1/mL
   * @param passing particles of each band that went through the pump
   * @param retained particles of each band in the element just before the change
   * @param retainedG mass in the element then, its fines with it, g
   * @param releasedG mass that the change released into the tank, within the bands, g
   * @param dropKPa pressure drop over element and bypass in each duty state at the end, kPa
   * @param bypassShare share of the flow past the element in each duty state at the end
   * @param readingKPa what the indicator reads at the end in its state, kPa; not a number without
   * @param bypassOpensH hour of the cycle at which the bypass begins to open in each duty state;
   *     infinite if it does not
   * @param indicatorTripsH hour of the cycle at which the indicator trips; infinite if it does not
   * @param wornH hours at reference cleanliness that wear each component as much, h
   */
  public record ServiceCycle(
      int number,
      double startH,
      double endH,
      Bands startPerMl,
      Bands endPerMl,
      Bands afterChangePerMl,
      Bands passing,
      Bands retained,
      double retainedG,
      double releasedG,
      List<Double> dropKPa,
      List<Double> bypassShare,
      double readingKPa,
      List<Double> bypassOpensH,
      double indicatorTripsH,
      List<Double> wornH) {
    public ServiceCycle {
      dropKPa = List.copyOf(dropKPa);
      bypassShare = List.copyOf(bypassShare);
      bypassOpensH = List.copyOf(bypassOpensH);
      wornH = List.copyOf(wornH);
    }
  }

  /**
   * The machine at a moment.
   *
   * @param cycle number of the service cycle
   * @param timeH hour since the beginning
   * @param elementH hour since the element was fitted
   * @param perMl band counts, 1/mL
   * @param retainedG mass in the element, its fines with it, g
   * @param dropKPa pressure drop over element and bypass in each duty state, kPa
   * @param bypassShare share of the flow past the element in each duty state
   * @param readingKPa what the indicator reads in its state, kPa; not a number without one
   */
  public record Moment(
      int cycle,
      double timeH,
      double elementH,
      Bands perMl,
      double retainedG,
      List<Double> dropKPa,
      List<Double> bypassShare,
      double readingKPa) {
    public Moment {
      dropKPa = List.copyOf(dropKPa);
      bypassShare = List.copyOf(bypassShare);
    }
  }

  /**
   * What a simulation gave.
   *
   * @param cycles the cycles in order
   * @param moments the course of all cycles; close together in the minutes after a change, then
   *     even; fewer a cycle where there are many cycles
   * @param washOut the minutes after the change that ends the last cycle
   */
  public record Run(List<ServiceCycle> cycles, List<Moment> moments, List<Moment> washOut) {
    public Run {
      cycles = List.copyOf(cycles);
      moments = List.copyOf(moments);
      washOut = List.copyOf(washOut);
    }
  }

  /**
   * A moment after a change.
   *
   * @param moment the machine then
   * @param passing particles of each band that went through the pump since the change
   */
  public record Look(Moment moment, Bands passing) {}

  /**
   * A change and what came of it.
   *
   * @param before the cycles up to the change, which ends the last of them
   * @param looks the machine at the hours asked for after it
   */
  public record Aftermath(List<ServiceCycle> before, List<Look> looks) {
    public Aftermath {
      before = List.copyOf(before);
      looks = List.copyOf(looks);
    }
  }

  /** Returns the circuit that is simulated. */
  public Circuit circuit() {
    return circuit;
  }

  /**
   * Runs some cycles.
   *
   * @param intervalH hours from change to change, above 0
   * @param cycles how many cycles, at least 1
   * @param progress told after each cycle
   * @throws java.util.concurrent.CancellationException if progress asks to stop
   */
  public Run run(double intervalH, int cycles, Progress progress) {
    Course course = new Course(intervalH, cycles);
    for (int i = 1; i <= cycles; i++) {
      course.cycle(i, procedure);
      progress.check((double) i / cycles, "cycle " + i + " of " + cycles);
    }
    return new Run(course.done, course.moments, course.washOut(cycles + 1));
  }

  /**
   * Runs some cycles and then looks at the next one, when the last change is done in a way of its
   * own: what one change makes of the same machine with the same past.
   *
   * @param intervalH hours from change to change, above 0
   * @param cycles how many cycles end with a change, at least 1
   * @param last how the last of these changes is done
   * @param hours hours after it at which to look, rising from 0, at most the interval; not modified
   * @param progress told after each cycle
   * @throws java.util.concurrent.CancellationException if progress asks to stop
   */
  public Aftermath after(
      double intervalH, int cycles, ChangeProcedure last, double[] hours, Progress progress) {
    Course course = new Course(intervalH, cycles);
    for (int i = 1; i <= cycles; i++) {
      course.cycle(i, i < cycles ? procedure : last);
      progress.check(i / (cycles + 1.0), "cycle " + i + " of " + cycles);
    }
    return new Aftermath(course.done, course.looks(cycles + 1, hours, progress));
  }

  /**
   * Returns the hours after a change in which nearly all of it washes out.
   *
   * @param intervalH hours from change to change, above 0
   * @return hours, at most the interval; at most some hours where the wash-out takes for ever
   */
  public double washOutSpanH(double intervalH) {
    return Math.min(intervalH, WASH_OUTS * slowestWashOutH());
  }

  private double fastestWashOutH() {
    double least = LONGEST_WASH_OUT_H;
    for (int j = 0; j < J; j++) {
      least = Math.min(least, circuit.washOutH(j));
    }
    return least;
  }

  private double slowestWashOutH() {
    double most = 0;
    for (int j = 0; j < J; j++) {
      most = Math.max(most, Math.min(LONGEST_WASH_OUT_H, circuit.washOutH(j)));
    }
    return most;
  }

  /** The state of one run. */
  private final class Course {
    private final double intervalH;
    private final Balance balance = new Balance(circuit, wear);
    private final List<ServiceCycle> done = new ArrayList<>();
    private final List<Moment> moments = new ArrayList<>();
    private final double[] lookH;
    private final Optional<OilChange> oil = machine.oilChange();
    private long oilChanges;
    private double[] opensH = new double[circuit.states()];
    private double tripsH;

    Course(double intervalH, int cycles) {
      this.intervalH = intervalH;
      lookH = looks(MOST_MOMENTS / cycles);
      balance.counts(machine.startAtPerMl().toArray());
    }

    /** Hours of a cycle at which to look: minutes after the change first, then even. */
    private double[] looks(int most) {
      int all = Math.max(4, Math.min(most, WASH_OUT_MOMENTS + EVEN_MOMENTS));
      int early = all * WASH_OUT_MOMENTS / (WASH_OUT_MOMENTS + EVEN_MOMENTS);
      double washOut = Math.min(intervalH / 2, WASH_OUTS * slowestWashOutH());
      double first = Math.min(washOut, FIRST_LOOK * fastestWashOutH());
      double[] hours = new double[all];
      for (int i = 0; i < early; i++) {
        hours[i] = first * Math.pow(washOut / first, (i + 1.0) / early);
      }
      for (int i = early; i < all; i++) {
        hours[i] = washOut + (intervalH - washOut) * (i + 1 - early) / (all - early);
      }
      hours[all - 1] = intervalH;
      return hours;
    }

    void cycle(int number, ChangeProcedure change) {
      double startH = (number - 1) * intervalH;
      final Bands start = Bands.of(balance.n);
      Arrays.fill(opensH, Double.POSITIVE_INFINITY);
      tripsH = Double.POSITIVE_INFINITY;
      watch(0, -1);
      moments.add(moment(number, startH));
      for (double look : lookH) {
        runTo(startH, look);
        moments.add(moment(number, startH));
      }
      Moment end = moments.get(moments.size() - 1);
      final Bands retained = Bands.of(balance.retained);
      exchangeOilUpTo(startH + intervalH);
      Bands released = retained.times(change.backFlushShare()).plus(change.handlingParticles());
      for (int j = 0; j < J; j++) {
        balance.release(j, released.get(j));
      }
      done.add(
          new ServiceCycle(
              number,
              startH,
              startH + intervalH,
              start,
              end.perMl(),
              Bands.of(balance.n),
              Bands.of(balance.dose).times(circuit.meanFlowMlPerH),
              retained,
              end.retainedG(),
              SizeBands.massG(released.toArray()),
              end.dropKPa(),
              end.bypassShare(),
              end.readingKPa(),
              boxed(opensH),
              tripsH,
              boxed(balance.exposureH)));
      balance.fresh();
    }

    /** The minutes after the last change. */
    List<Moment> washOut(int number) {
      List<Moment> after = new ArrayList<>();
      double startH = (number - 1) * intervalH;
      double lastH = washOutSpanH(intervalH);
      for (int i = 0; i <= FINE_MOMENTS; i++) {
        balance.runTo(lastH * i / FINE_MOMENTS);
        after.add(moment(number, startH));
      }
      return after;
    }

    /** The cycle after the last change, at chosen hours. */
    List<Look> looks(int number, double[] hours, Progress progress) {
      List<Look> looks = new ArrayList<>();
      double startH = (number - 1) * intervalH;
      for (double hour : hours) {
        runTo(startH, hour);
        looks.add(
            new Look(moment(number, startH), Bands.of(balance.dose).times(circuit.meanFlowMlPerH)));
        progress.check((number - 1 + hour / intervalH) / number, "the cycle after the change");
      }
      return looks;
    }

    /** Runs on to an hour of the cycle, exchanging the oil on the way. */
    private void runTo(double startH, double hour) {
      while (oil.isPresent() && nextOilChangeH() - startH < hour) {
        steps(Math.max(balance.timeH, nextOilChangeH() - startH));
        exchangeOil();
      }
      steps(hour);
    }

    private void exchangeOilUpTo(double timeH) {
      while (oil.isPresent() && nextOilChangeH() <= timeH * (1 + 1e-12)) {
        exchangeOil();
      }
    }

    private double nextOilChangeH() {
      return (oilChanges + 1) * oil.orElseThrow().intervalH();
    }

    private void exchangeOil() {
      OilChange change = oil.orElseThrow();
      balance.exchangeOil(
          change.replacedShare(), SizeBands.toBands(Iso4406.cumulativePerMl(change.newOil())));
      oilChanges++;
    }

    private void steps(double hour) {
      while (balance.timeH < hour) {
        double fromH = balance.timeH;
        double fromG = balance.massG;
        balance.step(hour);
        watch(fromH, fromG);
      }
    }

    /** Notes when the bypass opens and the indicator trips; within a step the mass grows evenly. */
    private void watch(double fromH, double fromG) {
      for (int k = 0; k < opensH.length; k++) {
        opensH[k] = Math.min(opensH[k], reached(opensAtG[k], fromH, fromG));
      }
      tripsH = Math.min(tripsH, reached(tripsAtG, fromH, fromG));
    }

    private double reached(double atG, double fromH, double fromG) {
      // The stepping stops where a bypass opens, to within a hair.
      if (balance.massG < atG * (1 - 1e-7) || fromG >= atG) {
        return Double.POSITIVE_INFINITY;
      }
      double rise = balance.massG - fromG;
      double share = rise > 0 ? Math.min(1, (atG - fromG) / rise) : 1;
      return fromH + share * (balance.timeH - fromH);
    }

    private Moment moment(int number, double startH) {
      List<Double> drop = new ArrayList<>();
      List<Double> bypass = new ArrayList<>();
      double massG = Math.max(0, balance.massG);
      for (int k = 0; k < circuit.states(); k++) {
        drop.add(circuit.dropKPa(k, massG));
        bypass.add(circuit.bypassShare(k, massG));
      }
      return new Moment(
          number,
          startH + balance.timeH,
          balance.timeH,
          Bands.of(balance.n),
          massG,
          drop,
          bypass,
          indicatorState < 0 ? Double.NaN : circuit.readingKPa(indicatorState, massG));
    }
  }

  private static List<Double> boxed(double[] values) {
    return Arrays.stream(values).boxed().toList();
  }
}
