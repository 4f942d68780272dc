package siltwright.contamination;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.concurrent.CancellationException;
import java.util.stream.IntStream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import siltwright.analysis.Progress;
import siltwright.cleanliness.Iso4406;
import siltwright.contamination.Simulation.Moment;
import siltwright.contamination.Simulation.Run;
import siltwright.contamination.Simulation.ServiceCycle;
import siltwright.model.ChangeProcedure;
import siltwright.model.Machine;
import siltwright.model.OilChange;
import siltwright.model.SizeBands;

class SimulationTest {
  private static final int J = SizeBands.COUNT;

  private final Machine machine = TestFleet.machine("EX-01");
  private final ChangeProcedure pull = machine.procedure("pull-in-place").orElseThrow();

  private Run run(double intervalH, int cycles) {
    return Simulation.of(machine, pull).run(intervalH, cycles, Progress.NONE);
  }

  @Test
  void theFirstCycleStartsFreshAtTheCountsGiven() {
    Moment first = run(500, 1).moments().get(0);
    assertEquals(0, first.timeH());
    assertEquals(0, first.retainedG());
    assertEquals(machine.startAtPerMl(), first.perMl());
    double[] cumulative = SizeBands.toCumulative(first.perMl().toArray());
    assertEquals(5000, cumulative[0], 1e-9);
    assertEquals(1200, cumulative[1], 1e-9);
    assertEquals(100, cumulative[2], 1e-9);
  }

  @Test
  void lookingOftenChangesNothing() {
    // The same two cycles stepped without a stop but the oil change at 750 h, in the second.
    Balance balance = new Balance(Circuit.of(machine), Wear.of(machine));
    balance.counts(machine.startAtPerMl().toArray());
    balance.fresh();
    balance.runTo(500);
    Run run = run(500, 2);
    same(balance, run.cycles().get(0));
    for (int j = 0; j < J; j++) {
      balance.release(j, 0.2 * balance.retained[j] + pull.handlingParticles().get(j));
    }
    balance.fresh();
    balance.runTo(250);
    OilChange change = machine.oilChange().orElseThrow();
    double[] newOil = SizeBands.toBands(Iso4406.cumulativePerMl(change.newOil()));
    for (int j = 0; j < J; j++) {
      balance.n[j] = 0.1 * balance.n[j] + 0.9 * newOil[j];
    }
    balance.runTo(500);
    same(balance, run.cycles().get(1));
  }

  private static void same(Balance balance, ServiceCycle cycle) {
    assertEquals(balance.massG, cycle.retainedG(), 1e-4 * balance.massG);
    double flow = Circuit.of(TestFleet.machine("EX-01")).meanFlowMlPerH;
    for (int j = 0; j < J; j++) {
      double passing = flow * balance.dose[j];
      assertEquals(passing, cycle.passing().get(j), 1e-3 * passing);
      assertEquals(balance.n[j], cycle.endPerMl().get(j), 1e-3 * balance.n[j]);
      assertEquals(balance.retained[j], cycle.retained().get(j), 1e-4 * balance.retained[j]);
    }
    assertEquals(balance.exposureH[0], cycle.wornH().get(0), 1e-3 * balance.exposureH[0]);
  }

  @Test
  void aChangeReleasesItsShareAndTheHandlingDirt() {
    ServiceCycle c = run(500, 1).cycles().get(0);
    double massG = 0;
    for (int j = 0; j < J; j++) {
      double released = 0.2 * c.retained().get(j) + pull.handlingParticles().get(j);
      double after = c.endPerMl().get(j) + released / 300_000;
      assertEquals(after, c.afterChangePerMl().get(j), 1e-9 * after);
      massG += released * SizeBands.particleG(j);
    }
    assertEquals(massG, c.releasedG(), 1e-9);
    // 100 mg of handling dirt and a fifth of what the element held within the bands
    assertEquals(0.1 + 0.2 * c.retainedG(), c.releasedG(), 1e-9);
  }

  @Test
  void theNextCycleStartsWhereTheChangeLeftTheOil() {
    List<ServiceCycle> cycles = run(500, 3).cycles();
    assertEquals(cycles.get(0).afterChangePerMl(), cycles.get(1).startPerMl());
    assertEquals(cycles.get(1).endH(), cycles.get(2).startH());
  }

  @Test
  void oilThatGoesWithTheElementGoesFirst() {
    // 750 h: both at once. n' = 0.1 n + 0.9 new + S/V
    ServiceCycle c = run(750, 1).cycles().get(0);
    OilChange change = machine.oilChange().orElseThrow();
    double[] newOil = SizeBands.toBands(Iso4406.cumulativePerMl(change.newOil()));
    for (int j = 0; j < J; j++) {
      double released = 0.2 * c.retained().get(j) + pull.handlingParticles().get(j);
      double after = 0.1 * c.endPerMl().get(j) + 0.9 * newOil[j] + released / 300_000;
      assertEquals(after, c.afterChangePerMl().get(j), 1e-9 * after);
    }
  }

