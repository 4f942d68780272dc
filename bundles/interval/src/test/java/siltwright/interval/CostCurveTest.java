package siltwright.interval;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertNull;

import java.util.List;
import java.util.Optional;
import org.junit.jupiter.api.Test;
import siltwright.model.BetaPoint;
import siltwright.model.ChangeProcedure;
import siltwright.model.Machine;
import siltwright.model.OfflineFilter;

class CostCurveTest {
  private static final OfflineFilter OFFLINE =
      new OfflineFilter("o", "O", 8, List.of(new BetaPoint(5, 100)), 0.8, 0.3);

  /** Told at once where all dirt ends in the element, found by the cycle elsewhere: both agree. */
  @Test
  void massIsThatOfTheCycle() {
    Machine small = Machines.small();
    for (Machine m : List.of(small, small.withOfflineFilter(Optional.of(OFFLINE)))) {
      CostCurve curve = new CostCurve(m, 0);
      for (ChangeProcedure p : m.procedures()) {
        double mass = curve.cycle(500, p).retainedG();
        assertEquals(mass, curve.massG(500, p), 1e-6 * mass);
      }
    }
  }

  @Test
  void nothingSettlesWhereTheElementCannotHoldTheDirt() {
    Machine flooded = Machines.dirtier(Machines.small(), 1e4);
    CostCurve curve = new CostCurve(flooded, 0);
    ChangeProcedure p = Machines.first(flooded);
    assertEquals(Double.POSITIVE_INFINITY, CostCurve.massG(curve.cycle(500, p)));
    assertNull(curve.settledPerMl(Double.POSITIVE_INFINITY));
    assertEquals(Double.POSITIVE_INFINITY, curve.perH(500, p));
  }
}
