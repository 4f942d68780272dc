package siltwright.contamination;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.sun.management.ThreadMXBean;
import java.lang.management.ManagementFactory;
import java.util.ArrayList;
import java.util.List;
import java.util.Set;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.MethodSource;
import siltwright.model.Bands;
import siltwright.model.SizeBands;

@DisplayName("Repeating cycle against the stepped balance, which CVODE's table holds")
class CycleSweepTest {
  private static final double[] INTERVALS = {0.05, 0.2, 0.5, 1, 2};

  private static final double EXPOSURE = 1e-3;
  private static final double MASS = 1e-4;

  /** Share of the flow below which the element counts as passed by, as {@link Cycle} says. */
  private static final double LITTLE_MET = 1e-3;

  static List<ReferenceCase> cases() {
    return ReferenceCase.all();
  }

  /** Fills a cycle. */
  private interface Finder {
    void fill(double intervalH, double backFlush, Bands handling, Cycle out);
  }

  @ParameterizedTest(name = "{0}")
  @MethodSource("cases")
  void steppingTheFoundCycleLeadsBackToItsStart(ReferenceCase r) {
    leadsBack(r, new CycleSweep(r.circuit(), r.wear())::fill);
  }

  /** The slow way alone, which the sweep takes seldom. */
  @ParameterizedTest(name = "{0}")
  @MethodSource("cases")
  void soDoesACycleThatIsFoundThroughTime(ReferenceCase r) {
    Circuit c = r.circuit();
    SteppedCycles stepped = new SteppedCycles(c, r.wear());
    leadsBack(
        r,
        (intervalH, phi, handling, out) -> {
          if (expected(c, intervalH, phi, handling) == Cycle.State.REPEATS) {
            stepped.fill(intervalH, phi, handling.toArray(), out);
          } else {
            new CycleSweep(c, r.wear()).fill(intervalH, phi, handling, out);
          }
        });
  }

  private static void leadsBack(ReferenceCase r, Finder finder) {
    Circuit c = r.circuit();
    Balance balance = new Balance(c, r.wear());
    Cycle cycle = new Cycle(1);
    double phi = r.get("back_flush_share");
    Bands handling = Bands.of(r.bands("handling_#"));
    List<String> misses = new ArrayList<>();
    for (double share : INTERVALS) {
      double interval = share * r.get("interval_h");
      finder.fill(interval, phi, handling, cycle);
      String at = " at " + share;
      Cycle.State expected = expected(c, interval, phi, handling);
      if (cycle.state() != expected) {
        misses.add(cycle.state() + " instead of " + expected + at);
      }
      if (cycle.state() != Cycle.State.REPEATS) {
        continue;
      }
      balance.counts(cycle.start);
      balance.fresh();
      balance.runTo(interval);
      near("mass" + at, cycle.massG, balance.massG, MASS, 1e-12, misses);
      near("exposure" + at, cycle.exposureH[0], balance.exposureH[0], EXPOSURE, 0, misses);
      for (int j = 0; j < SizeBands.COUNT; j++) {
        String band = " of " + j + at;
        near("dose" + band, cycle.dose[j], balance.dose[j], EXPOSURE, 1e-9, misses);
        near("end" + band, cycle.end[j], balance.n[j], EXPOSURE, 1e-9, misses);
        double again = balance.n[j] + (phi * balance.retained[j] + handling.get(j)) / c.volumeMl;
        near("start" + band, again, cycle.start[j], EXPOSURE, 1e-9, misses);
        near(
            "released" + band,
            cycle.released[j],
            phi * cycle.retained[j] + handling.get(j),
            1e-9,
            1e-9,
            misses);
      }
    }
    assertTrue(misses.isEmpty(), () -> String.join("\n", misses));
  }

  /**
   * By hand: a band that comes in and that nothing takes out only grows. If nothing but the element
   * takes dirt out, each cycle's element must end with all that came in, of which the change gives
   * back the share phi: (1 - phi) M = in T + handling. If that is beyond its wall, or so much that
   * next to no flow meets the element any more, there is no such cycle.
   */
  private static Cycle.State expected(Circuit c, double interval, double phi, Bands handling) {
    double[] met = new double[2];
    c.met(0, met);
    double in = 0;
    boolean elsewhere = false;
    for (int j = 0; j < SizeBands.COUNT; j++) {
      double particles = (c.reservoirPerH[j] + c.returnPerH[j]) * interval + handling.get(j);
      boolean stays = c.supplyPerMlH(j, met[0]) > 0 || handling.get(j) > 0;
      if (stays && c.relaxationPerH(j, met[1]) == 0) {
        return Cycle.State.NO_WAY_OUT;
      }
      elsewhere |= c.sinkMlPerH[j] > 0;
      in += c.loadingG(j) * particles;
    }
    double mass = in / (1 - phi);
    c.met(Math.min(mass, c.blockedG), met);
    return elsewhere || mass < c.blockedG && met[1] > LITTLE_MET * c.meanFlowMlPerH
        ? Cycle.State.REPEATS
        : Cycle.State.OVERLOADED;
  }

