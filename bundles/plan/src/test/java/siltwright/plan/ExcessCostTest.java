package siltwright.plan;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Random;
import org.junit.jupiter.api.Test;

class ExcessCostTest {
  /** g = F/T + bT, T* = √(F/b), g* = 2√(Fb): C = F + bT² − 2√(Fb) T = b (T − T*)², by hand. */
  @Test
  void curveByHand() {
    double[] hours = new double[400];
    double[] perH = new double[400];
    for (int i = 0; i < 400; i++) {
      hours[i] = 5 * (i + 1);
      perH[i] = 500 / hours[i] + 0.002 * hours[i];
    }
    ExcessCost c = ExcessCost.ofCurve(500, 365, 685, 2, hours, perH);
    assertEquals(0, c.at(500), 1e-9);
    assertEquals(0.002 * 200 * 200, c.at(300), 1e-6);
    assertEquals(0.002 * 200 * 200, c.at(700), 1e-6);
    assertEquals(0, c.open(300));
    assertEquals(c.at(700), c.open(700));
    // E b (X − T*)² = b ((μ − T*)² + σ²)
    assertEquals(0.002 * (100 * 100 + 900), c.expected(600, 900, false), 0.05);
  }

  @Test
  void flatRangeCostsFivePercentMoreAtItsEnds() {
    ExcessCost c = ExcessCost.ofFlatRange(1000, 620, 1700, Double.POSITIVE_INFINITY, 3);
    assertEquals(620 * 3 * 0.05, c.at(620), 0.2);
    assertEquals(1700 * 3 * 0.05, c.at(1700), 0.5);
    assertEquals(0, c.at(1000), 1e-9);
  }

  @Test
  void limitGainsNothing() {
    ExcessCost c =
        ExcessCost.ofCurve(
            500, 400, 500, 2, new double[] {250, 500, 1000}, new double[] {3, 2, 1.5});
    assertEquals(250, c.at(250));
    assertEquals(0, c.at(800));
  }

  @Test
  void costGrowsAwayFromTheBest() {
    Random random = new Random(4);
    for (int n = 0; n < 50; n++) {
      double best = 100 + 2000 * random.nextDouble();
      ExcessCost c =
          ExcessCost.ofFlatRange(best, 0.6 * best, 1.6 * best, Double.POSITIVE_INFINITY, 1);
      for (double x = 0.2; x < 3; x += 0.1) {
        double nearer = 1 + 0.9 * (x - 1);
        assertTrue(c.at(x * best) >= c.at(nearer * best) - 1e-9);
      }
    }
  }

  @Test
  void pastARepeatingCycleThereIsNoPoint() {
    double inf = Double.POSITIVE_INFINITY;
    assertThrows(
        IllegalArgumentException.class,
        () -> ExcessCost.ofCurve(1, 1, 1, 1, new double[] {1, 2}, new double[] {1, inf}));
  }
}