  @Test
  void cyclesSettleOnTheOneThatRepeatsItself() {
    Machine plain = TestFleet.machine("EX-02");
    ChangeProcedure lift = plain.procedure("lift-out").orElseThrow();
    for (double intervalH : new double[] {2, 400, 3000}) {
      List<ServiceCycle> cycles =
          Simulation.of(plain, lift).run(intervalH, 12, Progress.NONE).cycles();
      Cycle repeating = new Cycle(0);
      new CycleSweep(Circuit.of(plain), List.of()).fill(intervalH, lift, repeating);
      ServiceCycle last = cycles.get(cycles.size() - 1);
      assertEquals(repeating.retainedG(), last.retainedG(), 1e-4 * last.retainedG());
      for (int j = 0; j < J; j++) {
        double start = repeating.startPerMl().get(j);
        assertEquals(start, last.afterChangePerMl().get(j), 1e-3 * start);
        double end = repeating.endPerMl().get(j);
        assertEquals(end, last.endPerMl().get(j), 1e-3 * end);
      }
    }
  }

  @Test
  void hoursOfBypassAndIndicatorAreThoseOfTheirMass() {
    Simulation simulation = Simulation.of(machine, pull);
    ServiceCycle c = simulation.run(700, 1, Progress.NONE).cycles().get(0);
    Circuit circuit = simulation.circuit();
    Balance balance = new Balance(circuit, Wear.of(machine));
    balance.counts(machine.startAtPerMl().toArray());
    balance.fresh();
    assertEquals(0, c.bypassOpensH().get(0), "open when cold");
    assertTrue(c.indicatorTripsH() < c.bypassOpensH().get(1));
    balance.runTo(c.indicatorTripsH());
    assertEquals(120, circuit.readingKPa(1, balance.massG), 0.05);
    balance.runTo(c.bypassOpensH().get(1));
    assertEquals(150, circuit.dropKPa(1, balance.massG), 0.05);
    assertEquals(0, circuit.bypassShare(1, balance.massG * 0.9999));
  }

  @Test
  void momentsAreCloseTogetherAfterAChange() {
    List<Moment> moments = run(500, 2).moments();
    double before = 0;
    for (Moment m : moments) {
      assertTrue(m.timeH() >= before);
      before = m.timeH();
    }
    assertEquals(1000, before, 1e-9);
    long firstMinutes =
        moments.stream().filter(m -> m.cycle() == 2 && m.elementH() < 10 / 60.0).count();
    assertTrue(firstMinutes > 12, () -> "" + firstMinutes);
  }

  @ParameterizedTest
  @CsvSource({"400, 1, 24, 48", "0.2, 1, 24, 48", "400, 100, 13, 27", "400, 2000, 1, 3"})
  void aRunLooksOftenFirstAndThenEvenly(double intervalH, int cycles, int early, int even) {
    // EX-02: V/(Q e), at the best a minute (200 L at 200 L/min, e next to 1). From a twentieth of
    // the shortest wash-out to eight of the longest, or half the interval, in equal ratios; then in
    // equal steps to the end. 4000 looks in all, at least four a cycle.
    Machine plain = TestFleet.machine("EX-02");
    Simulation simulation = Simulation.of(plain, plain.procedure("lift-out").orElseThrow());
    List<Moment> moments = simulation.run(intervalH, cycles, Progress.NONE).moments();
    assertEquals(cycles * (1 + early + even), moments.size());
    double[] hours =
        moments.stream().limit(1 + early + even).mapToDouble(Moment::elementH).toArray();
    double[] tau = IntStream.range(0, J).mapToDouble(simulation.circuit()::washOutH).toArray();
    double washOut = Math.min(intervalH / 2, 8 * Arrays.stream(tau).max().orElseThrow());
    double first = Arrays.stream(tau).min().orElseThrow() / 20;
    assertEquals(0, hours[0]);
    assertEquals(washOut, hours[early], 1e-12 * washOut);
    for (int i = 1; i < early; i++) {
      double expected = first * Math.pow(washOut / first, (double) i / early);
      assertEquals(expected, hours[i], 1e-12);
    }
    for (int i = 1; i <= even; i++) {
      double expected = washOut + (intervalH - washOut) * i / even;
      assertEquals(expected, hours[early + i], 1e-12 * expected);
    }
    assertEquals(intervalH, hours[early + even]);
  }

  @Test
  void progressTellsTheShareThatIsDone() {
    List<Double> shares = new ArrayList<>();
    Progress progress = (share, doing) -> shares.add(share);
    Simulation simulation = Simulation.of(machine, pull);
    simulation.run(100, 4, progress);
    assertEquals(List.of(0.25, 0.5, 0.75, 1.0), shares);
    shares.clear();
    // three cycles and the one after them, of which a half and all
    simulation.after(100, 3, pull, new double[] {50, 100}, progress);
    assertEquals(List.of(0.25, 0.5, 0.75, 0.875, 1.0), shares);
  }

