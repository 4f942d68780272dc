package siltwright.life;

import static org.junit.jupiter.api.Assertions.assertEquals;

import org.apache.commons.math3.special.Erf;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class NormalTailTest {
  /** mpmath 1.3.0, 50 digits: erfc(z/sqrt 2)/2, its log, and density over it. */
  @ParameterizedTest(name = "z = {0} (mpmath 1.3.0, 50 digits)")
  @CsvSource({
    "-8, 0.99999999999999938, -6.2209605742717861e-16, 5.0522710835368954e-15",
    "-3, 0.99865010196836991, -0.0013508099647481938, 0.0044378390421256638",
    "-0.7, 0.75803634777692697, -0.27702394227713126, 0.41192475041929067",
    "-0.3, 0.61791142218895263, -0.48141016158848121, 0.61722085361273445",
    "0, 0.5, -0.69314718055994531, 0.79788456080286536",
    "0.2, 0.42074029056089697, -0.8657395226815953, 0.92941584808564291",
    "0.6, 0.27425311775007359, -1.2937038116140281, 1.2150257602375433",
    "0.7, 0.24196365222307303, -1.4189677615315316, 1.2904993394581665",
    "2, 0.022750131948179207, -3.7831843336820319, 2.3732155328228409",
    "5.5, 1.8989562465887719e-8, -17.779376352625261, 5.6714103138973056",
    "6, 9.8658764503769814e-10, -20.736768949974706, 6.1584826045445989",
    "10, 7.6198530241605261e-24, -53.231285150512471, 10.098093233962512",
    "60, 0, -1805.0135606805671, 60.016657420241125"
  })
  void tailLogAndHazardAreExact(double z, double upper, double log, double hazard) {
    assertEquals(upper, NormalTail.upper(z), 1e-13 * upper);
    assertEquals(log, NormalTail.logUpper(z), 2e-15 * Math.abs(log) + 1e-16);
    assertEquals(hazard, NormalTail.hazard(z), 2e-15 * hazard + 1e-25);
  }

  /** Commons Math 3.6.1 over the whole range in which it keeps its digits. */
  @Test
  void tailAgreesWithCommonsMath() {
    for (double z = -6; z < 6; z += 0.01) {
      double want = 0.5 * Erf.erfc(z / Math.sqrt(2));
      assertEquals(want, NormalTail.upper(z), 1e-12 * want);
    }
  }
}
