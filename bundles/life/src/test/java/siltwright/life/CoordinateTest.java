package siltwright.life;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;

import java.util.List;
import java.util.function.DoubleUnaryOperator;
import java.util.stream.Stream;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.Arguments;
import org.junit.jupiter.params.provider.MethodSource;

/** What intervals are made in, against the definition of a derivative; plans with sums by hand. */
class CoordinateTest {
  private static final double STEP = 1e-4;
  private static final double MU = 7.3;
  private static final double TAU = -0.6;

  static Stream<Arguments> coordinates() {
    return Stream.of(LifeFamily.WEIBULL, LifeFamily.LOGNORMAL)
        .flatMap(
            family ->
                List.of(
                        Quantity.MU,
                        Quantity.SIGMA,
                        Quantity.SHAPE,
                        Quantity.MEAN_LIFE,
                        new Quantity.BLife(0.1),
                        new Quantity.Reliability(900))
                    .stream()
                    .map(quantity -> Arguments.of(quantity, family)));
  }

  private static double slope(DoubleUnaryOperator f, double x) {
    return (f.applyAsDouble(x + STEP) - f.applyAsDouble(x - STEP)) / (2 * STEP);
  }

  private static double curvature(DoubleUnaryOperator f, double x) {
    double around = f.applyAsDouble(x + STEP) + f.applyAsDouble(x - STEP);
    return (around - 2 * f.applyAsDouble(x)) / (STEP * STEP);
  }

  @ParameterizedTest
  @MethodSource("coordinates")
  @DisplayName("derivatives are the limits of central differences")
  void derivativesAreLimitsOfDifferences(Quantity quantity, LifeFamily family) {
    Coordinate coordinate = new Coordinate(quantity, family);
    double c = coordinate.at(MU, TAU);
    assertEquals(c, coordinate.of(coordinate.value(c)), 1e-9);
    double value = slope(coordinate::value, c);
    assertEquals(value, coordinate.slope(c), 1e-6 * Math.max(1, Math.abs(value)));
    double[] gradient = coordinate.gradient(MU, TAU);
    assertEquals(slope(mu -> coordinate.at(mu, TAU), MU), gradient[0], 1e-6);
    assertEquals(slope(tau -> coordinate.at(MU, tau), TAU), gradient[1], 1e-6);
  }

  @ParameterizedTest
  @MethodSource("coordinates")
  @DisplayName("on its curve the coordinate stays the same")
  void coordinateStaysOnItsCurve(Quantity quantity, LifeFamily family) {
    Coordinate coordinate = new Coordinate(quantity, family);
    if (coordinate.isTau()) {
      return; // it has no curve
    }
    double c = coordinate.at(MU, TAU);
    for (double tau : new double[] {TAU, -1.2, 0.3}) {
      double[] curve = coordinate.curve(c, tau);
      assertEquals(c, coordinate.at(curve[0], tau), 1e-12);
      assertEquals(slope(t -> coordinate.curve(c, t)[0], tau), curve[1], 1e-6);
      assertEquals(curvature(t -> coordinate.curve(c, t)[0], tau), curve[2], 1e-5);
    }
  }

  /**
   * All of n survive with the chance R to the n, so n show R with the confidence 1 - R to the n.
   */
  @Test
  void leastNumberShowsTheReliability() {
    assertEquals(0.75, DemonstrationPlan.attainedConfidence(2, 0.5, 0), 1e-15);
    assertEquals(0.5, DemonstrationPlan.attainedConfidence(1, 0.5, 0), 1e-15);
    assertEquals(2, DemonstrationPlan.components(0.5, 0.74, 0));
    assertEquals(3, DemonstrationPlan.components(0.5, 0.76, 0));
    // one of two may fail: both fail with the chance 1/4
    assertEquals(0.25, DemonstrationPlan.attainedConfidence(2, 0.5, 1), 1e-15);
    assertThrows(
        IllegalArgumentException.class, () -> DemonstrationPlan.attainedConfidence(2, 0.5, 2));
    assertThrows(
        IllegalArgumentException.class, () -> DemonstrationPlan.attainedConfidence(2, 0.5, -1));
  }
}
