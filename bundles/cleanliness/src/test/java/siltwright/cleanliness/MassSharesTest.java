package siltwright.cleanliness;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;

import java.util.Arrays;
import java.util.Random;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.Test;
import siltwright.model.Bands;
import siltwright.model.SizeBands;
import siltwright.model.SizeDistribution;

class MassSharesTest {
  @Test
  void sharesByHand() {
    // 100 particles of 4 to 6 um(c), d^2 = 24 um2, beside one of 6 to 14 um(c), d^2 = 84 um2
    double fine = 100 * Math.pow(24, 1.5);
    double coarse = Math.pow(84, 1.5);
    Bands shares = MassShares.ofCounts(101, 1, 0, 0, 0, 0);
    assertEquals(fine / (fine + coarse), shares.get(0), 1e-12);
    assertEquals(coarse / (fine + coarse), shares.get(1), 1e-12);
    assertEquals(0, shares.get(2));
  }

  @DisplayName("particles in a gram by hand: spheres of 2.65 g/cm3 (DMT test dust A1 data sheet)")
  @Test
  void particlesInAGramByHand() {
    // half between 4 and 6 um(c), d^2 = 24 um2; half between 70 and 100 um(c), d^2 = 7000 um2
    Bands perG = new SizeDistribution("halves", Bands.of(0.5, 0, 0, 0, 0, 0.5)).particlesPerG();
    double fine = 0.5 / (2.65e-12 * Math.PI / 6 * Math.pow(24, 1.5));
    double coarse = 0.5 / (2.65e-12 * Math.PI / 6 * Math.pow(7000, 1.5));
    assertEquals(fine, perG.get(0), 1e-9 * fine);
    assertEquals(coarse, perG.get(5), 1e-9 * coarse);
  }

  @Test
  void sharesSurviveTheWayThroughParticles() {
    long seed = 12103;
    Random random = new Random(seed);
    for (int i = 0; i < 1000; i++) {
      double[] shares = random.doubles(SizeBands.COUNT).toArray();
      Bands dirt = Bands.of(shares).times(1 / Arrays.stream(shares).sum());
      double[] particles = new SizeDistribution("random", dirt).particlesPerG().toArray();
      assertEquals(1, SizeBands.massG(particles), 1e-12, "seed " + seed);
      assertArrayEquals(
          dirt.toArray(),
          MassShares.ofCounts(SizeBands.toCumulative(particles)).toArray(),
          1e-12,
          "seed " + seed);
    }
  }

  @Test
  void onlyTheRatioOfCountsMatters() {
    assertArrayEquals(
        MassShares.ofCounts(1000, 300, 50, 9, 2, 0.3).toArray(),
        MassShares.ofCounts(100, 30, 5, 0.9, 0.2, 0.03).toArray(),
        1e-12);
  }

  @Test
  void impossibleCountsAreRefused() {
    assertRefused(0, 0, 0, 0, 0, 0);
    assertRefused(1, 2, 0, 0, 0, 0);
    assertRefused(2, 1, Double.NaN, 0, 0, 0);
    assertRefused(2, 1);
  }

  private static void assertRefused(double... cumulative) {
    assertThrows(IllegalArgumentException.class, () -> MassShares.ofCounts(cumulative));
  }
}
