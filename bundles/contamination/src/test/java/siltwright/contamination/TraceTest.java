package siltwright.contamination;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;

import java.util.List;
import org.junit.jupiter.api.Test;
import siltwright.model.Bands;
import siltwright.model.SizeBands;

/** What stands after a change, with the bypass shut, in closed form. */
class TraceTest {
  private static final int J = SizeBands.COUNT;

  @Test
  void aNewElementCleansTheOilAndTakesUpWhatItLoses() {
    // EX-02, 200 L, 200 L/min, all through the filter: n = q + (n0 - q) e^(-t/tau), and what came
    // in less what is left in the oil is in the element. 20 h at 30 mg/h leave the bypass shut.
    Circuit c = Circuit.of(TestFleet.machine("EX-02"));
    Bands start = Bands.of(1e4, 3e3, 200, 40, 5, 1);
    double[] hours = {0, 0.01, 0.05, 2, 20};
    Trace trace = Trace.of(c, start, hours);
    assertArrayEquals(hours, trace.hours());
    assertEquals(start, trace.perMl().get(0));
    assertEquals(0, trace.massG()[0]);
    for (int i = 0; i < hours.length; i++) {
      double t = hours[i];
      double massG = 0.03 * t;
      for (int j = 0; j < J; j++) {
        double q = c.steadyPerMl(0).get(j);
        double n0 = start.get(j);
        double n = q + (n0 - q) * Math.exp(-t / c.washOutH(j));
        assertEquals(n, trace.perMl().get(i).get(j), 1e-9 * n0, "band " + j + " at " + t);
        massG += 200_000 * (n0 - n) * SizeBands.particleG(j);
      }
      assertEquals(massG, trace.massG()[i], 1e-9, "at " + t);
    }
    assertEquals(5, trace.perMl().size());
    assertEquals(List.of(), Trace.of(c, start, new double[0]).perMl());
  }
}
