package siltwright.checks;

import static org.junit.jupiter.api.Assertions.assertEquals;

import org.junit.jupiter.api.Test;

class OpenTankTest {
  /**
   * Settling speed of a 10 µm sphere of unit density in air, 3.06e-3 m/s with slip (textbook of
   * aerosols, from memory), times the density of dust.
   */
  @Test
  void dustFallsAsTheTextbookSays() {
    assertEquals(2.65 * 3.06e-3, OpenTank.fallingMPerS(10), 2.5e-4);
  }

  /** By hand: 10 mg/m³ falling 0.01 m/s onto 100 cm² for 10 min is 0.6 mg. */
  @Test
  void admittedByHand() {
    double size = 10 * Math.sqrt(0.01 / OpenTank.fallingMPerS(10));
    assertEquals(0.6, new OpenTank(10, 100, 10).admittedMg(size), 1e-9);
  }

  @Test
  void largeDustIsHeldAtASpeed() {
    assertEquals(OpenTank.FASTEST_M_PER_S, OpenTank.fallingMPerS(100));
  }
}
