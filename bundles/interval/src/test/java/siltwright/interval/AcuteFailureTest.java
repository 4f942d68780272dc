package siltwright.interval;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import org.apache.commons.math3.special.Gamma;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.Test;
import siltwright.contamination.Circuit;
import siltwright.contamination.Cycle;
import siltwright.contamination.CycleSweep;
import siltwright.contamination.Wear;
import siltwright.interval.Tuning.CycleAnswer;
import siltwright.model.Acute;
import siltwright.model.ChangeProcedure;
import siltwright.model.Machine;

/** How wear and failures by single particles combine: docs/decisions/0004. */
@DisplayName("Acute failures of a part replaced at failure: added up by hand")
class AcuteFailureTest {
  private static final double HAZARD = 2e-13;
  private static final double T = 400;

  @Test
  void ratesOfWearAndAcuteFailuresAdd() {
    Machine plain = Machines.small();
    Machine acute =
        plain.withComponents(List.of(plain.components().get(0).withAcute(new Acute(14, HAZARD))));
    ChangeProcedure p = Machines.first(acute);
    Cycle cycle = new Cycle(1);
    new CycleSweep(Circuit.of(acute), Wear.of(acute)).fill(T, p, cycle);
    // 200 L/min x 1000 mL/L x 60 min/h = 1.2e7 mL/h, bands from 14 um(c) on, all oil past the pump
    double particlesPerH = 0;
    for (int j = 2; j < 6; j++) {
      particlesPerH += 1.2e7 * cycle.meanPerMl(j);
    }
    double failuresPerH =
        cycle.meanWear(0) / (9000 * Gamma.gamma(1 + 1 / 1.8)) + HAZARD * particlesPerH;
    CycleAnswer answer = Tuning.along(acute, Option.TODAY, p, T).get(0).orElseThrow();
    double parts = answer.split().wear() + answer.split().acute() + answer.split().bypass();
    assertTrue(answer.split().acute() > 0);
    // renewal 6000 and consequence 6000, whatever made it fail
    assertEquals(12_000 * failuresPerH, parts, 1e-9 * parts);
  }
}
