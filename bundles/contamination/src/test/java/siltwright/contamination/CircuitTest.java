package siltwright.contamination;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Arrays;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import siltwright.model.ChangeProcedure;
import siltwright.model.Loading;
import siltwright.model.Machine;
import siltwright.model.SizeBands;

/** A circuit's flows, drops and masses by hand, and its readings by brute force. */
class CircuitTest {
  private static final int J = SizeBands.COUNT;

  private final Circuit full = Circuit.of(TestFleet.machine("EX-03"));

  /** 100 L/min for 0.4 of the hours and 50 L/min else; h = 16^m, 100 g; the bypass from 160 kPa. */
  private static Circuit.Builder two() {
    Circuit.Builder b = new Circuit.Builder();
    b.volumeL = 100;
    b.share = new double[] {0.4, 0.6};
    b.flowLPerMin = new double[] {100, 50};
    b.viscosityMm2PerS = new double[] {32, 32};
    b.housingKPa = new double[] {8, 2};
    b.elementEfficiency = new double[] {0.5, 0.6, 0.7, 0.8, 0.9, 0.99};
    b.filteredShare = 0.9;
    b.fieldEfficiency = 0.5;
    b.capacityG = 100;
    b.cleanDropKPa = 40;
    b.ratedFlowLPerMin = 100;
    b.ratedViscosityMm2PerS = 32;
    b.loading = Loading.blocking(1, 16);
    b.crackingKPa = 160;
    b.fullFlowKPa = 260;
    return b;
  }

  @Test
  void theBypassOpensWhereTheDropReachesItsSpring() {
    // 40 kPa · 16^m = 160 kPa at m = 1/2; at half the flow 20 kPa · 16^m at 3/4
    Circuit c = two().build();
    assertEquals(50, c.bypassOpensAtG(0), 1e-9);
    assertEquals(75, c.bypassOpensAtG(1), 1e-9);
    assertTrue(c.shut(49.9));
    assertFalse(c.shut(50.1));
    assertEquals(0, c.bypassShare(0, 49.9));
    assertEquals(0, c.bypassShare(1, 74.9));
    assertEquals(Double.POSITIVE_INFINITY, c.withoutBypass().bypassOpensAtG(0));
    Circuit.Builder still = two();
    still.flowLPerMin = new double[] {100, 0};
    assertEquals(Double.POSITIVE_INFINITY, still.build().bypassOpensAtG(1), "no flow, no drop");
    Circuit.Builder dear = two();
    dear.cleanDropKPa = 200;
    assertEquals(0, dear.build().bypassOpensAtG(0), "open with a clean element");
  }

  @Test
  void elementAndBypassShareTheFlow() {
    // Full: 40 · 16 = 640 kPa for 100 L/min through the element, that is 100 p / 640; through the
    // bypass p - 160, since it passes 100 L/min at 260 kPa. Both make 100: p = 260 / (1 + 100/640)
    Circuit c = two().build();
    double p = 260 / (1 + 100.0 / 640);
    assertEquals(p, c.dropKPa(0, 100), 1e-9);
    assertEquals((p - 160) / 100, c.bypassShare(0, 100), 1e-12);
    assertEquals(p + 8, c.readingKPa(0, 100), 1e-9);
    // and of the whole flow, 70 L/min in the mean, the element meets 0.4 · (260 - p) of the first
    // state and of the second what 20 · 16 = 320 kPa leaves of it: p = 210 / (1 + 50/320)
    double second = 210 / (1 + 50.0 / 320);
    double met = 0.4 * (260 - p) + 0.6 * (210 - second);
    for (int j = 0; j < J; j++) {
      double e = 0.9 * 0.5 * two().elementEfficiency[j];
      assertEquals(e, c.captureShare(j, 0), 1e-12);
      assertEquals(e * met / 70, c.captureShare(j, 100), 1e-12);
    }
    Circuit without = c.withoutBypass();
    assertEquals(640, without.dropKPa(0, 100), 1e-9);
    assertEquals(0, without.bypassShare(0, 100));
    assertEquals(0.45 * 0.5, without.captureShare(0, 100), 1e-12);
  }

