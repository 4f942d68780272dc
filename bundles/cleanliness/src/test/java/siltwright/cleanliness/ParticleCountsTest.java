package siltwright.cleanliness;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.Test;

class ParticleCountsTest {
  private static final double NOT = Double.NaN;

  @DisplayName("mass by hand: spheres of 2.65 g/cm3 (DMT test dust A1 data sheet)")
  @Test
  void massOfSpheresByHand() {
    // 1000 particles per mL between 6 and 14 um(c): d^2 = 84 um2, d^3 = 769.87 um3
    double cubicMicrometres = 1000 * Math.PI / 6 * Math.pow(84, 1.5);
    // 1 um3 per mL of 2.65 g/cm3 is 2.65e-12 g per mL, 2.65e-6 mg per L
    double expectedMgPerL = cubicMicrometres * 2.65e-6;
    assertEquals(expectedMgPerL, ParticleCounts.perMl(1000, 1000, 0, 0, 0, 0).massMgPerL(), 1e-12);
    assertEquals(1.068, expectedMgPerL, 0.001);
  }

  @Test
  void massGrowsInProportionToTheCounts() {
    double mass = ParticleCounts.perMl(900, 300, 40, 8, 2, 0.5).massMgPerL();
    assertEquals(
        3 * mass, ParticleCounts.perMl(2700, 900, 120, 24, 6, 1.5).massMgPerL(), 1e-12 * mass);
    assertArrayEquals(
        new double[] {600, 260, 32, 6, 1.5, 0.5},
        ParticleCounts.perMl(900, 300, 40, 8, 2, 0.5).bandsPerMl());
  }

  @Test
  void aVolumeDoesNotChangeTheCounts() {
    ParticleCounts counts = ParticleCounts.perMl(900, 300, 40, NOT, NOT, NOT);
    assertTrue(counts.volumeMl().isEmpty());
    assertEquals(25, counts.countedIn(25).volumeMl().getAsDouble());
    assertArrayEquals(counts.cumulativePerMl(), counts.countedIn(25).cumulativePerMl());
    assertThrows(IllegalArgumentException.class, () -> counts.countedIn(0));
  }

  @Test
  void incompleteCountsHaveNoMass() {
    ParticleCounts counts = ParticleCounts.perMl(900, 300, 40, NOT, NOT, NOT);
    assertFalse(counts.complete());
    assertThrows(IllegalStateException.class, counts::massMgPerL);
  }

  @Test
  void impossibleCountsAreRefusedWithTheirSize() {
    assertRefused("14 um(c)", 100, 50, -1, NOT, NOT, NOT);
    assertRefused("21 um(c)", 100, 50, NOT, 60, NOT, NOT);
    assertRefused("4 um(c)", Double.POSITIVE_INFINITY, 50, NOT, NOT, NOT, NOT);
    assertRefused("no size", NOT, NOT, NOT, NOT, NOT, NOT);
    assertRefused("six numbers", 100, 50, 10);
    assertThrows(IllegalArgumentException.class, () -> ParticleCounts.inVolume(new double[6], NOT));
  }

  private static void assertRefused(String words, double... perMl) {
    String message =
        assertThrows(IllegalArgumentException.class, () -> ParticleCounts.perMl(perMl))
            .getMessage();
    assertTrue(message.contains(words), message);
  }
}