  @Test
  void onlyTheLastChangeIsDoneInItsOwnWay() {
    ChangeProcedure clean = pull.withRelease(0, 0);
    Simulation simulation = Simulation.of(machine, pull);
    List<ServiceCycle> usual = simulation.run(300, 3, Progress.NONE).cycles();
    List<ServiceCycle> before =
        simulation.after(300, 3, clean, new double[] {0}, Progress.NONE).before();
    assertEquals(usual.subList(0, 2), before.subList(0, 2));
    assertEquals(0, before.get(2).releasedG());
    assertEquals(usual.get(2).retained(), before.get(2).retained());
    assertTrue(usual.get(2).releasedG() > 0.1);
  }

  @Test
  void oilIsExchangedAtItsHourBetweenTwoLooks() {
    // 750 h fall into the second cycle of 500 h, at its hour 250, far from both looks.
    Simulation simulation = Simulation.of(machine, pull);
    Simulation.Look end =
        simulation.after(500, 1, pull, new double[] {0, 500}, Progress.NONE).looks().get(1);
    Balance balance = new Balance(simulation.circuit(), List.of());
    balance.counts(run(500, 1).cycles().get(0).afterChangePerMl().toArray());
    balance.runTo(250);
    OilChange change = machine.oilChange().orElseThrow();
    balance.exchangeOil(
        change.replacedShare(), SizeBands.toBands(Iso4406.cumulativePerMl(change.newOil())));
    balance.runTo(500);
    for (int j = 0; j < J; j++) {
      double passing = simulation.circuit().meanFlowMlPerH * balance.dose[j];
      assertEquals(passing, end.passing().get(j), 1e-3 * passing);
    }
  }

  @Test
  void anAftermathIsLookedAtAsTheNextCycleOfARun() {
    Simulation simulation = Simulation.of(machine, pull);
    List<Moment> second =
        simulation.run(400, 2, Progress.NONE).moments().stream()
            .filter(m -> m.cycle() == 2)
            .toList();
    double[] hours = second.stream().mapToDouble(Moment::elementH).toArray();
    assertEquals(
        second,
        simulation.after(400, 1, pull, hours, Progress.NONE).looks().stream()
            .map(Simulation.Look::moment)
            .toList());
  }

  @Test
  void aMachineWithoutAnIndicatorHasNoReading() {
    Machine plain = TestFleet.machine("EX-02");
    ServiceCycle c =
        Simulation.of(plain, plain.procedure("lift-out").orElseThrow())
            .run(400, 1, Progress.NONE)
            .cycles()
            .get(0);
    assertTrue(Double.isNaN(c.readingKPa()));
    assertEquals(Double.POSITIVE_INFINITY, c.indicatorTripsH());
  }

  @Test
  void aWashOutSpansEightOfItsLongestTimeConstants() {
    Simulation simulation = Simulation.of(machine, pull);
    double slowest = 0;
    for (int j = 0; j < J; j++) {
      slowest = Math.max(slowest, simulation.circuit().washOutH(j));
    }
    assertEquals(8 * slowest, simulation.washOutSpanH(500), 1e-12);
    assertEquals(0.01, simulation.washOutSpanH(0.01));
    List<Moment> after = run(500, 1).washOut();
    assertEquals(121, after.size());
    assertEquals(8 * slowest, after.get(120).elementH(), 1e-12);
    assertEquals(4 * slowest, after.get(60).elementH(), 1e-12);
    assertEquals(500 + 8 * slowest, after.get(120).timeH(), 1e-9);
    assertEquals(2, after.get(0).cycle());
  }

  @Test
  void manyCyclesStaySmall() {
    Run run = run(500, 1000);
    assertEquals(1000, run.cycles().size());
    assertTrue(run.moments().size() <= 5000, () -> "" + run.moments().size());
    assertEquals(500_000, run.moments().get(run.moments().size() - 1).timeH(), 1e-6);
  }

  @Test
  void theMinutesAfterTheLastChangeFollowItsRelease() {
    Run run = run(500, 1);
    List<Moment> after = run.washOut();
    assertEquals(run.cycles().get(0).afterChangePerMl(), after.get(0).perMl());
    double tauH = Circuit.of(machine).washOutH(3);
    Moment first = after.get(1);
    // Large particles: next to nothing comes in, so the count falls by e^(-t/tau) at first, and at
    // most a few per cent slower as the bypass opens for what the element takes up.
    double expected = after.get(0).perMl().get(3) * Math.exp(-first.elementH() / tauH);
    assertEquals(expected, first.perMl().get(3), 0.05 * expected);
  }

  @Test
  void stopsWhenAsked() {
    assertThrows(
        CancellationException.class,
        () -> Simulation.of(machine, pull).run(500, 5, (share, doing) -> share < 0.5));
  }
}
