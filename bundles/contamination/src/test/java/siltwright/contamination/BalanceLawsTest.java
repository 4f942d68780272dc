package siltwright.contamination;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Arrays;
import java.util.List;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;
import siltwright.model.Bands;
import siltwright.model.Loading;
import siltwright.model.SizeBands;

/** Each expected value follows by hand from the equation in its comment. */
@DisplayName("Results that follow from the balance by hand")
class BalanceLawsTest {
  private static final int J = SizeBands.COUNT;

  /** What is left of the balance of a machine that filters nothing. */
  private static final double ROUNDING_G = 1e-9;

  private static final double[] E = {0.3, 0.5, 0.8, 0.9, 0.98, 0.99};
  private static final double[] TANK = {4e8, 2e8, 2e7, 1e6, 1e5, 1e3};
  private static final double[] RETURN = {9e8, 5e8, 6e7, 4e6, 1e5, 3e3};

  /** One duty state, 150 L/min, 200 L, and an element so large that its bypass stays shut. */
  private static Circuit.Builder simple() {
    Circuit.Builder b = new Circuit.Builder();
    b.volumeL = 200;
    b.share = new double[] {1};
    b.flowLPerMin = new double[] {150};
    b.viscosityMm2PerS = new double[] {32};
    b.housingKPa = new double[1];
    b.elementEfficiency = E.clone();
    b.reservoirPerH = TANK.clone();
    b.returnPerH = RETURN.clone();
    b.capacityG = 1e7;
    b.cleanDropKPa = 20;
    b.ratedFlowLPerMin = 200;
    b.ratedViscosityMm2PerS = 32;
    b.loading = Loading.blocking(1, 20);
    b.crackingKPa = 150;
    b.fullFlowKPa = 250;
    return b;
  }

  private static Balance from(Circuit c, double... perMl) {
    Balance balance = new Balance(c, List.of());
    balance.counts(perMl);
    balance.fresh();
    return balance;
  }

  @Test
  void steadyState() {
    // 0 = R_T + R_R (1 - E) - Q E n
    Circuit c = simple().build();
    Balance balance = from(c, 0, 0, 0, 0, 0, 0);
    balance.runTo(2);
    double q = 150 * 1000 * 60;
    for (int j = 0; j < J; j++) {
      double n = (TANK[j] + RETURN[j] * (1 - E[j])) / (q * E[j]);
      assertEquals(n, c.steadyPerMl(0).get(j), 1e-12 * n);
      assertEquals(n, balance.n[j], 1e-9 * n);
    }
  }

  @Test
  void classicalSteadyStateBehindAndBeforeAReturnFilter() {
    // From memory (the classical form of the return filter's balance): N_d = R/[Q (beta - 1)],
    // N_u = beta N_d. With R = 1e8/min, Q = 100 L/min, beta = 75: 13.51/mL and 1013.5/mL.
    Circuit.Builder b = simple();
    b.flowLPerMin = new double[] {100};
    b.reservoirPerH = new double[J];
    b.returnPerH = new double[] {1e8 * 60, 0, 0, 0, 0, 0};
    Arrays.fill(b.elementEfficiency, 1 - 1 / 75.0);
    double down = b.build().steadyPerMl(0).get(0);
    assertEquals(13.51, down, 0.005);
    assertEquals(1013.5, down + 1e8 / 1e5, 0.05);
  }

  @ParameterizedTest
  @CsvSource({"20, 30", "20, 300", "200, 150", "3000, 30", "3000, 300"})
  void aPulsePassesThePumpSOverETimesWhateverVolumeAndFlow(double volumeL, double flowLPerMin) {
    // V dn/dt = -Q E n from n = S/V: Q ∫ n dt = S/E
    Circuit.Builder b = simple();
    b.volumeL = volumeL;
    b.flowLPerMin = new double[] {flowLPerMin};
    b.reservoirPerH = new double[J];
    b.returnPerH = new double[J];
    Circuit c = b.build();
    Balance balance = from(c, new double[J]);
    for (int j = 0; j < J; j++) {
      balance.release(j, 1e9);
    }
    balance.runTo(40 * volumeL / flowLPerMin / 60 / E[0]);
    for (int j = 0; j < J; j++) {
      double passing = flowLPerMin * 1000 * 60 * balance.dose[j];
      assertEquals(1e9 / E[j], passing, 1e-9 * passing);
    }
  }

