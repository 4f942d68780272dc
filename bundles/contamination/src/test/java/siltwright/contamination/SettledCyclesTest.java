package siltwright.contamination;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.ArrayList;
import java.util.List;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.Test;
import siltwright.contamination.SettledCycles.Grain;
import siltwright.model.Bands;
import siltwright.model.SizeBands;

/** That {@link CycleSweep} is right however it finds a cycle is {@link CycleSweepTest}'s. */
@DisplayName("Cycles of oil that settles quickly, against those stepped through time")
class SettledCyclesTest {
  private static final double[] INTERVALS = {0.05, 0.2, 0.5, 1, 2};

  /** What both ways found of the reference cases. */
  private static final class Both {
    private int told;
    private final List<Double> mass = new ArrayList<>();
    private final List<Double> wear = new ArrayList<>();

    Both(Grain grain) {
      for (ReferenceCase r : ReferenceCase.all()) {
        Circuit c = r.circuit();
        SettledCycles settled = new SettledCycles(c, r.wear(), grain);
        SteppedCycles stepped = new SteppedCycles(c, r.wear());
        double[] handling = r.bands("handling_#");
        double phi = r.get("back_flush_share");
        for (double share : INTERVALS) {
          double interval = share * r.get("interval_h");
          Cycle cycle = new Cycle(1);
          if (settled.fill(interval, phi, handling, cycle)) {
            told++;
            Cycle expected = new Cycle(1);
            stepped.fill(interval, phi, handling, expected);
            assertEquals(Cycle.State.REPEATS, expected.state, r + " at " + share);
            assertEquals(cycle.massG, settled.retainedG(), 1e-12 * cycle.massG);
            mass.add(Math.abs(cycle.massG / expected.massG - 1));
            wear.add(Math.abs(cycle.exposureH[0] / expected.exposureH[0] - 1));
          }
        }
      }
    }
  }

  private static double quantile(List<Double> errors, double share) {
    return errors.stream().sorted().toList().get((int) (share * (errors.size() - 1)));
  }

  @Test
  void finelyTheyAreTheSameToAThousandth() {
    Both both = new Both(Grain.FINE);
    assertTrue(both.told > 1100, () -> "told: " + both.told);
    assertEquals(0, quantile(both.mass, 0.99), 5e-6);
    assertEquals(0, quantile(both.mass, 1), 1e-4);
    assertEquals(0, quantile(both.wear, 0.9), 1e-4);
    // the two are each right to a thousandth
    assertEquals(0, quantile(both.wear, 1), 2e-3);
  }

  @Test
  void coarselyTheyAreTheSameToSomeThousandths() {
    Both both = new Both(Grain.COARSE);
    assertTrue(both.told > 1100, () -> "told: " + both.told);
    assertEquals(0, quantile(both.mass, 0.99), 1e-4);
    assertEquals(0, quantile(both.mass, 1), 5e-3);
    assertEquals(0, quantile(both.wear, 0.5), 2e-4);
    assertEquals(0, quantile(both.wear, 0.9), 5e-3);
    assertEquals(0, quantile(both.wear, 0.99), 1.5e-2);
  }

  /** Most often the next interval is near the one before, but it need not be. */
  @Test
  void coarselyTheOrderOfRequestsMattersLittle() {
    for (ReferenceCase r : ReferenceCase.all().subList(0, 100)) {
      double[] handling = r.bands("handling_#");
      double phi = r.get("back_flush_share");
      SettledCycles used = new SettledCycles(r.circuit(), r.wear(), Grain.COARSE);
      for (double share : new double[] {2, 0.05, 1, 0.2, 0.5}) {
        double interval = share * r.get("interval_h");
        Cycle cycle = new Cycle(1);
        Cycle expected = new Cycle(1);
        SettledCycles fresh = new SettledCycles(r.circuit(), r.wear(), Grain.COARSE);
        assertEquals(
            fresh.fill(interval, phi, handling, expected),
            used.fill(interval, phi, handling, cycle));
        assertEquals(expected.massG, cycle.massG, 1e-3 * expected.massG, r::toString);
        assertEquals(
            expected.exposureH[0], cycle.exposureH[0], 3e-3 * expected.exposureH[0], r::toString);
      }
    }
  }

  @Test
  void whatTheElementHoldsIsToldAlone() {
    for (ReferenceCase r : ReferenceCase.all()) {
      CycleSweep sweep = new CycleSweep(r.circuit(), r.wear());
      Bands handling = Bands.of(r.bands("handling_#"));
      double interval = r.get("interval_h");
      double phi = r.get("back_flush_share");
      Cycle cycle = new Cycle(1);
      sweep.fill(interval, phi, handling, cycle);
      double told = sweep.retainedG(interval, phi, handling, new Cycle(1));
      if (cycle.state() == Cycle.State.REPEATS) {
        assertEquals(cycle.retainedG(), told, 1e-12 * told);
      } else {
        assertEquals(Double.POSITIVE_INFINITY, told);
      }
    }
  }

  @Test
  void whatNothingTakesOutIsNotTold() {
    Circuit.Builder b = ReferenceCase.all().get(0).elementAlone();
    b.elementEfficiency = new double[SizeBands.COUNT];
    Circuit c = b.build();
    SettledCycles settled = new SettledCycles(c, List.of(), Grain.FINE);
    assertFalse(settled.find(500, 0.1, new double[SizeBands.COUNT]));
    double told = new CycleSweep(c, List.of()).retainedG(500, 0.1, Bands.ZERO, new Cycle(0));
    assertEquals(Double.POSITIVE_INFINITY, told);
  }
}
