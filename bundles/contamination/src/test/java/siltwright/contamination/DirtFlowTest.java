package siltwright.contamination;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import java.util.Random;
import org.junit.jupiter.api.Test;
import siltwright.analysis.Progress;
import siltwright.model.Bands;
import siltwright.model.ChangeProcedure;
import siltwright.model.Loading;
import siltwright.model.Machine;
import siltwright.model.SizeBands;

/** What goes where adds up to the balance, whatever the machine. Checks by hand and laws. */
class DirtFlowTest {
  private static final int J = SizeBands.COUNT;

  @Test
  void byHand() {
    // One state of 100 L/min, 1000 particles a mL in the first band, filter takes 0.8 of the flow,
    // e = 1 - 1/5 = 0.8, f = 0.5; pressure filter keeps a half; 6e9 an hour come in on the way.
    Circuit.Builder b = builder();
    b.filteredShare = 0.8;
    b.fieldEfficiency = 0.5;
    b.elementEfficiency = new double[] {0.8, 0, 0, 0, 0, 0};
    b.pressureCapture = new double[] {0.5, 0, 0, 0, 0, 0};
    b.returnPerH = new double[] {6e9, 0, 0, 0, 0, 0};
    b.reservoirPerH = new double[] {2e9, 0, 0, 0, 0, 0};
    // the loop, 10 L/min, keeps three quarters; half of 200 L settles in an hour
    b.offlineLPerMin = 10;
    b.offlineEfficiency = new double[] {0.75, 0, 0, 0, 0, 0};
    b.settlingPerH = new double[] {0.5, 0, 0, 0, 0, 0};
    DirtFlow flow = DirtFlow.of(b.build(), 0, Bands.of(1000, 0, 0, 0, 0, 0), 0);
    assertEquals(6e9, flow.pump().particlesPerH().get(0), 1);
    assertEquals(1000, flow.pump().perMl().get(0), 1e-9);
    assertEquals(3e9, flow.behindPressureFilter().particlesPerH().get(0), 1);
    assertEquals(9e9, flow.returnLine().particlesPerH().get(0), 1);
    assertEquals(1500, flow.returnLine().perMl().get(0), 1e-9);
    assertEquals(20, flow.pastFilter().flowLPerMin(), 1e-12);
    assertEquals(1.8e9, flow.pastFilter().particlesPerH().get(0), 1);
    assertEquals(7.2e9, flow.element().particlesPerH().get(0), 1);
    assertEquals(0.4 * 7.2e9, flow.keptByElementPerH().get(0), 10);
    assertEquals(0, flow.bypass().flowLPerMin());
    assertEquals(80, flow.behindFilter().flowLPerMin(), 1e-12);
    assertEquals(Bands.ZERO, flow.bypass().perMl(), "nothing flows");
    assertEquals(3e9, flow.keptByPressureFilterPerH().get(0), 1);
    assertEquals(10, flow.offline().flowLPerMin());
    assertEquals(6e8, flow.offline().particlesPerH().get(0), 1);
    assertEquals(250, flow.behindOffline().perMl().get(0), 1e-9);
    assertEquals(4.5e8, flow.keptOfflinePerH().get(0), 1);
    assertEquals(1e8, flow.settlingPerH().get(0), 1);
    assertEquals(2e9, flow.reservoirPerH().get(0));
    assertEquals(6e9, flow.returnPerH().get(0));
    // 1.6314e-10 g a particle: π/6 · 24^1.5 µm³ at 2.65 g/cm³
    assertEquals(6e9 * 1.6314e-7, flow.pump().mgPerH(), 0.1);
    assertEquals(1e8 * 1.6314e-7, DirtFlow.mgPerH(flow.settlingPerH()), 0.01);
  }

