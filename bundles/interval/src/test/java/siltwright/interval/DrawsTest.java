package siltwright.interval;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Arrays;
import java.util.Random;
import org.apache.commons.math3.analysis.polynomials.PolynomialFunction;
import org.apache.commons.math3.stat.descriptive.rank.Percentile;
import org.apache.commons.math3.stat.descriptive.rank.Percentile.EstimationType;
import org.junit.jupiter.api.Test;
import siltwright.interval.Tuning.Draws;

/** What is told between costs computed: on curves whose every value is known. */
class DrawsTest {
  private static final PolynomialFunction CUBIC =
      new PolynomialFunction(new double[] {40, -3, 0.7, -0.02});
  private static final PolynomialFunction PARABOLA =
      new PolynomialFunction(new double[] {40, -3, 0.7});

  /** A curve known at every so-many-th place. */
  private static double[] known(PolynomialFunction f, int places, int every) {
    double[] g = new double[places];
    Arrays.fill(g, Double.POSITIVE_INFINITY);
    for (int t = 0; t < places; t += every) {
      g[t] = f.value(t);
    }
    return g;
  }

  @Test
  void fourNeighboursTellACubic() {
    for (int apart : new int[] {1, 2}) {
      double[] g = known(CUBIC, 21, 2 * apart);
      for (int t = 3 * apart; t < 21 - 3 * apart; t += 2 * apart) {
        assertEquals(CUBIC.value(t), Draws.between(g, t, apart), 1e-12);
      }
    }
  }

  @Test
  void threeNeighboursTellAParabola() {
    for (int apart : new int[] {1, 2}) {
      double[] g = known(PARABOLA, 21, 2 * apart);
      assertEquals(PARABOLA.value(apart), Draws.between(g, apart, apart), 1e-12);
      assertEquals(PARABOLA.value(20 - apart), Draws.between(g, 20 - apart, apart), 1e-12);
      // where the curve is not followed further
      g[12] = Double.POSITIVE_INFINITY;
      assertEquals(PARABOLA.value(12 - 3 * apart), Draws.between(g, 12 - 3 * apart, apart), 1e-12);
    }
  }

  @Test
  void fewerNeighboursTellNothing() {
    double none = Double.POSITIVE_INFINITY;
    assertTrue(Double.isNaN(Draws.between(new double[] {3, none, 4}, 1, 1)));
    assertTrue(Double.isNaN(Draws.between(new double[] {3, none, none, none, 5}, 1, 1)));
    assertTrue(Double.isNaN(Draws.between(new double[] {3, none, none, none, 5}, 3, 1)));
    assertTrue(Double.isNaN(Draws.between(new double[] {none, 0, 4, 0, none}, 1, 1)));
  }

  /** 5 + 2 (ln T - ln 130)^2 is a parabola over the logarithm of the interval. */
  @Test
  void theLeastOfAParabolaIsFoundBetweenItsPlaces() {
    double[] grid = IntervalSearch.grid(20, 2000, 21);
    double[] g = Arrays.stream(grid).map(h -> 5 + 2 * Math.pow(Math.log(h / 130), 2)).toArray();
    int at = 0;
    while (g[at + 1] < g[at]) {
      at++;
    }
    assertArrayEquals(new double[] {130, 5}, Draws.refined(grid, g, at, 1), 1e-9);
  }

  @Test
  void theLeastStaysWhereThereIsNoneBetween() {
    double[] grid = {10, 20, 40};
    double none = Double.POSITIVE_INFINITY;
    assertArrayEquals(new double[] {10, 1}, Draws.refined(grid, new double[] {1, 2, 5}, 0, 1));
    assertArrayEquals(new double[] {40, 1}, Draws.refined(grid, new double[] {5, 2, 1}, 2, 1));
    assertArrayEquals(new double[] {20, 2}, Draws.refined(grid, new double[] {5, 2, none}, 1, 1));
    assertArrayEquals(new double[] {20, 2}, Draws.refined(grid, new double[] {2, 2, 2}, 1, 1));
  }

  /** Commons Math, type 7 of Hyndman and Fan (1996). */
  @Test
  void quantilesAreThoseOfAnotherLibrary() {
    Random random = new Random(1);
    for (int n : new int[] {1, 2, 7, 20, 21, 100}) {
      double[] sorted = random.doubles(n, 1, 50).sorted().toArray();
      for (double p : new double[] {0.05, 0.3, 0.5, 0.95, 1}) {
        double expected =
            new Percentile().withEstimationType(EstimationType.R_7).evaluate(sorted, 100 * p);
        assertEquals(expected, Draws.quantile(sorted, p), 1e-9, p + " of " + n);
      }
    }
    double none = Double.POSITIVE_INFINITY;
    assertEquals(none, Draws.quantile(new double[] {1, none, none, none}, 0.5));
    assertEquals(none, Draws.quantile(new double[] {1, 2, none}, 0.75));
  }
}
