package siltwright.interval;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.concurrent.atomic.AtomicInteger;
import java.util.function.DoubleUnaryOperator;
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
      // 9 strides of a factor 1.5 to 700, and 19 halvings of one or 23 of the whole to a millionth
      assertTrue(calls.get() <= 30, calls + " calls");
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
    double found = IntervalSearch.cheapest(h -> best / h + h / best, LOW, HIGH);
    assertEquals(best, found, 1e-3 * best);
  }

  @Test
  void cheapestIntervalMayStandAtAnEnd() {
    assertEquals(LOW, IntervalSearch.cheapest(h -> h, LOW, HIGH), 1e-9 * LOW);
    assertEquals(HIGH, IntervalSearch.cheapest(h -> 1 / h, LOW, HIGH), 1e-9 * HIGH);
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