  @Test
  void aReleaseWashesOutWithVolumeOverFlowTimesEfficiency() {
    // 200 L / (150 L/min · 0.5) = 2.667 min to 1/e
    Circuit.Builder b = simple();
    b.reservoirPerH = new double[J];
    b.returnPerH = new double[J];
    Circuit c = b.build();
    double tauH = 200 / (150 * 0.5) / 60;
    assertEquals(tauH, c.washOutH(1), 1e-12);
    Balance balance = from(c, 0, 1000, 0, 0, 0, 0);
    balance.runTo(tauH);
    assertEquals(1000 / Math.E, balance.n[1], 1e-9);
  }

  @ParameterizedTest
  @CsvSource({"0, 1", "0.02, 1", "0.3, 1", "0.6, 1", "0.3, 0"})
  void longRunBackFlush(double phi, double tankShare) {
    // In a cycle that repeats itself all that comes in ends in the element: N = (R_T + R_R) T + phi
    // N.
    // The element caught E of what met it: N = E (Q ∫ n dt + R_R T). Hence per hour
    // Q n = [R_T + R_R (1 - E) + phi (R_T + R_R)/(1 - phi)]/E.
    Circuit.Builder b = simple();
    b.reservoirPerH = Arrays.stream(TANK).map(r -> r * tankShare).toArray();
    Circuit c = b.build();
    double t = 250;
    Balance balance = from(c, new double[J]);
    for (int i = 0; i < 60; i++) {
      balance.fresh();
      balance.runTo(t);
      for (int j = 0; j < J && i < 59; j++) {
        balance.release(j, phi * balance.retained[j]);
      }
    }
    Cycle cycle = new Cycle(0);
    new CycleSweep(c, List.of()).fill(t, phi, Bands.ZERO, cycle);
    double q = c.meanFlowMlPerH;
    for (int j = 0; j < J; j++) {
      double in = b.reservoirPerH[j] + RETURN[j];
      double perH = (b.reservoirPerH[j] + RETURN[j] * (1 - E[j]) + phi * in / (1 - phi)) / E[j];
      assertEquals(perH, q * balance.dose[j] / t, 1e-9 * perH);
      assertEquals(perH, q * cycle.meanPerMl(j), 1e-9 * perH);
      if (tankShare == 0) {
        // A change that flushes back protects no better than an element of efficiency E (1 - phi).
        double coarser = E[j] * (1 - phi);
        assertEquals(RETURN[j] * (1 - coarser) / coarser, perH, 1e-12 * perH);
      }
    }
  }

  @Test
  void particlesAreConservedOverTheWholeRunOfEveryMachine() {
    // in + released = change in the oil + element + pressure filter + offline filter + settled
    for (ReferenceCase r : ReferenceCase.all()) {
      Circuit c = r.circuit();
      double phi = r.get("back_flush_share");
      double[] handling = r.bands("handling_#");
      double[] start = r.bands("start_#_per_mL");
      Balance balance = new Balance(c, r.wear());
      balance.counts(start);
      double[] in = new double[J];
      double[] out = new double[J];
      int cycles = 6;
      double t = r.get("interval_h");
      for (int i = 0; i < cycles; i++) {
        balance.fresh();
        balance.runTo(t);
        double mass = 0;
        for (int j = 0; j < J; j++) {
          double pressure = c.meanFlowMlPerH * c.pressureCapture[j] * balance.dose[j];
          double offline = c.offlineMlPerH[j] * balance.dose[j];
          double settled = c.settlingPerH[j] * c.volumeMl * balance.dose[j];
          double released = phi * balance.retained[j] + handling[j];
          in[j] += (c.reservoirPerH[j] + c.returnPerH[j]) * t + released;
          out[j] += balance.retained[j] + pressure + offline + settled;
          mass += SizeBands.particleG(j) * balance.retained[j];
          balance.release(j, released);
        }
        assertEquals(
            mass / (1 - c.finesShare), balance.massG, 1e-9 * mass + ROUNDING_G, r::toString);
      }
      for (int j = 0; j < J; j++) {
        double oil = c.volumeMl * (balance.n[j] - start[j]);
        double scale = in[j] + c.volumeMl * start[j];
        assertEquals(in[j], out[j] + oil, 1e-9 * scale, r + " band " + j);
      }
    }
  }

