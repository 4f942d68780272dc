package siltwright.cleanliness;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvFileSource;

class AcftdSizeTest {
  @DisplayName("test dust size comparisons: Donaldson hydraulic filter catalogue p. 31")
  @ParameterizedTest(name = "{0} um is {1} um(c)")
  @CsvFileSource(resources = "reference/acftd-sizes.csv")
  void printedPairsConvertBothWays(double acftdUm, double sizeUmC) {
    assertEquals(sizeUmC, AcftdSize.toUmC(acftdUm), 1e-12);
    assertEquals(acftdUm, AcftdSize.fromUmC(sizeUmC), 1e-12);
  }

  @Test
  void everySizeOfTheTableComesBackAndRises() {
    double before = 0;
    for (int i = 0; i <= 1000; i++) {
      double um = 0.8 + i * 49.2 / 1000;
      double converted = AcftdSize.toUmC(Math.min(um, 50));
      assertTrue(converted > before);
      assertEquals(um, AcftdSize.fromUmC(converted), 1e-9);
      before = converted;
    }
  }

  @Test
  void halfWayByHand() {
    // between 5 um (6.4) and 7 um (7.7)
    assertEquals(7.05, AcftdSize.toUmC(6), 1e-12);
  }

  @Test
  void sizesOutsideTheTableAreRefusedWithTheRange() {
    String message =
        assertThrows(IllegalArgumentException.class, () -> AcftdSize.toUmC(100)).getMessage();
    assertTrue(message.contains("0.8 to 50"), message);
    assertThrows(IllegalArgumentException.class, () -> AcftdSize.toUmC(0.7));
    assertThrows(IllegalArgumentException.class, () -> AcftdSize.fromUmC(3.9));
    assertThrows(IllegalArgumentException.class, () -> AcftdSize.fromUmC(38.3));
    assertThrows(IllegalArgumentException.class, () -> AcftdSize.toUmC(Double.NaN));
  }
}
