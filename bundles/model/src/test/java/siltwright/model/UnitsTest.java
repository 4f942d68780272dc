package siltwright.model;

import static org.junit.jupiter.api.Assertions.assertEquals;

import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class UnitsTest {
  /**
   * Inverse factors as NIST Special Publication 811 (2008), appendix B.8, lists them: gallon (US)
   * 3.785412 L, gallon per minute 3.785412 L/min, psi 6.894757 kPa, pound 0.4535924 kg, inch 25.4
   * mm, pound-force 4.448222 N, pound-force foot 1.355818 N·m; boiling point of water 212 °F.
   */
  @ParameterizedTest
  @CsvSource({
    "3.785412, L, 1, gal",
    "3.785412, L/min, 1, gal/min",
    "6.894757, kPa, 1, psi",
    "100, °C, 212, °F",
    "0.4535924, kg, 1, lb",
    "25.4, mm, 1, in",
    "1.355818, N·m, 1, lbf·ft",
    "4.448222, N, 1, lbf",
    "4.448222, kN, 1000, lbf",
    "3.785412, L/h, 1, gal/h",
    "500, h, 500, h"
  })
  void customaryUnits(double si, String unit, double shown, String shownUnit) {
    assertEquals(shown, Units.US.shown(si, unit), 2e-7 * shown);
    assertEquals(shownUnit, Units.US.unit(unit));
    assertEquals(si, Units.US.read(Units.US.shown(si, unit), unit), 1e-12 * Math.abs(si));
    assertEquals(si, Units.SI.shown(si, unit));
  }
}