  @ParameterizedTest
  @ValueSource(doubles = {20, 400})
  void theElementHoldsWhatItCaught(double cleanKPa) {
    // Independent of the balance that the retained mass comes from: a capacity without end keeps
    // the bypass where it is, shut at 20 kPa and open at 400, so what meets the element is known:
    // N = R_R E <1 - b> T + (1 - ep) E <Q (1 - b)> ∫ n dt.
    Circuit.Builder b = simple();
    b.cleanDropKPa = cleanKPa;
    b.capacityG = 1e15;
    Arrays.fill(b.pressureCapture, 0.2);
    b.offlineLPerMin = 5;
    Arrays.fill(b.offlineEfficiency, 0.9);
    Arrays.fill(b.settlingPerH, 0.01);
    Circuit c = b.build();
    double past = c.bypassShare(0, 0);
    assertEquals(cleanKPa > 150, past > 0);
    Balance balance = from(c, 1e5, 1e4, 1e3, 100, 10, 1);
    double t = 100;
    balance.runTo(t);
    for (int j = 0; j < J; j++) {
      double caught =
          E[j] * (1 - past) * (RETURN[j] * t + 0.8 * c.meanFlowMlPerH * balance.dose[j]);
      assertEquals(caught, balance.retained[j], 1e-9 * caught);
    }
  }

  @Test
  void aShutBypassNeedsOneStep() {
    // With nothing that bends, a step is exact however long: 250 h, thousands of wash-outs.
    Circuit c = simple().build();
    Balance balance = from(c, 1e5, 1e4, 1e3, 100, 10, 1);
    balance.runTo(250);
    assertEquals(1, balance.steps);
    assertEquals(250, balance.timeH);
    assertEquals(c.meanFlowMlPerH * 250, balance.metMl, 1e-9 * balance.metMl);
    balance.fresh();
    assertEquals(0, balance.steps);
    assertEquals(0, balance.metMl);
    assertEquals(0, balance.dose[0]);
  }

  @Test
  void anOpenBypassNeedsFewSteps() {
    // The counts follow the load: a step a doubling at first, then one for 0.3 of ln h.
    Circuit.Builder b = simple();
    b.capacityG = 100;
    Circuit c = b.build();
    Balance balance = from(c, c.steadyPerMl(0).toArray());
    double opens = c.bypassOpensAtG(0);
    balance.runTo(1);
    double perH = balance.massG;
    balance.runTo(opens / perH * 1.6);
    assertTrue(balance.massG > 1.3 * opens);
    assertTrue(balance.steps < 80, () -> "steps: " + balance.steps);
    // What met the element, once more in many short steps: ∫ B1 dt
    Balance fine = from(c, c.steadyPerMl(0).toArray());
    double[] met = new double[2];
    double sum = 0;
    int pieces = 2000;
    for (int i = 0; i < pieces; i++) {
      fine.runTo(balance.timeH * (i + 0.5) / pieces);
      c.met(fine.massG, met);
      sum += met[1] * balance.timeH / pieces;
    }
    assertEquals(sum, balance.metMl, 1e-3 * sum);
    assertTrue(sum < 0.99 * c.meanFlowMlPerH * balance.timeH, "some passed it");
  }

  @Test
  void aStepEndsWhereTheBypassOpens() {
    Circuit.Builder b = simple();
    b.capacityG = 100;
    Circuit c = b.build();
    Balance balance = from(c, c.steadyPerMl(0).toArray());
    double opens = c.bypassOpensAtG(0);
    while (balance.massG < opens * (1 - 1e-6)) {
      balance.step(1e4);
    }
    assertEquals(opens, balance.massG, 1e-7 * opens);
  }