  @ParameterizedTest
  @CsvSource({"1, 0.001", "1, 0.05", "1, 1", "1, 5", "300, 0.001", "300, 1"})
  void everyCycleConservesTheParticlesOfEachBand(double handling, double share) {
    // Where a cycle repeats itself, what came in and was let go went into the element or a sink:
    // in T + released = retained + sink ∫ n dt. It does not matter how the cycle was found.
    for (ReferenceCase r : cases()) {
      Circuit c = r.circuit();
      Cycle cycle = new Cycle(1);
      double t = share * r.get("interval_h");
      Bands particles = Bands.of(r.bands("handling_#")).times(handling);
      new CycleSweep(c, r.wear()).fill(t, r.get("back_flush_share"), particles, cycle);
      double mass = 0;
      for (int j = 0; j < SizeBands.COUNT && cycle.state() == Cycle.State.REPEATS; j++) {
        double in = (c.reservoirPerH[j] + c.returnPerH[j]) * t + cycle.released[j];
        double out = cycle.retained[j] + c.sinkMlPerH[j] * cycle.dose[j];
        assertEquals(in, out, 3e-5 * in, r + " band " + j);
        double again = cycle.end[j] + cycle.released[j] / c.volumeMl;
        assertEquals(again, cycle.start[j], 1e-5 * again, r + " band " + j);
        mass += c.loadingG(j) * cycle.retained[j];
      }
      if (cycle.state() == Cycle.State.REPEATS) {
        assertEquals(mass, cycle.massG, 1e-12 * mass, r::toString);
      }
    }
  }

  @Test
  void whileTheBypassIsShutACycleIsExact() {
    int found = 0;
    for (ReferenceCase r : cases()) {
      Circuit c = r.circuit();
      CycleSweep sweep = new CycleSweep(c, r.wear());
      Balance balance = new Balance(c, r.wear());
      for (double share : INTERVALS) {
        Cycle cycle = fill(sweep, r, share);
        if (cycle.state() != Cycle.State.REPEATS || !c.shut(cycle.massG)) {
          continue;
        }
        found++;
        balance.counts(cycle.start);
        balance.fresh();
        balance.runTo(cycle.intervalH());
        assertEquals(balance.massG, cycle.massG, 1e-12 * cycle.massG, r::toString);
        for (int j = 0; j < SizeBands.COUNT; j++) {
          assertEquals(balance.n[j], cycle.end[j], 1e-13 * cycle.end[j], r::toString);
          assertEquals(balance.dose[j], cycle.dose[j], 1e-13 * cycle.dose[j], r::toString);
        }
      }
    }
    assertTrue(found > 700, "cycles with a shut bypass: " + found);
  }

  @Test
  void eachComponentHasItsOwnWear() {
    // Three at once, the second worn by the finest with a floor, the third by all that is coarse
    for (ReferenceCase r : cases()) {
      Circuit c = r.circuit();
      double fine = 1 / (1 + r.bands("start_#_per_mL")[0]);
      List<Wear> wear =
          List.of(
              r.wear().get(0),
              new Wear(new double[] {fine, 0, 0, 0, 0, 0}, 1.5, 0.3),
              new Wear(new double[] {0, 0, 0.1, 0.2, 0.3, 0.4}, 0.7, 0.01));
      CycleSweep sweep = new CycleSweep(c, wear);
      Balance balance = new Balance(c, wear);
      Cycle cycle = new Cycle(3);
      for (double share : new double[] {0.2, 1}) {
        sweep.fill(
            share * r.get("interval_h"),
            r.get("back_flush_share"),
            Bands.of(r.bands("handling_#")),
            cycle);
        if (cycle.state() != Cycle.State.REPEATS) {
          continue;
        }
        balance.counts(cycle.start);
        balance.fresh();
        balance.runTo(cycle.intervalH());
        for (int i = 0; i < 3; i++) {
          double mean = balance.exposureH[i] / cycle.intervalH();
          assertEquals(mean, cycle.meanWear(i), 1.5e-3 * mean, r + " component " + i);
        }
      }
    }
  }

