package siltwright.interval;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.OptionalDouble;
import org.apache.commons.math3.analysis.integration.IterativeLegendreGaussIntegrator;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvFileSource;

@DisplayName("Age replacement (Barlow and Proschan 1965) against mpmath with 40 digits")
class AgeReplacementTest {
  @ParameterizedTest(name = "{0}: shape {1}, planned {3}, failure {4}")
  @CsvFileSource(resources = "reference/age-replacement.csv")
  void bestAgeAndCostAgree(
      String id,
      double shape,
      double scaleH,
      double planned,
      double failure,
      boolean finite,
      Double ageH,
      double costPerH,
      double atFailurePerH,
      double meanH) {
    AgeReplacement part = new AgeReplacement(shape, scaleH, 0, planned, failure);
    assertEquals(meanH, part.meanWearLifeH(), 1e-9 * meanH);
    assertEquals(atFailurePerH, part.costAtFailurePerH(), 1e-9 * atFailurePerH);
    OptionalDouble best = part.bestAgeH();
    // Three optima lie so late that they cost the same as running to failure: none may be told.
    boolean sameAsFailure = finite && Math.abs(costPerH / atFailurePerH - 1) < 1e-12;
    assertTrue(best.isPresent() ? finite : sameAsFailure || !finite);
    double cost = best.isPresent() ? part.costPerH(best.getAsDouble()) : part.costAtFailurePerH();
    assertEquals(costPerH, cost, 1e-9 * costPerH);
    if (best.isPresent()) {
      assertEquals(ageH, best.getAsDouble(), 1e-6 * ageH);
    }
  }

  @Test
  @DisplayName("with a constant hazard beside wear: Commons Math quadrature and brute force")
  void constantHazardIsAdded() {
    AgeReplacement part = new AgeReplacement(2.5, 4000, 1e-4, 500, 4000);
    IterativeLegendreGaussIntegrator outside =
        new IterativeLegendreGaussIntegrator(16, 1e-12, 1e-12);
    double expected = outside.integrate(100_000, part::reliability, 0, 2500);
    assertEquals(expected, part.serviceH(2500), 1e-9 * expected);
    double least = Double.POSITIVE_INFINITY;
    for (double age = 50; age < 20_000; age += 1) {
      least = Math.min(least, part.costPerH(age));
    }
    assertEquals(least, part.costPerH(part.bestAgeH().orElseThrow()), 1e-7 * least);
  }

  /** Reference: ∫ R of shape 0.7, 9000 h and 2e-5 1/h by mpmath, 15 digits. */
  @Test
  void earlyFailuresAndAcuteOnesTogether() {
    AgeReplacement part = new AgeReplacement(0.7, 9000, 2e-5, 2000, 15000);
    assertEquals(15000 / 8530.61414005319, part.costAtFailurePerH(), 1e-9);
  }
}
