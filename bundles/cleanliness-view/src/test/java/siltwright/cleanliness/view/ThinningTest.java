package siltwright.cleanliness.view;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Arrays;
import java.util.SplittableRandom;
import java.util.stream.IntStream;
import org.junit.jupiter.api.Test;

class ThinningTest {
  /** Law: of any series the extremes stay, in order, at most two of a range. */
  @Test
  void keepsEveryExtreme() {
    SplittableRandom random = new SplittableRandom(4);
    for (int n : new int[] {21, 1000, 200_000}) {
      double[] xs = random.doubles(n, 0, 9000).sorted().toArray();
      double[] ys = random.doubles(n, 1, 1e6).toArray();
      int[] kept = Thinning.of(xs, ys, 10);
      assertTrue(kept.length <= 20);
      for (int i = 1; i < kept.length; i++) {
        assertTrue(kept[i] > kept[i - 1]);
      }
      double[] shown = Thinning.at(ys, kept);
      assertEquals(Arrays.stream(ys).max().orElseThrow(), Arrays.stream(shown).max().orElse(0));
      assertEquals(Arrays.stream(ys).min().orElseThrow(), Arrays.stream(shown).min().orElse(0));
    }
  }

  @Test
  void leavesFewPointsAlone() {
    double[] xs = {1, 1, 2};
    assertArrayEquals(new int[] {0, 1, 2}, Thinning.of(xs, xs, 2));
    assertEquals(0, Thinning.of(new double[0], new double[0], 2).length);
    double[] same = new double[100];
    assertArrayEquals(new int[] {0}, Thinning.of(same, same, 4));
  }

  @Test
  void allComeBackWhereOneLooksCloser() {
    double[] xs = IntStream.range(0, 10_000).mapToDouble(i -> i).toArray();
    double[] ys = IntStream.range(0, 10_000).mapToDouble(i -> (i * 7919L) % 1000).toArray();
    int[] kept = Thinning.near(xs, ys, 5000, 5009, 10);
    int[] inside = IntStream.of(kept).filter(i -> i >= 5000 && i <= 5009).toArray();
    assertArrayEquals(IntStream.rangeClosed(5000, 5009).toArray(), inside);
    assertTrue(kept.length < 40, "those outside stay thinned: " + kept.length);
    assertTrue(IntStream.range(1, kept.length).allMatch(i -> kept[i] > kept[i - 1]));
    assertTrue(Thinning.thins(xs, 0, 9999, 10));
    assertFalse(Thinning.thins(xs, 5000, 5009, 10));
  }
}
