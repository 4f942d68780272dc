package siltwright.model;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertNotEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.OptionalDouble;
import java.util.function.DoubleUnaryOperator;
import org.apache.commons.math3.distribution.NormalDistribution;
import org.apache.commons.math3.distribution.WeibullDistribution;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

@DisplayName("Lives against closed laws and the distributions of Apache Commons Math")
class SurvivalTest {
  private static final NormalDistribution NORMAL = new NormalDistribution(null, 0, 1);

  /** -ln of the upper tail, which that library gives without loss as the lower tail of -z. */
  private static double logNormalHazard(double shape, double u) {
    return -Math.log(NORMAL.cumulativeProbability(-shape * Math.log(u)));
  }

  @ParameterizedTest
  @ValueSource(doubles = {0.7, 1, 2.2, 4})
  void weibullIsThatOfTheLibrary(double shape) {
    Survival life = Survival.weibull(shape);
    WeibullDistribution library = new WeibullDistribution(null, shape, 1);
    for (double u = 0.01; u < 3; u *= 1.3) {
      double left = 1 - library.cumulativeProbability(u);
      assertEquals(left, Math.exp(-life.cumulativeHazard(u)), 1e-12);
    }
    assertEquals(OptionalDouble.of(shape), life.weibullShape());
    assertEquals(0, life.exposures().length);
  }

  @ParameterizedTest
  @ValueSource(doubles = {0.5, 1, 2.5, 6})
  void lognormalIsThatOfTheLibrary(double shape) {
    Survival life = BasicLife.LOGNORMAL.of(shape);
    assertEquals(OptionalDouble.empty(), life.weibullShape());
    double[] u = life.exposures();
    // At its points it is the law itself, the first and last by halving to 18 digits.
    for (int i = 1; i < u.length; i++) {
      double hazard = logNormalHazard(shape, u[i]);
      assertEquals(hazard, life.cumulativeHazard(u[i]), 1e-9 * hazard, "at " + u[i]);
    }
    // Φ(0) = 1/2: half of them are left at the median.
    assertEquals(Math.log(2), life.cumulativeHazard(1), 2e-4);
    assertClose(life, x -> logNormalHazard(shape, x));
  }

  @Test
  void aLawIsKeptAsFinelyAsPromised() {
    assertClose(u -> u * u);
    assertClose(u -> Math.pow(u, 3.5));
    assertClose(u -> Math.sqrt(u));
    // Gompertz: a hazard that grows with e^2u
    assertClose(u -> 0.1 * Math.expm1(2 * u));
    // log-logistic: one that rises and falls
    assertClose(u -> Math.log1p(u * u * u));
  }

  private static void assertClose(DoubleUnaryOperator law) {
    assertClose(Survival.sampled(law), law);
  }

  /** Within 0.0001 (1 + H), or twice that, since "about", between the points where it is worst. */
  private static void assertClose(Survival life, DoubleUnaryOperator law) {
    double[] u = life.exposures();
    assertEquals(0, u[0]);
    assertEquals(0, life.cumulativeHazard(0));
    for (int i = 1; i < u.length; i++) {
      assertTrue(u[i] > u[i - 1], () -> "the points rise");
      for (double share : new double[] {0.25, 0.5, 0.75}) {
        double at = u[i - 1] + share * (u[i] - u[i - 1]);
        double hazard = law.applyAsDouble(at);
        assertEquals(hazard, life.cumulativeHazard(at), 2e-4 * (1 + hazard), "at " + at);
      }
    }
    // from where one part in a million is gone to where one in 10^13 is left: e^-30
    assertEquals(1e-6, law.applyAsDouble(u[1]), 1e-9);
    assertEquals(30, law.applyAsDouble(u[u.length - 1]), 1e-9);
  }

  @Test
  void aConstantHazardNeedsNoMorePointsThanTheFirst() {
    // H = u is its own chord: 0, the first and 64 pieces
    Survival life = Survival.sampled(u -> u);
    assertEquals(66, life.exposures().length);
    for (double u : new double[] {0, 1e-9, 0.3, 1, 7, 29.9}) {
      assertEquals(u, life.cumulativeHazard(u), 1e-12);
    }
    // beyond its last point the last hazard goes on
    assertEquals(45, life.cumulativeHazard(45), 1e-9);
  }

