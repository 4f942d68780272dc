package siltwright.checks;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import org.junit.jupiter.api.Test;

class PlugThreadTest {
  private static final PlugThread M10 = new PlugThread(10, 1.5, 8);

  /**
   * Limits of size of M10 x 1.5, 6g and 6H, from the tables of ISO 965-2 (from memory); the
   * formulas are not rounded to preferred numbers as the tables are, hence 10 µm.
   */
  @Test
  void limitsOfSizeComeNearTheTables() {
    assertEquals(9.732, M10.smallestMajorMm(), 0.01);
    assertEquals(8.862, M10.smallestPitchMm(), 0.01);
    assertEquals(9.206, M10.largestPitchMm(), 0.01);
    assertEquals(8.676, M10.largestMinorMm(), 0.01);
  }

  /**
   * Worked example, DOI 10.1201/9781482273786-99: M10 x 1.5 class 10.9 at 1200 MPa in aluminium of
   * 130 MPa shear strength, 69 600 N, D = 9.968 and E_n = 9.206 mm: 21.6 mm of engagement. It takes
   * the largest major diameter where the formula asks for the smallest; with 9.732 it is 24.93 mm.
   */
  @Test
  void engagementOfAPublishedExample() {
    double perMm = M10.internalAreaMm2(9.968, 9.206) / M10.lengthMm();
    assertEquals(24.842, perMm, 5e-4);
    assertEquals(21.6, 69_600 / 130.0 / perMm, 0.06);
    double smallest = M10.internalAreaMm2(9.732, 9.206) / M10.lengthMm();
    assertEquals(24.93, 69_600 / 130.0 / smallest, 5e-3);
  }

  /**
   * M12 8.8: 34.2 kN at 82.1 N m with K 0.2, computed in the published-values list from T = K D F.
   */
  @Test
  void preloadOfATorque() {
    assertEquals(34_200, new PlugThread(12, 1.75, 8).preloadN(82.1, 0.2), 34_200 * 1e-3);
  }

  /** Laws: areas grow in proportion to the turns; the weaker metal strips. */
  @Test
  void moreTurnsHoldMore() {
    PlugThread few = new PlugThread(22, 1.5, 3);
    PlugThread many = new PlugThread(22, 1.5, 6);
    assertEquals(2 * few.internalAreaMm2(), many.internalAreaMm2(), 1e-9);
    assertEquals(2 * few.externalAreaMm2(), many.externalAreaMm2(), 1e-9);
    assertEquals(0.6 * few.internalAreaMm2() * 100, few.strippingN(1000, 100), 1e-9);
    assertEquals(0.6 * few.externalAreaMm2() * 100, few.strippingN(100, 1000), 1e-9);
    assertTrue(few.internalAreaMm2() > few.externalAreaMm2());
  }

  @Test
  void aPitchTooCoarseForTheDiameterIsRefused() {
    assertThrows(IllegalArgumentException.class, () -> new PlugThread(5, 2, 3));
  }
}
