package siltwright.interval;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Optional;
import org.junit.jupiter.api.Test;
import siltwright.model.Breather;
import siltwright.model.Ingress;
import siltwright.model.Machine;

/** Suppositions about a machine: what each factor scales is added up by hand. */
class TrialTest {
  private static final Machine SMALL = Machines.small();
  private static final double T = 400;

  private static CostSplit split(Machine m) {
    return Tuning.along(m, Option.TODAY, Machines.first(m), T).get(0).orElseThrow().split();
  }

  private static Machine supposed(
      double element, double downtime, double failure, double ingress, double shift) {
    return new Trial("right", Option.TODAY, element, downtime, failure, ingress, shift).on(SMALL);
  }

  @Test
  void asItIsChangesNothing() {
    assertEquals(SMALL, Trial.asItIs("right").on(SMALL));
  }

  @Test
  void eachFactorScalesWhatItSays() {
    // element 100, seals 10 + 1 h x 70 + 1 h x 150 + 1 L x 4
    assertEquals(300 / T, split(supposed(3, 1, 1, 1, 0)).element(), 1e-12);
    assertEquals((10 + 70 + 2 * 150 + 4) / T, split(supposed(1, 2, 1, 1, 0)).service(), 1e-12);
    CostSplit asItIs = split(SMALL);
    assertEquals(5 * asItIs.wear(), split(supposed(1, 1, 5, 1, 0)).wear(), 1e-9);
    Machine dirty = supposed(1, 1, 1, 4, 0);
    assertEquals(40, Ingress.rateMgPerH(dirty.ingress().reservoir()), 1e-12);
    assertEquals(120, Ingress.rateMgPerH(dirty.ingress().returnLine()), 1e-12);
    assertEquals(38, supposed(1, 1, 1, 1, -12).duty().get(0).oilDegC(), 1e-12);
    // renewal and consequence are 6000 each
    assertEquals(3000, supposed(1, 1, 0.5, 1, 0).components().get(0).renewalMoney(), 1e-9);
    assertEquals(3000, supposed(1, 1, 0.5, 1, 0).components().get(0).consequenceMoney(), 1e-9);
  }

  @Test
  void curveIsThatOfTheMachineSupposed() {
    Breather dear = new Breather("b", "B", 0.5, 0.25);
    Option option = new Option(Optional.empty(), Optional.of(dear), Optional.empty());
    Trial trial = new Trial("short", option, 2, 1, 1, 1, 0);
    TrialCurve curve = TrialCurve.of(SMALL, trial, 50, 3200);
    Machine m = trial.on(SMALL);
    double[] hours = curve.hours();
    assertEquals(61, hours.length);
    assertEquals(50, hours[0], 1e-9);
    assertEquals(3200, hours[60], 1e-9);
    // 3200 = 50 x 2^6: ten intervals of the grid to a doubling
    for (int i = 10; i < hours.length; i++) {
      assertEquals(2, hours[i] / hours[i - 10], 1e-12);
    }
    double[] perH = Tuning.costPerH(m, m.procedures().get(1), hours);
    for (int i = 0; i < perH.length; i++) {
      perH[i] += 0.25; // the breather
    }
    assertArrayEquals(perH, curve.costPerH(), 1e-9);
    double least = curve.best().interval().orElseThrow().costPerH();
    for (double g : curve.costPerH()) {
      assertTrue(g >= least * (1 - 1e-6));
    }
    Tuning.CycleAnswer at = curve.at(SMALL, T).orElseThrow();
    assertEquals(0.25, at.split().equipment(), 1e-12);
  }

  @Test
  void aCurveTellsTheCycleAtAnInterval() {
    Trial trial = Trial.asItIs("right");
    TrialCurve curve = TrialCurve.of(SMALL, trial, 50, 3200);
    CostSplit split = curve.at(SMALL, T).orElseThrow().split();
    assertEquals(split(SMALL).total(), split.total(), 1e-9);
    Trial flooded = new Trial("right", Option.TODAY, 1, 1, 1, 1e5, 0);
    assertTrue(TrialCurve.of(SMALL, flooded, 50, 3200).at(SMALL, T).isEmpty());
  }

  @Test
  void anUnknownProcedureIsNamed() {
    Trial trial = Trial.asItIs("none");
    IllegalArgumentException e =
        assertThrows(IllegalArgumentException.class, () -> TrialCurve.of(SMALL, trial, 50, 3200));
    assertEquals("no procedure none", e.getMessage());
  }
}
