package siltwright.contamination;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Arrays;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import siltwright.cleanliness.Iso4406;
import siltwright.model.Component;
import siltwright.model.Machine;
import siltwright.model.SizeBands;

/** Wear relative to that at the reference, its floor and its mean over a step, by hand. */
class WearTest {
  private static final int J = SizeBands.COUNT;

  private final Machine machine = TestFleet.machine("EX-01");
  private final Component pump = machine.components().get(0);
  private final Machine filtered = TestFleet.machine("EX-03");
  private final Component valve = filtered.components().get(0);

  private static double[] reference(Component c) {
    return SizeBands.toBands(Iso4406.cumulativePerMl(c.reference()));
  }

  private static double[] times(double factor, double[] n) {
    return Arrays.stream(n).map(x -> factor * x).toArray();
  }

  @Test
  void oilOfTheReferenceWearsAsMuchAsTheReference() {
    Wear wear = Wear.of(machine, pump);
    double[] n = reference(pump);
    assertEquals(1, wear.relative(n), 4e-11);
    // m = 0.8
    assertEquals(Math.pow(3, 0.8), wear.relative(times(3, n)), 5e-10);
    assertArrayEquals(new double[] {1, 1, 1, 1, 1, 1}, Wear.passedShare(machine, pump));
  }

  @Test
  void eachBandCountsByItsSensitivity() {
    // weights 0.1, 1, 2, 2, 1, 0.5: one more particle of the third band is worth twenty of the
    // first
    Wear wear = Wear.of(machine, pump);
    double[] n = times(2, reference(pump));
    double[] coarse = n.clone();
    coarse[2] += 1;
    double[] fine = n.clone();
    fine[0] += 20;
    assertEquals(wear.relative(coarse), wear.relative(fine), 1e-14);
    assertTrue(wear.relative(coarse) > wear.relative(n));
    // no oil of any kind brings it below 0.2
    assertEquals(0.2, wear.relative(new double[J]));
    assertEquals(0.2, wear.relative(times(0.1, reference(pump))));
    assertEquals(0.2, wear.power(-1));
  }

  @Test
  void whatThePressureFilterKeepsDoesNotWear() {
    // beta 2 keeps a half, of which the field leaves 0.8: 0.6 get through
    double[] passed = {0.6, 0.6, 0.6, 0.6, 0.6, 0.6};
    assertArrayEquals(passed, Wear.passedShare(filtered, valve), 1e-15);
    Wear wear = Wear.of(filtered).get(0);
    double[] n = times(1 / 0.6, reference(valve));
    assertEquals(1, wear.relative(n), 4e-11);
    assertEquals(Math.pow(0.6, 1.5), wear.relative(reference(valve)), 1e-10);
    assertEquals(List.of(), Wear.of(TestFleet.machine("EX-02")));
  }

  /** Wear of the first band's count alone. */
  private static Wear ofFirst(double exponent, double least) {
    return new Wear(new double[] {1, 0, 0, 0, 0, 0}, exponent, least);
  }

  private static double mean(Wear wear, double x0, double x1, double x2, double stepH) {
    return wear.mean(count(x0), count(x1), count(x2), count(stepH * (x0 + 4 * x1 + x2) / 6), stepH);
  }

  private static double[] count(double first) {
    return new double[] {first, 0, 0, 0, 0, 0};
  }

  @ParameterizedTest
  @CsvSource({"2, 1, 1.5", "2, 1.5, 1", "3, 1, 1.6", "2, 1, 3", "3, 3, 1", "0.5, 1, 1.6"})
  void theMeanOverACountThatRunsEvenly(double m, double from, double to) {
    // ∫ x^m dx over from..to by its primitive
    double exact = (Math.pow(to, m + 1) - Math.pow(from, m + 1)) / (m + 1) / (to - from);
    assertEquals(exact, mean(ofFirst(m, 0), from, (from + to) / 2, to, 7), 5e-4 * exact);
  }

  @ParameterizedTest
  @CsvSource({"2, 1, 1.1, 1.5", "0.8, 1.5, 1.1, 1", "2, 0.2, 1, 1", "0.7, 3, 1, 0.5"})
  void theMeanOverACountThatBends(double m, double x0, double x1, double x2) {
    // the parabola through the three, summed in fine steps
    double sum = 0;
    int steps = 100_000;
    for (int i = 0; i < steps; i++) {
      double s = (i + 0.5) / steps;
      double x = x0 + s * (-3 * x0 + 4 * x1 - x2) + s * s * (2 * x0 - 4 * x1 + 2 * x2);
      sum += Math.pow(x, m) / steps;
    }
    // the spread of a count that bends is Simpson's, so not exact
    assertEquals(sum, mean(ofFirst(m, 0), x0, x1, x2, 0.3), 3e-3 * sum);
  }

  @Test
  void theMeanWhereItMeetsTheFloor() {
    // κ = max(0.5, x), x from 0 to 2: [0.5² + (2² - 0.5²)/2] / 2
    Wear wear = ofFirst(1, 0.5);
    assertEquals(1.0625, mean(wear, 0, 1, 2, 3), 1e-3);
    assertEquals(1.0625, mean(wear, 2, 1, 0, 3), 1e-3);
    assertEquals(0.5, mean(wear, 0.1, 0.4, 0.2, 3));
    // 0.4 to 0.6 runs little, but over the floor: [0.1 · 0.5 + (0.36 - 0.25)/2] / 0.2
    assertEquals(0.525, mean(wear, 0.4, 0.5, 0.6, 3), 1e-3);
    // a dip below it in the middle of a step
    assertTrue(mean(wear, 0.6, 0.4, 0.6, 3) > 0.5);
  }

  @Test
  void theFloorIsMetByOneOfTwo() {
    Wear wear = ofFirst(1, 0.5);
    assertTrue(wear.meetsFloor(0.5, 0.6));
    assertTrue(wear.meetsFloor(0.6, 0.5));
    assertFalse(wear.meetsFloor(0.5, 0.5));
    assertFalse(wear.meetsFloor(0.6, 0.7));
  }

  @Test
  void thePaceIsThatOfTheWeightedCount() {
    // |d ln x/dt| of 1e4 that falls by 50 an hour; all of weights 2 and 1 at their worst together
    Wear first = ofFirst(1, 0);
    assertEquals(0.005, first.pacePerH(count(1e4), count(-50), 40), 1e-7);
    Wear two = new Wear(new double[] {2, 1, 0, 0, 0, 0}, 1, 0);
    double[] n = {100, 300, 0, 0, 0, 0};
    assertEquals(35.0 / 500, two.pacePerH(n, new double[] {-10, 15, 0, 0, 0, 0}, 40), 1e-5);
    assertEquals(0, first.pacePerH(count(3), count(0), 40));
  }

  @Test
  void thePaceStaysFiniteWhereNothingIsThereYet() {
    // at most ten thousand times the fastest rate of the balance, or 1/h
    Wear first = ofFirst(1, 0);
    assertEquals(40e4, first.pacePerH(count(0), count(1e6), 40), 40);
    assertEquals(1e4, first.pacePerH(count(0), count(1e6), 0.1), 1);
  }
}