  @Test
  void moreDirtIsNowhereCleaner() {
    for (ReferenceCase r : ReferenceCase.all()) {
      Circuit.Builder more = r.builder();
      for (int j = 0; j < J; j++) {
        more.reservoirPerH[j] *= 1.1;
        more.returnPerH[j] *= 1.1;
      }
      notCleaner(r, run(r, r.circuit(), 1, 1), run(r, more.build(), 1, 1));
    }
  }

  @Test
  void moreBackFlushIsNowhereCleaner() {
    for (ReferenceCase r : ReferenceCase.all()) {
      notCleaner(r, run(r, r.circuit(), 1, 1), run(r, r.circuit(), 1.3, 1));
    }
  }

  private static void notCleaner(ReferenceCase r, Balance less, Balance more) {
    for (int j = 0; j < J; j++) {
      assertTrue(more.dose[j] >= less.dose[j] * (1 - 1e-5), r + " band " + j);
    }
    assertTrue(more.exposureH[0] >= less.exposureH[0] * (1 - 1e-5), r::toString);
    assertTrue(more.massG >= less.massG * (1 - 1e-5) - ROUNDING_G, r::toString);
  }

  @Test
  void aMachineTwiceAsLargeIsAsClean() {
    // Volume, flows, ingress, handling and capacity double: every term of the balance does.
    for (ReferenceCase r : ReferenceCase.all()) {
      Circuit.Builder b = r.builder();
      b.volumeL *= 2;
      b.flowLPerMin = doubled(b.flowLPerMin);
      b.ratedFlowLPerMin *= 2;
      b.offlineLPerMin *= 2;
      b.reservoirPerH = doubled(b.reservoirPerH);
      b.returnPerH = doubled(b.returnPerH);
      b.capacityG *= 2;
      Balance one = run(r, r.circuit(), 1, 1);
      Balance two = run(r, b.build(), 1, 2);
      same(r, one, two, 2);
    }
  }

  @Test
  void aDutyStateCutInTwoHalvesChangesNothing() {
    for (ReferenceCase r : ReferenceCase.all()) {
      Circuit.Builder b = r.builder();
      b.share = twice(b.share);
      b.share[0] /= 2;
      b.share[b.share.length - 1] = b.share[0];
      b.flowLPerMin = twice(b.flowLPerMin);
      b.viscosityMm2PerS = twice(b.viscosityMm2PerS);
      b.housingKPa = twice(b.housingKPa);
      same(r, run(r, r.circuit(), 1, 1), run(r, b.build(), 1, 1), 1);
    }
  }

  private static double[] doubled(double[] values) {
    return Arrays.stream(values).map(v -> 2 * v).toArray();
  }

  /** The same with the first once more at the end. */
  private static double[] twice(double[] values) {
    double[] longer = Arrays.copyOf(values, values.length + 1);
    longer[values.length] = values[0];
    return longer;
  }

  private static void same(ReferenceCase r, Balance one, Balance other, double size) {
    for (int j = 0; j < J; j++) {
      assertEquals(one.dose[j], other.dose[j], 1e-6 * one.dose[j] + 1e-12, r::toString);
    }
    assertEquals(one.exposureH[0], other.exposureH[0], 1e-6 * one.exposureH[0], r::toString);
    assertEquals(size * one.massG, other.massG, 1e-6 * other.massG + ROUNDING_G, r::toString);
  }

  /** The second of two cycles. */
  private static Balance run(ReferenceCase r, Circuit c, double phiFactor, double size) {
    double phi = Math.min(0.9, phiFactor * r.get("back_flush_share"));
    double[] handling = r.bands("handling_#");
    Balance balance = new Balance(c, r.wear());
    balance.counts(r.bands("start_#_per_mL"));
    balance.fresh();
    balance.runTo(r.get("interval_h"));
    for (int j = 0; j < J; j++) {
      balance.release(j, phi * balance.retained[j] + size * handling[j]);
    }
    balance.fresh();
    balance.runTo(r.get("interval_h"));
    return balance;
  }
}