  @Test
  void addsUpToTheBalance() {
    Random random = new Random(5);
    for (int i = 0; i < 200; i++) {
      Circuit.Builder b = builder();
      b.share = new double[] {0.3, 0.7};
      b.flowLPerMin = new double[] {50 + 100 * random.nextDouble(), 100};
      b.viscosityMm2PerS = new double[] {400, 30};
      b.housingKPa = new double[2];
      b.filteredShare = 0.2 + 0.8 * random.nextDouble();
      b.fieldEfficiency = 0.6;
      b.offlineLPerMin = 8;
      for (int j = 0; j < J; j++) {
        b.elementEfficiency[j] = random.nextDouble();
        b.pressureCapture[j] = random.nextDouble();
        b.offlineEfficiency[j] = random.nextDouble();
        b.settlingPerH[j] = random.nextDouble();
        b.reservoirPerH[j] = 1e9 * random.nextDouble();
        b.returnPerH[j] = 1e9 * random.nextDouble();
      }
      Circuit c = b.build();
      double[] n = random.doubles(J, 0, 1e4).toArray();
      double massG = 150 * random.nextDouble();
      DirtFlow flow = DirtFlow.mean(c, Bands.of(n), massG);
      Balance balance = new Balance(c, List.of());
      balance.counts(n);
      balance.massG = massG;
      double[] dn = new double[J];
      balance.rates(dn);
      for (int j = 0; j < J; j++) {
        double in =
            flow.reservoirPerH().get(j)
                + flow.behindFilter().particlesPerH().get(j)
                + flow.pastFilter().particlesPerH().get(j)
                + flow.behindOffline().particlesPerH().get(j);
        double out =
            flow.pump().particlesPerH().get(j)
                + flow.offline().particlesPerH().get(j)
                + flow.settlingPerH().get(j);
        assertEquals(c.volumeMl * dn[j], in - out, 1e-9 * (in + out));
        double kept = balance.keptPerH(j, dn[j]);
        assertEquals(kept, flow.keptByElementPerH().get(j), 1e-9 * (in + out));
      }
      assertEquals(c.meanFlowLPerMin(), flow.pump().flowLPerMin(), 1e-9);
      assertEquals(
          flow.returnLine().flowLPerMin(),
          flow.pastFilter().flowLPerMin() + flow.behindFilter().flowLPerMin(),
          1e-9);
    }
  }

  @Test
  void aChangeInTheSameWayGivesTheWashOutOfTheRun() {
    Machine machine = TestFleet.machine("EX-01");
    ChangeProcedure pull = machine.procedure("pull-in-place").orElseThrow();
    Simulation simulation = Simulation.of(machine, pull);
    Simulation.Run run = simulation.run(400, 4, Progress.NONE);
    double[] hours = run.washOut().stream().mapToDouble(Simulation.Moment::elementH).toArray();
    Simulation.Aftermath after = simulation.after(400, 4, pull, hours, Progress.NONE);
    assertEquals(run.cycles(), after.before());
    assertEquals(run.washOut(), after.looks().stream().map(Simulation.Look::moment).toList());
    assertEquals(simulation.washOutSpanH(400), hours[hours.length - 1]);
    assertEquals(Bands.ZERO, after.looks().get(0).passing());
  }

  @Test
  void whatPassesInTheNextCycleIsThatOfTheRun() {
    Machine machine = TestFleet.machine("EX-01");
    ChangeProcedure pull = machine.procedure("pull-in-place").orElseThrow();
    Simulation simulation = Simulation.of(machine, pull);
    Simulation.ServiceCycle next = simulation.run(400, 5, Progress.NONE).cycles().get(4);
    Simulation.Look last =
        simulation.after(400, 4, pull, new double[] {0, 400}, Progress.NONE).looks().get(1);
    for (int j = 0; j < J; j++) {
      double passing = next.passing().get(j);
      assertEquals(passing, last.passing().get(j), 1e-3 * passing);
    }
    assertEquals(next.retainedG(), last.moment().retainedG(), 1e-4 * next.retainedG());
  }

  @Test
  void aWorseChangeSendsMoreThroughThePump() {
    Machine machine = TestFleet.machine("EX-01");
    ChangeProcedure pull = machine.procedure("pull-in-place").orElseThrow();
    Simulation simulation = Simulation.of(machine, pull);
    double[] hours = {0, simulation.washOutSpanH(400)};
    Bands worse = simulation.after(400, 2, pull, hours, Progress.NONE).looks().get(1).passing();
    Bands better =
        simulation
            .after(400, 2, pull.withRelease(0, 0), hours, Progress.NONE)
            .looks()
            .get(1)
            .passing();
    for (int j = 0; j < J; j++) {
      assertTrue(worse.get(j) > better.get(j));
    }
  }

  private static Circuit.Builder builder() {
    Circuit.Builder b = new Circuit.Builder();
    b.volumeL = 200;
    b.share = new double[] {1};
    b.flowLPerMin = new double[] {100};
    b.viscosityMm2PerS = new double[] {32};
    b.housingKPa = new double[] {0};
    b.elementEfficiency = new double[J];
    b.cleanDropKPa = 20;
    b.capacityG = 100;
    b.ratedFlowLPerMin = 100;
    b.ratedViscosityMm2PerS = 32;
    b.loading = Loading.blocking(1, 15);
    b.crackingKPa = 170;
    b.fullFlowKPa = 300;
    return b;
  }
}
