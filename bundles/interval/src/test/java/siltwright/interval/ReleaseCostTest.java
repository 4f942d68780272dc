package siltwright.interval;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.util.List;
import org.apache.commons.math3.special.Gamma;
import org.junit.jupiter.api.Test;
import siltwright.cleanliness.Iso4406;
import siltwright.contamination.Circuit;
import siltwright.model.Acute;
import siltwright.model.Bands;
import siltwright.model.Component;
import siltwright.model.Machine;
import siltwright.model.SizeBands;

/** What a release costs: the wash-out integrated by hand, while the bypass is shut. */
class ReleaseCostTest {
  private static final double T = 100;
  private static final double VOLUME_ML = 200_000;
  private static final double HAZARD = 2e-13;

  /** Wear in proportion to the counts, so that a release adds its own and nothing else. */
  private static Machine proportional() {
    Machine m = Machines.small();
    Component pump = m.components().get(0).withExponent(1).withAcute(new Acute(14, HAZARD));
    return m.withComponents(List.of(pump));
  }

  private static Bands release(double factor) {
    double[] n = new double[SizeBands.COUNT];
    for (int j = 0; j < n.length; j++) {
      n[j] = factor * 1e8 / Math.pow(4, j);
    }
    return Bands.of(n);
  }

  @Test
  void dirtCostsTheWearAndTheFailuresOfItsWashOut() {
    Machine m = proportional();
    Component pump = m.components().get(0);
    Circuit circuit = Circuit.inTheLongRun(m);
    double[] reference = SizeBands.toBands(Iso4406.cumulativePerMl(pump.reference()));
    double wear = 0;
    double wearOfReference = 0;
    double failures = 0;
    for (int j = 0; j < SizeBands.COUNT; j++) {
      // a count y that decays with a time constant of much less than T: y times that constant
      double hoursPerMl = release(1).get(j) / VOLUME_ML * circuit.washOutH(j);
      wear += pump.sensitivity().get(j) * hoursPerMl;
      wearOfReference += pump.sensitivity().get(j) * reference[j];
      // from 14 um(c) on; 200 L/min x 1000 mL/L x 60 min/h
      failures += j < 2 ? 0 : HAZARD * 1.2e7 * hoursPerMl;
    }
    double renewals = wear / wearOfReference / (9000 * Gamma.gamma(1 + 1 / 1.8)) + failures;
    ReleaseCost cost = ReleaseCost.of(m);
    assertEquals(12_000 * renewals, cost.money(release(1), T), 1e-5 * 12_000 * renewals);
    assertEquals(36_000 * renewals, cost.money(release(3), T), 1e-5 * 36_000 * renewals);
    assertEquals(0, cost.money(Bands.ZERO, T), 0);
  }

  @Test
  void dirtThatNoElementHoldsCostsWithoutEnd() {
    assertEquals(Double.POSITIVE_INFINITY, ReleaseCost.of(proportional()).money(release(1e7), T));
  }
}