  @Test
  void nothingFailsWhileTheHazardStands() {
    Survival life = Survival.sampled(u -> u < 1 ? u : Math.max(1, u - 1));
    assertEquals(0.5, life.cumulativeHazard(0.5), 2e-4);
    assertEquals(1, life.cumulativeHazard(1.5), 2e-4);
    assertEquals(2, life.cumulativeHazard(3), 2e-4);
  }

  @Test
  void manyMayFailAtOnce() {
    // A step is found within the finest piece: a 64th of ln(30e6), halved six times.
    double step = Math.log(30e6) / 64 / 64;
    Survival life = Survival.sampled(u -> u < 2 ? u : u + 3);
    assertEquals(2 * Math.exp(-step), life.cumulativeHazard(2 * Math.exp(-step)), 1e-3);
    assertEquals(5 * Math.exp(step), life.cumulativeHazard(2 * Math.exp(step)), 0.05);
  }

  @Test
  void aLawMustHaveAMeanLife() {
    // Lomax: S = (1 + u)^-a has the mean 1/(a - 1), and none for a of 1 or less.
    assertThrows(IllegalArgumentException.class, () -> lomax(0.8));
    assertThrows(IllegalArgumentException.class, () -> lomax(1));
    assertEquals(1.5 * Math.log(2), lomax(1.5).cumulativeHazard(1), 2e-4);
    // A thousandth of the mean may lie behind the last point, U with S(U) = e^-30, at the rate U S:
    // a = 1.2: e^(30/1.2 - 30) = 0.0067 of 5, and a = 1.23: 0.0037 of 4.35
    assertThrows(IllegalArgumentException.class, () -> lomax(1.2));
    assertEquals(1.23 * Math.log(2), lomax(1.23).cumulativeHazard(1), 2e-4);
  }

  private static Survival lomax(double a) {
    return Survival.sampled(u -> a * Math.log1p(u));
  }

  @Test
  void aLawIsRefusedThatIsNone() {
    assertRefused("fail at last", u -> 1 - Math.exp(-u));
    assertRefused("fail at last", u -> Double.NaN);
    assertRefused("never fall", u -> u > 1 && u < 2 ? 0.5 : u);
    assertRefused("be a number", u -> u > 1 && u < 2 ? Double.NaN : u);
    // all that are left fail at once: no point at which one part in 10^13 is left
    assertRefused("life law", u -> u > 2 ? Double.POSITIVE_INFINITY : u);
  }

  private static void assertRefused(String why, DoubleUnaryOperator law) {
    String message =
        assertThrows(IllegalArgumentException.class, () -> Survival.sampled(law)).getMessage();
    assertTrue(message.contains(why), message);
  }

  @Test
  void equalLivesAreOne() {
    assertEquals(Survival.weibull(2), Survival.weibull(2));
    assertEquals(Survival.weibull(2).hashCode(), Survival.weibull(2).hashCode());
    assertNotEquals(Survival.weibull(2), Survival.weibull(3));
    assertNotEquals(Survival.weibull(2).hashCode(), Survival.weibull(3).hashCode());
    assertEquals(Survival.sampled(u -> u), Survival.sampled(u -> u));
    assertEquals(Survival.sampled(u -> u).hashCode(), Survival.sampled(u -> u).hashCode());
    assertNotEquals(Survival.sampled(u -> u), Survival.sampled(u -> 2 * u));
    assertNotEquals(Survival.sampled(u -> u), Survival.weibull(1));
    assertNotEquals(Survival.weibull(1), "weibull");
  }

  @Test
  void thePointsAreACopy() {
    Survival life = Survival.sampled(u -> u);
    double[] points = life.exposures();
    double[] before = points.clone();
    points[1] = 1;
    assertArrayEquals(before, life.exposures());
  }
}