  @ParameterizedTest
  @CsvSource({"40, 0", "40, 1", "100, 0", "170, 0", "400, 0", "400, 1"})
  void theMassAtAReadingIsWhereBruteForceFindsIt(double cleanKPa, int state) {
    Circuit.Builder b = two();
    b.cleanDropKPa = cleanKPa;
    Circuit c = b.build();
    for (double setting = 1; setting < 400; setting += 3.7) {
      double low = 0;
      double high = 1000;
      for (int i = 0; i < 60; i++) {
        double middle = (low + high) / 2;
        if (c.readingKPa(state, middle) < setting) {
          low = middle;
        } else {
          high = middle;
        }
      }
      double mass = c.massAtReadingG(state, setting);
      if (c.readingKPa(state, 1000) < setting) {
        assertEquals(Double.POSITIVE_INFINITY, mass, setting + " is never read");
      } else {
        assertEquals(high, mass, 1e-6 * (1 + high), "at " + setting);
      }
    }
    assertEquals(0, c.massAtReadingG(state, c.readingKPa(state, 0) - 1e-9));
  }

  @Test
  void aMachineBecomesItsCoefficients() {
    // housing 12 kPa at 300 L/min and 860 kg/m³; here 240 L/min of 903 kg/m³: 12 · 1.05 · 0.64
    assertEquals(8.064, full.readingKPa(1, 0) - full.dropKPa(1, 0), 1e-9);
    // 0.25 · 60 + 0.75 · 240 L/min
    assertEquals(195, full.meanFlowLPerMin(), 1e-9);
    assertEquals(2, full.states());
    assertEquals(0.8, full.filteredShare());
    assertEquals(6, full.offlineLPerMin());
    double[] lambda = {0.01, 0.02, 0.1, 0.2, 0.5, 1};
    for (int j = 0; j < J; j++) {
      // beta 2 and 5 at all sizes, 0.8 and 0.5 of it in the field
      assertEquals(0.4, full.pressureCapture[j], 1e-12);
      assertEquals(0.4 * 360_000, full.offlineMlPerH[j], 1e-6);
      double sink = 195 * 60_000 * 0.4 + 0.4 * 360_000 + lambda[j] * 250_000;
      double capture = 0.6 * 195 * 60_000 * full.capture[j];
      assertEquals(250_000 / (sink + capture), full.washOutH(j), 1e-12);
    }
  }

  @Test
  void allThatComesInEndsInTheElementWhereNothingElseTakesIt() {
    // EX-02: 30 mg/h for 400 h and 20 mg at the change, of which 1 % comes back each time
    Machine plain = TestFleet.machine("EX-02");
    ChangeProcedure lift = plain.procedure("lift-out").orElseThrow();
    double massG = Circuit.of(plain).retainedOfAllG(400, lift);
    assertEquals((0.03 * 400 + 0.02) / 0.99, massG, 1e-9);
    assertTrue(Double.isNaN(full.retainedOfAllG(400, lift)), "something else takes dirt out");
  }

  @Test
  void whatNothingTakesOutGrowsForEver() {
    Circuit.Builder b = two();
    b.elementEfficiency = new double[J];
    b.reservoirPerH = new double[] {1, 0, 0, 0, 0, 0};
    Circuit c = b.build();
    assertEquals(Double.POSITIVE_INFINITY, c.steadyPerMl(0).get(0));
    assertEquals(0, c.steadyPerMl(0).get(1), "nothing comes in");
    assertEquals(Double.POSITIVE_INFINITY, c.washOutH(0));
  }

  @Test
  void beyondItsWallAnElementPassesNothing() {
    Circuit.Builder b = two();
    b.loading = Loading.blocking(2, 16);
    b.reservoirPerH = new double[J];
    Arrays.fill(b.reservoirPerH, 1e6);
    Circuit c = b.build();
    double[] met = new double[2];
    c.met(100 * 16.0 / 15, met);
    assertEquals(0, met[0]);
    assertEquals(0, met[1]);
    assertEquals(1, c.bypassShare(0, 200));
    c.met(0, met);
    assertEquals(1, met[0]);
    assertEquals(70 * 60_000, met[1], 1e-6);
  }
}
