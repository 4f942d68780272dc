package siltwright.interval;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.concurrent.atomic.AtomicInteger;
import java.util.function.DoubleUnaryOperator;
import org.apache.commons.math3.util.FastMath;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import siltwright.model.Bands;
import siltwright.model.CleanlinessCode;

/** The searches, on functions whose answers are found by hand. */
class IntervalSearchTest {
  private static final double LOW = 20;
  private static final double HIGH = 20_000;
  private static final double WIDTH = 1e-6;

  @ParameterizedTest
  @ValueSource(doubles = {1, 25, 600, 699, 701, 900, 15_000, 90_000})
  void lastIntervalIsWhereTheLimitIsCrossed(double near) {
    DoubleUnaryOperator smooth = h -> Math.log(h / 700);
    DoubleUnaryOperator steep = h -> h * h * h - 700.0 * 700 * 700;
    DoubleUnaryOperator wall = h -> h > 700 ? Double.POSITIVE_INFINITY : -1;
    for (DoubleUnaryOperator over : new DoubleUnaryOperator[] {smooth, steep, wall}) {
      AtomicInteger calls = new AtomicInteger();
      double last =
          IntervalSearch.last(
              LOW,
              HIGH,
              near,
              WIDTH,
              h -> {
                calls.incrementAndGet();
                return over.applyAsDouble(h);
              });
      assertEquals(700, last, 700 * 3 * WIDTH);
      assertTrue(over.applyAsDouble(last) <= 1e-3, "within the limit");
      // at most 9 strides of a factor 1.5 to 700, and a wall needs 19 halvings to a millionth
      assertTrue(calls.get() <= 35, calls + " calls");
    }
  }

  @Test
  void lastIntervalIsAnEndWhereNothingIsCrossed() {
    assertEquals(0, IntervalSearch.last(LOW, HIGH, 700, WIDTH, h -> 1));
    assertEquals(HIGH, IntervalSearch.last(LOW, HIGH, 700, WIDTH, h -> -1));
    assertEquals(HIGH, IntervalSearch.last(LOW, HIGH, 700, WIDTH, h -> 0));
    assertEquals(LOW, IntervalSearch.last(LOW, HIGH, 700, WIDTH, h -> h > LOW ? 1 : 0), 1e-4);
  }

  /** a/T + bT is least at the square root of a/b, where its derivative is 0. */
  @ParameterizedTest
  @ValueSource(doubles = {25, 40, 333.3, 1000, 7777, 19_000})
  void cheapestIntervalFollowsTheSquareRoot(double best) {
    double found = cheapest(h -> best / h + h / best);
    assertEquals(best, found, 1e-3 * best);
  }

  @Test
  void cheapestIntervalMayStandAtAnEnd() {
    assertEquals(LOW, cheapest(h -> h), 1e-9 * LOW);
    assertEquals(HIGH, cheapest(h -> 1 / h), 1e-9 * HIGH);
  }

  private static double cheapest(DoubleUnaryOperator cost) {
    return new IntervalSearch.Known(cost).cheapest(LOW, HIGH);
  }

  private static Best.Interval round(DoubleUnaryOperator cost) {
    IntervalSearch.Known known = new IntervalSearch.Known(cost);
    return IntervalSearch.interval(known, known.cheapest(LOW, HIGH), LOW, HIGH);
  }

  /** x + 1/x is 2 s where ln x is plus or minus the inverse hyperbolic cosine of s. */
  @ParameterizedTest
  @ValueSource(doubles = {40, 333.3, 1000, 7777})
  void flatRangeOfTheSquareRootIsSymmetricInItsLogarithm(double best) {
    AtomicInteger calls = new AtomicInteger();
    Best.Interval found =
        round(
            h -> {
              calls.incrementAndGet();
              return best / h + h / best;
            });
    double one = Math.exp(FastMath.acosh(1.01));
    double five = Math.exp(FastMath.acosh(1.05));
    assertArrayEquals(new double[] {best / one, best * one}, found.within1pct(), 1e-4 * best);
    assertArrayEquals(new double[] {best / five, best * five}, found.within5pct(), 1e-4 * best);
    // 36 of the grid, a section, and 4 edges from what these have told
    assertTrue(calls.get() <= 80, calls + " costs");
  }

  /** The cost falls up to a wall: the range ends there and begins where 1/T is so much more. */
  @Test
  void flatRangeEndsAtAWall() {
    Best.Interval found = round(h -> h > 700 ? Double.POSITIVE_INFINITY : 700 / h);
    assertEquals(700, found.hours(), 0.2);
    assertArrayEquals(new double[] {700 / 1.01, 700}, found.within1pct(), 0.2);
    assertArrayEquals(new double[] {700 / 1.05, 700}, found.within5pct(), 0.2);
  }

  @Test
  void flatRangeOfAConstantIsAll() {
    assertArrayEquals(new double[] {LOW, HIGH}, round(h -> 3).within1pct());
  }

  /** 18/16/13 ends at 2500, 640 and 80 particles per mL: ISO 4406:2021, table 1, from memory. */
  @Test
  void countsAreOverACodeByTheirLargestRatio() {
    CleanlinessCode code = CleanlinessCode.parse("18/16/13");
    assertEquals(0, IntervalSearch.over(cumulative(2500, 640, 80), code), 1e-12);
    assertEquals(1, IntervalSearch.over(cumulative(2500 * Math.E, 640, 80), code), 1e-12);
    assertEquals(Math.log(2), IntervalSearch.over(cumulative(2000, 1280, 80), code), 1e-12);
    assertEquals(Math.log(1.5), IntervalSearch.over(cumulative(900, 600, 120), code), 1e-12);
    assertEquals(Math.log(0.5), IntervalSearch.over(cumulative(1250, 320, 40), code), 1e-12);
    assertEquals(Double.POSITIVE_INFINITY, IntervalSearch.over(null, code));
  }

  private static Bands cumulative(double from4, double from6, double from14) {
    return Bands.of(from4 - from6, from6 - from14, from14, 0, 0, 0);
  }
}
