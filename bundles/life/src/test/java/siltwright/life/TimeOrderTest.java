package siltwright.life;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;

import java.util.Arrays;
import java.util.Random;
import java.util.function.DoubleUnaryOperator;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/** Source of the order: the JDK's stable sort. */
class TimeOrderTest {
  @ParameterizedTest
  @ValueSource(strings = {"spread", "clustered", "tied", "wide", "one", "none"})
  void timesComeInOrderWithWhatTheyCarry(String kind) {
    Random random = new Random(1);
    DoubleUnaryOperator time =
        switch (kind) {
          case "spread" -> u -> 9000 * u;
          case "clustered" -> u -> u < 0.01 ? 1e9 * u : 5000 + 1e-9 * u; // low bits alone differ
          case "tied" -> u -> Math.floor(10 * u);
          case "wide" -> u -> Math.exp(1400 * (u - 0.5));
          default -> u -> u;
        };
    int n = kind.equals("none") ? 0 : kind.equals("one") ? 1 : 20_000;
    double[] times = random.doubles(n).map(time).toArray();
    int[] payloads = new int[n];
    Arrays.setAll(payloads, i -> i);
    Integer[] expected = new Integer[n];
    Arrays.setAll(expected, i -> i);
    Arrays.sort(expected, (a, b) -> Double.compare(times[a], times[b]));
    TimeOrder order = TimeOrder.of(times, payloads);
    for (int i = 0; i < n; i++) {
      assertEquals(expected[i], order.payloads[i]);
    }
    assertArrayEquals(Arrays.stream(times).sorted().toArray(), order.times);
  }
}