  @Test
  void mostCyclesAreCloserThanTheyMustBe() {
    // Regression, not truth: nine in ten of those whose bypass opens were found within 4.3e-8 of
    // the mass, 1.1e-5 of the doses and 6.0e-6 of the counts at the end.
    List<Double> mass = new ArrayList<>();
    List<Double> dose = new ArrayList<>();
    List<Double> end = new ArrayList<>();
    for (ReferenceCase r : cases()) {
      Circuit c = r.circuit();
      CycleSweep sweep = new CycleSweep(c, r.wear());
      Balance balance = new Balance(c, r.wear());
      for (double share : INTERVALS) {
        Cycle cycle = fill(sweep, r, share);
        if (cycle.state() != Cycle.State.REPEATS || c.shut(cycle.massG)) {
          continue;
        }
        balance.counts(cycle.start);
        balance.fresh();
        balance.runTo(cycle.intervalH());
        mass.add(Math.abs(balance.massG / cycle.massG - 1));
        for (int j = 0; j < SizeBands.COUNT; j++) {
          if (balance.dose[j] > 0) {
            dose.add(Math.abs(cycle.dose[j] / balance.dose[j] - 1));
            end.add(Math.abs(cycle.end[j] / balance.n[j] - 1));
          }
        }
      }
    }
    assertTrue(mass.size() > 500, () -> "cycles with an open bypass: " + mass.size());
    System.out.println("NINTH " + ninth(mass) + " " + ninth(dose) + " " + ninth(end));
    assertEquals(0, ninth(mass), 2e-7);
    assertEquals(0, ninth(dose), 2e-5);
    assertEquals(0, ninth(end), 8e-6);
  }

  /** What nine in ten do not exceed. */
  private static double ninth(List<Double> errors) {
    errors.sort(null);
    return errors.get(errors.size() * 9 / 10);
  }

  @Test
  void aCycleMuchShorterThanAWashOut() {
    // 1e-8 h: of a release y hardly any washes out, y z (1 - z/2) with z = t/tau about 6e-7, and
    // that is what comes in and the change lets in: V y z (1 - z/2) = (H + phi in t)/(1 - phi)
    Circuit c = Circuit.of(TestFleet.machine("EX-02"));
    Bands handling = Bands.of(1e9, 1e8, 1e7, 1e6, 1e5, 1e4);
    Cycle cycle = new Cycle(0);
    double t = 1e-8;
    new CycleSweep(c, List.of()).fill(t, 0.3, handling, cycle);
    assertEquals(Cycle.State.REPEATS, cycle.state());
    for (int j = 0; j < SizeBands.COUNT; j++) {
      double z = t / c.washOutH(j);
      double let = (handling.get(j) + 0.3 * c.returnPerH[j] * t) / 0.7;
      double y = let / (200_000 * z * (1 - z / 2));
      assertEquals(y + c.steadyPerMl(0).get(j), cycle.start[j], 1e-12 * y);
    }
  }

  @Test
  void aChangeThatReleasesNothingLeavesTheOilAsItIs() {
    // The bypass stays shut over 100 h, so counts and wear are those of the settled oil throughout.
    Circuit c = Circuit.of(TestFleet.machine("EX-02"));
    Bands settled = c.steadyPerMl(0);
    Wear wear = new Wear(new double[] {0.01, 0.02, 0, 0, 0, 0}, 2, 1e-9);
    Cycle cycle = new Cycle(1);
    new CycleSweep(c, List.of(wear)).fill(100, 0, Bands.ZERO, cycle);
    assertEquals(100, cycle.intervalH());
    assertEquals(Bands.ZERO, cycle.released());
    for (int j = 0; j < SizeBands.COUNT; j++) {
      double n = settled.get(j);
      assertEquals(n, cycle.startPerMl().get(j), 1e-9 * n);
      assertEquals(n, cycle.endPerMl().get(j), 1e-9 * n);
      assertEquals(n, cycle.meanPerMl(j), 1e-9 * n);
    }
    double x = 0.01 * settled.get(0) + 0.02 * settled.get(1);
    assertEquals(x * x, cycle.meanWear(0), 1e-9 * x * x);
    // 30 mg/h
    assertEquals(3, cycle.retainedG(), 1e-9);
  }

