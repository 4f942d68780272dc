package siltwright.checks;

import static org.junit.jupiter.api.Assertions.assertEquals;

import org.junit.jupiter.api.Test;

class TankVentTest {
  private static final double OUTSIDE = 101.325;
  private static final double KELVIN = 293.15;

  private static TankVent vent(double air) {
    return new TankVent(air, 4, 0.6, KELVIN - 273.15, OUTSIDE);
  }

  private static final double AREA_M2 = Math.PI / 4 * 16e-6;

  /** Textbook constant of choked air flow, 0.0404 √K s/m (from memory): ṁ = 0.0404 C A p/√T. */
  @Test
  void chokedFlowIsThatOfTheTextbook() {
    double p = (400 + OUTSIDE) * 1000;
    double textbook = 0.0404 * 0.6 * AREA_M2 * p / Math.sqrt(KELVIN);
    assertEquals(textbook, vent(60).flowKgPerS(400), textbook * 2e-3);
  }

  /** At small pressures air flows as a liquid would: Bernoulli, C A √(2 ρ Δp). */
  @Test
  void slowFlowIsBernoullis() {
    double density = OUTSIDE * 1000 / (287.05 * KELVIN);
    double bernoulli = 0.6 * AREA_M2 * Math.sqrt(2 * density * 200);
    assertEquals(bernoulli, vent(60).flowKgPerS(0.2), bernoulli * 2e-3);
  }

  /** While the flow is choked the absolute pressure falls exponentially; own derivation. */
  @Test
  void chokedVentingIsExponential() {
    double from = 500;
    double to = 200;
    double perS = vent(60).flowKgPerS(from) / (from + OUTSIDE) * 287.05 * KELVIN / 60; // ṁ/p · RT/V
    double expected = Math.log((from + OUTSIDE) / (to + OUTSIDE)) / perS;
    assertEquals(expected, vent(60).timeS(from, to), expected * 1e-8);
  }

  /** Near the outside pressure: dp/dt = -k √p, so the time is 2 (√p1 - √p2)/k; own derivation. */
  @Test
  void theEndIsThatOfARoot() {
    double k = vent(60).flowKgPerS(0.1) * 287.05 * KELVIN / 60 / Math.sqrt(0.1);
    double expected = 2 * (Math.sqrt(0.1) - Math.sqrt(0.001)) / k;
    assertEquals(expected, vent(60).timeS(0.1, 0.001), expected * 2e-3);
  }

  @Test
  void moreAirTakesLongerInProportion() {
    assertEquals(2 * vent(60).timeS(50, 1), vent(120).timeS(50, 1), 1e-9);
    assertEquals(0, vent(60).timeS(1, 1));
  }
}
