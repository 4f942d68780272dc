package siltwright.contamination;

import static org.junit.jupiter.api.Assertions.assertEquals;

import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.Test;
import siltwright.cleanliness.Iso4406;
import siltwright.model.Machine;
import siltwright.model.OilChange;
import siltwright.model.SizeBands;

/** Oil changes as the long run sees them: docs/decisions/0005. */
@DisplayName("Oil changes spread evenly: steady state by hand")
class OilChangeTest {

  @Test
  void aShareOfTheOilLeavesAnHourAndNewOilBringsItsDirt() {
    Machine machine = TestFleet.machine("EX-01");
    OilChange change = machine.oilChange().orElseThrow();
    double exchangedPerH = change.replacedShare() / change.intervalH();
    double[] newOil = SizeBands.toBands(Iso4406.cumulativePerMl(change.newOil()));
    Circuit between = Circuit.of(machine);
    Circuit longRun = Circuit.inTheLongRun(machine);
    double[] met = new double[2];
    between.met(0, met);
    for (int j = 0; j < SizeBands.COUNT; j++) {
      // dn/dt = g - a n + r (new - n) = 0
      double a = between.relaxationPerH(j, met[1]);
      double g = between.supplyPerMlH(j, met[0]);
      double n = (g + exchangedPerH * newOil[j]) / (a + exchangedPerH);
      assertEquals(n, longRun.steadyPerMl(0).get(j), 1e-12 * n);
    }
  }
}
