package siltwright.contamination;

import java.util.List;
import java.util.concurrent.TimeUnit;
import java.util.stream.Stream;
import org.openjdk.jmh.annotations.Benchmark;
import org.openjdk.jmh.annotations.BenchmarkMode;
import org.openjdk.jmh.annotations.Fork;
import org.openjdk.jmh.annotations.Measurement;
import org.openjdk.jmh.annotations.Mode;
import org.openjdk.jmh.annotations.OutputTimeUnit;
import org.openjdk.jmh.annotations.Param;
import org.openjdk.jmh.annotations.Scope;
import org.openjdk.jmh.annotations.Setup;
import org.openjdk.jmh.annotations.State;
import org.openjdk.jmh.annotations.Warmup;
import siltwright.model.Bands;
import siltwright.model.ChangeProcedure;
import siltwright.model.Component;
import siltwright.model.Machine;

/**
 * What the kernel costs on one machine with four components. EX-01 is a hard one: cold starts open
 * its bypass even with a clean element, and its changes release so much that the bypass opens
 * further while that washes out. EX-02 is an ordinary one whose bypass opens late.
 */
@State(Scope.Thread)
@BenchmarkMode(Mode.SampleTime)
@OutputTimeUnit(TimeUnit.MICROSECONDS)
@Warmup(iterations = 5, time = 1)
@Measurement(iterations = 5, time = 1)
@Fork(1)
public class KernelBenchmark {
  private static final int INTERVALS = 64;
  private static final double SHORTEST_H = 25;
  private static final double LONGEST_H = 4000;

  /** Machine of the test fleet. */
  @Param({"EX-01", "EX-02"})
  public String id;

  private Circuit circuit;
  private List<Wear> wear;
  private double[] backFlush;
  private Bands[] handling;
  private double[] intervalH;
  private CycleSweep sweep;
  private Cycle cycle;
  private Balance balance;
  private double[] start;

  /** Makes the machine, and a sweep whose course is already as long as it gets. */
  @Setup
  public void machine() {
    Machine one = TestFleet.machine(id);
    Component pump = TestFleet.machine("EX-01").components().get(0);
    Machine machine =
        one.withComponents(Stream.of(0.5, 0.8, 1.0, 1.2).map(pump::withExponent).toList());
    circuit = Circuit.inTheLongRun(machine);
    wear = Wear.of(machine);
    ChangeProcedure given = machine.procedures().get(0);
    List<ChangeProcedure> procedures =
        List.of(given, given.withRelease(0.05, 50), given.withRelease(0.2, 100));
    backFlush = procedures.stream().mapToDouble(ChangeProcedure::backFlushShare).toArray();
    handling = procedures.stream().map(ChangeProcedure::handlingParticles).toArray(Bands[]::new);
    intervalH = new double[INTERVALS];
    for (int i = 0; i < INTERVALS; i++) {
      intervalH[i] = SHORTEST_H * Math.pow(LONGEST_H / SHORTEST_H, i / (INTERVALS - 1.0));
    }
    cycle = new Cycle(wear.size());
    sweep = new CycleSweep(circuit, wear);
    curve(sweep);
    balance = new Balance(circuit, wear);
    start = cycle.start.clone();
  }

  private double curve(CycleSweep s) {
    double sum = 0;
    for (int p = 0; p < backFlush.length; p++) {
      for (double t : intervalH) {
        s.fill(t, backFlush[p], handling[p], cycle);
        sum += cycle.state == Cycle.State.REPEATS ? cycle.meanWear(0) : 0;
      }
    }
    return sum;
  }

  /** 64 intervals up to 4000 h with three procedures, the course included. */
  @Benchmark
  public double costCurve() {
    return curve(new CycleSweep(circuit, wear));
  }

  /** The same once the course is there. */
  @Benchmark
  public double costCurveAgain() {
    return curve(sweep);
  }

  /** One interval, once the course is there. */
  @Benchmark
  public double oneFill() {
    sweep.fill(500, 0.2, Bands.ZERO, cycle);
    return cycle.massG;
  }

  /** One cycle of 500 h, stepped. */
  @Benchmark
  public double oneCycleStepped() {
    balance.counts(start);
    balance.fresh();
    balance.runTo(500);
    return balance.massG;
  }

  /** The same cycle by a general-purpose integrator at a relative tolerance of 1e-10. */
  @Benchmark
  public double oneCycleGeneral() {
    return new GeneralIntegrator(circuit, wear).cycle(start, 500)[0];
  }
}
