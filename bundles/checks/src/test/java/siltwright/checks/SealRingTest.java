package siltwright.checks;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class SealRingTest {
  /** By hand: compression set as in ASTM D395 B, 100 (h0 - h2)/(h0 - h1); squeeze MIL-G-5514G. */
  @Test
  void setAndSqueezeByHand() {
    SealRing ring = new SealRing(3.53, 3.2, 2.8, 4.8, 110, 110);
    assertEquals(0.33 / 0.73, ring.set(), 1e-12);
    assertEquals(0.73 / 3.53, ring.squeezeNew(), 1e-12);
    assertEquals(0.4 / 3.2, ring.squeezeNow(), 1e-12);
    assertEquals(0.4, ring.squeezeNowMm(), 1e-12);
    assertEquals(Math.PI / 4 * 3.53 * 3.53 / (2.8 * 4.8), ring.fill(), 1e-12);
    // 3.53 ± 0.10: (3.43 - 3.2)/(3.43 - 2.8) and (3.63 - 3.2)/(3.63 - 2.8)
    assertArrayEquals(new double[] {0.23 / 0.63, 0.43 / 0.83}, ring.setRange(), 1e-12);
  }

  /** ISO 3601-1 class B, as printed on rtdygert.com: tolerances of the standard sections. */
  @ParameterizedTest
  @CsvSource({
    "1.78, 0.08",
    "2.25, 0.08",
    "2.62, 0.09",
    "3.53, 0.10",
    "5.33, 0.13",
    "6.99, 0.15",
    "8.4, 0.15"
  })
  void tolerancesOfTheTable(double section, double tolerance) {
    assertEquals(tolerance, new SealRing(section, section, section / 2, 10, 50, 50).toleranceMm());
  }

  /** Own derivation: the volume stays, so 4 % stretch thin the section by the root of 1.04. */
  @Test
  void stretchThinsTheSection() {
    SealRing ring = new SealRing(3.53, 3.53, 2.8, 4.8, 100, 104);
    assertEquals(0.04, ring.stretch(), 1e-12);
    assertEquals(1 - 2.8 / (3.53 / Math.sqrt(1.04)), ring.squeezeNow(), 1e-12);
  }

  @Test
  void aGrooveAsDeepAsTheRingIsRefused() {
    assertThrows(
        IllegalArgumentException.class, () -> new SealRing(3.53, 3.2, 3.53, 4.8, 110, 110));
    assertThrows(IllegalArgumentException.class, () -> new SealRing(8.6, 8, 7, 10, 110, 110));
  }
}