  @Test
  void whatNothingTakesOutHasNoCycle() {
    // The element lets the finest band through. Nothing of it may come in, by any way.
    Circuit.Builder b = cases().get(0).elementAlone();
    b.elementEfficiency = new double[] {0, 0.5, 0.8, 0.9, 0.98, 0.99};
    b.reservoirPerH = new double[] {0, 1e6, 1e5, 1e4, 1e3, 1e2};
    b.returnPerH = b.reservoirPerH;
    Bands none = Bands.of(0, 1e6, 0, 0, 0, 0);
    Cycle cycle = new Cycle(0);
    new CycleSweep(b.build(), List.of()).fill(100, 0.1, none, cycle);
    assertEquals(Cycle.State.REPEATS, cycle.state());
    assertEquals(0, cycle.meanPerMl(0));
    new CycleSweep(b.build(), List.of())
        .fill(100, 0.1, none.plus(Bands.of(1, 0, 0, 0, 0, 0)), cycle);
    assertEquals(Cycle.State.NO_WAY_OUT, cycle.state());
    b.returnPerH = new double[] {1, 1e6, 1e5, 1e4, 1e3, 1e2};
    new CycleSweep(b.build(), List.of()).fill(100, 0.1, none, cycle);
    assertEquals(Cycle.State.NO_WAY_OUT, cycle.state());
  }

  @Test
  void theCasesHoldEachState() {
    List<Cycle.State> states = new ArrayList<>();
    for (ReferenceCase r : cases()) {
      Bands handling = Bands.of(r.bands("handling_#"));
      states.add(expected(r.circuit(), r.get("interval_h"), r.get("back_flush_share"), handling));
    }
    assertEquals(Set.of(Cycle.State.values()), Set.copyOf(states));
  }

  @Test
  void theOrderOfRequestsDoesNotMatter() {
    for (ReferenceCase r : cases()) {
      Circuit c = r.circuit();
      CycleSweep rising = new CycleSweep(c, r.wear());
      CycleSweep falling = new CycleSweep(c, r.wear());
      List<Cycle> up = new ArrayList<>();
      List<Cycle> down = new ArrayList<>();
      for (int i = 0; i < INTERVALS.length; i++) {
        up.add(fill(rising, r, INTERVALS[i]));
        down.add(0, fill(falling, r, INTERVALS[INTERVALS.length - 1 - i]));
      }
      for (int i = 0; i < INTERVALS.length; i++) {
        assertEquals(numbers(up.get(i)), numbers(down.get(i)), r + " at " + INTERVALS[i]);
      }
    }
  }

  @Test
  void fillingAgainAllocatesNothing() {
    ThreadMXBean threads = (ThreadMXBean) ManagementFactory.getThreadMXBean();
    long thread = Thread.currentThread().getId();
    for (ReferenceCase r : cases().subList(0, 100)) {
      CycleSweep sweep = new CycleSweep(r.circuit(), r.wear());
      Bands handling = Bands.of(r.bands("handling_#"));
      double interval = r.get("interval_h");
      double phi = r.get("back_flush_share");
      Cycle cycle = new Cycle(1);
      sweep.fill(interval, phi, handling, cycle);
      sweep.fill(0.3 * interval, phi, handling, cycle);
      long before = threads.getThreadAllocatedBytes(thread);
      sweep.fill(interval, phi, handling, cycle);
      sweep.fill(0.3 * interval, phi, handling, cycle);
      assertEquals(before, threads.getThreadAllocatedBytes(thread), r::toString);
    }
  }

  private static Cycle fill(CycleSweep sweep, ReferenceCase r, double share) {
    Cycle cycle = new Cycle(1);
    sweep.fill(
        share * r.get("interval_h"),
        r.get("back_flush_share"),
        Bands.of(r.bands("handling_#")),
        cycle);
    return cycle;
  }

  private static List<Object> numbers(Cycle c) {
    return c.state() != Cycle.State.REPEATS
        ? List.of(c.state())
        : List.of(
            c.retainedG(),
            c.startPerMl(),
            c.endPerMl(),
            c.retained(),
            c.released(),
            c.meanPerMl(0),
            c.meanWear(0));
  }

  private static void near(
      String what,
      double got,
      double expected,
      double relative,
      double absolute,
      List<String> misses) {
    if (!(Math.abs(got - expected) <= relative * Math.abs(expected) + absolute)) {
      misses.add(what + ": " + got + " instead of " + expected);
    }
  }
}
