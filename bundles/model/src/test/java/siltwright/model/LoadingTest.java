package siltwright.model;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertNotEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import java.util.concurrent.atomic.AtomicInteger;
import java.util.function.DoubleUnaryOperator;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

@DisplayName("Loading law against Hermia's closed laws at constant flow")
class LoadingTest {
  private static final double R = 16;

  // The exponents of the four mechanisms are printed in Pereira et al., Membranes 2023, 13(3), 290
  // (abstract): 2 complete, 1.5 standard, 1 intermediate, 0 cake. At constant flow they integrate
  // to
  // the laws below, V the volume that has passed, here in proportion to the mass; K makes h(1) = r.

  @Test
  void completeBlocking() {
    double k = 1 - 1 / R;
    same(2, m -> 1 / (1 - k * m));
  }

  @Test
  void standardBlocking() {
    double k = 2 * (1 - 1 / Math.sqrt(R));
    same(1.5, m -> Math.pow(1 - k * m / 2, -2));
  }

  @Test
  void intermediateBlocking() {
    double k = Math.log(R);
    same(1, m -> Math.exp(k * m));
  }

  @Test
  void cake() {
    double k = R - 1;
    same(0, m -> 1 + k * m);
  }

  private static void same(double exponent, DoubleUnaryOperator closed) {
    Loading law = Loading.blocking(exponent, R);
    assertEquals(1, law.dropRatio(0), 1e-14);
    assertEquals(R, law.dropRatio(1), 1e-12 * R);
    for (double m = 0; m <= 1.04; m += 0.04) {
      double h = closed.applyAsDouble(m);
      assertEquals(h, law.dropRatio(m), 1e-12 * h, "at " + m);
    }
  }

  @Test
  void halfTheDropAtFourFifthsOfTheLife() {
    // HAWE fluid lexicon, "flow resistance of filters" (refers to ISO 3968): the drop rises roughly
    // as a third-order function of life; half of the permissible drop is reached at about 80 %. A
    // third-order law has 1/(1 - n) = 3. Its constant term is the clean drop, small beside the
    // rest:
    // 0.5^(1/3) = 0.794.
    Loading cubic = Loading.blocking(2.0 / 3, 1e9);
    assertEquals(0.8, cubic.massShareAt(0.5e9), 0.01);
  }

  @ParameterizedTest
  @ValueSource(doubles = {0, 0.5, 0.65, 0.9, 1, 1.3, 1.5, 2, 2.2, 4})
  void massAtADropLeadsBackToTheDrop(double exponent) {
    Loading law = Loading.blocking(exponent, R);
    for (double h = 1; h < 1000; h *= 1.7) {
      assertEquals(h, law.dropRatio(law.massShareAt(h)), 1e-7 * h);
    }
  }

  @ParameterizedTest
  @ValueSource(doubles = {0, 0.65, 1, 1.5, 2.2})
  void slopeIsThatOfTheLaw(double exponent) {
    // d ln h / dm = k h^(n-1), against a central difference
    Loading law = Loading.blocking(exponent, R);
    for (double m = 0.1; m < 1; m += 0.1) {
      double d = 1e-5;
      double difference = Math.log(law.dropRatio(m + d) / law.dropRatio(m - d)) / (2 * d);
      assertEquals(difference, law.logSlope(m), 1e-6 * difference);
    }
  }

  @Test
  void anExponentAboveOneHasAWall() {
    // 1 - K V = 0 of the complete and 1 - K V / 2 = 0 of the standard law
    assertEquals(1 / (1 - 1 / R), Loading.blocking(2, R).wall(), 1e-12);
    assertEquals(1 / (1 - 1 / Math.sqrt(R)), Loading.blocking(1.5, R).wall(), 1e-12);
    assertEquals(Double.POSITIVE_INFINITY, Loading.blocking(2, R).dropRatio(1.07));
    assertEquals(Double.POSITIVE_INFINITY, Loading.blocking(1, R).wall());
    assertTrue(Loading.blocking(1, R).dropRatio(3) < Double.POSITIVE_INFINITY);
  }

  @Test
  void exponentsNextToOneGoOverIntoIt() {
    double h = Loading.blocking(1, R).dropRatio(0.7);
    assertEquals(h, Loading.blocking(1 + 2e-9, R).dropRatio(0.7), 1e-7 * h);
    assertEquals(h, Loading.blocking(1 - 2e-9, R).dropRatio(0.7), 1e-7 * h);
  }

  @Test
  void aMeasuredCurveGoesBeforeTheExponent() {
    Loading law =
        element(List.of(new LoadingPoint(0, 1), new LoadingPoint(0.5, 3), new LoadingPoint(1, 12)))
            .loading();
    assertEquals(Math.sqrt(3), law.dropRatio(0.25), 1e-12);
    assertEquals(3, law.dropRatio(0.5), 1e-12);
    assertEquals(Math.sqrt(3 * 12), law.dropRatio(0.75), 1e-12);
    // beyond its end at the last slope: ln(12/3) more for every 0.5
    assertEquals(12 * 4, law.dropRatio(1.5), 1e-9);
    for (double m = 0; m < 2; m += 0.1) {
      assertEquals(m, law.massShareAt(law.dropRatio(m)), 1e-12);
    }
    assertEquals(Math.log(3) / 0.5, law.logSlope(0.3), 1e-12);
    assertEquals(Math.log(4) / 0.5, law.logSlope(0.7), 1e-12);
  }

  @Test
  void withoutACurveTheElementsExponentHolds() {
    // 500/25 = 20 at n = 0.5: h = (1 + (sqrt 20 - 1) m)^2
    double h = Math.pow(1 + (Math.sqrt(20) - 1) * 0.3, 2);
    assertEquals(h, element(List.of()).loading().dropRatio(0.3), 1e-12);
  }

  @Test
  void aTerminalDropIsAboveTheCleanOne() {
    assertThrows(IllegalArgumentException.class, () -> Loading.blocking(1, 1));
    assertThrows(IllegalArgumentException.class, () -> Loading.blocking(1, Double.NaN));
  }

  @ParameterizedTest
  @ValueSource(doubles = {0, 0.65, 1, 1.5, 2.2})
  void aLawThatIsSampledStaysTheLaw(double exponent) {
    // both ways through the same closed law, up to a million times the clean drop
    Loading law = Loading.blocking(exponent, R);
    Loading sampled = Loading.sampled(law::dropRatio);
    for (double h = 1; h < 1e5; h *= 1.07) {
      double m = law.massShareAt(h);
      if (m < 4) {
        if (h < 100) { // beyond, a wall is so near that only the mass tells
          assertEquals(Math.log(h), Math.log(sampled.dropRatio(m)), 5e-4, h + " at " + m);
        }
        assertEquals(m, sampled.massShareAt(h), 2e-4 * Math.max(1, m));
      }
    }
  }

  @Test
  void aLawBeginsAtOneAndRises() {
    assertThrows(IllegalArgumentException.class, () -> Loading.sampled(m -> 2 + m));
    assertThrows(IllegalArgumentException.class, () -> Loading.sampled(m -> 1));
    assertThrows(IllegalArgumentException.class, () -> Loading.sampled(m -> 1 + m * (1 - m)));
    assertThrows(IllegalArgumentException.class, () -> Loading.sampled(m -> Double.NaN));
    assertThrows(
        IllegalArgumentException.class, () -> Loading.sampled(m -> m > 0.5 ? Double.NaN : 1 + m));
  }

  @Test
  void aLawThatBendsIsKeptToATenThousandth() {
    // ln h = 3 m², and one that bends the other way
    assertClose(m -> Math.exp(3 * m * m));
    assertClose(m -> 1 + 40 * m);
    assertClose(m -> Math.pow(1 + m, 5));
  }

  private static void assertClose(DoubleUnaryOperator law) {
    Loading sampled = Loading.sampled(law);
    for (double m = 0; law.applyAsDouble(m) < 1e6 && m < 4; m += 0.00317) {
      double h = law.applyAsDouble(m);
      assertEquals(Math.log(h), Math.log(sampled.dropRatio(m)), 1.5e-4, "at " + m);
    }
  }

  @Test
  void aLawThatIsStraightIsAskedNoMoreThanItMust() {
    // ln h = 2 m is its own chord: once at 0 and at 4, and at each end and middle of 32 pieces
    AtomicInteger asked = new AtomicInteger();
    Loading sampled =
        Loading.sampled(
            m -> {
              asked.incrementAndGet();
              return Math.exp(2 * m);
            });
    assertEquals(2 + 2 * 32, asked.get());
    // and beyond four capacities the last slope goes on
    assertEquals(Math.exp(10), sampled.dropRatio(5), 1e-9 * Math.exp(10));
    assertEquals(2, sampled.logSlope(0), 1e-9);
    assertEquals(2, sampled.logSlope(9), 1e-9);
  }

  @Test
  void aLawIsAskedUpToAMillion() {
    // h = e^(20 m) is a million at m = 0.69; it is straight, so its last slope is it beyond too
    Loading steep = Loading.sampled(m -> Math.exp(20 * m));
    assertEquals(1, steep.massShareAt(Math.exp(20)), 1e-9);
    // a wall at half the capacity: h = 1/(1 - 2 m)
    Loading wall = Loading.sampled(m -> m < 0.5 ? 1 / (1 - 2 * m) : Double.POSITIVE_INFINITY);
    assertEquals(0.5 * (1 - 1e-5), wall.massShareAt(1e5), 1e-4);
    assertEquals(0.25, wall.massShareAt(2), 1e-4);
  }

  @Test
  void aLawMayJump() {
    // within the finest piece, an eighth of the capacity halved nine times
    double finest = 0.125 / 512;
    Loading jump = Loading.sampled(m -> m < 0.7 ? 1 + m : 10 + m);
    assertEquals(1.7 - finest, jump.dropRatio(0.7 - finest), 1e-3);
    assertEquals(10.7 + finest, jump.dropRatio(0.7 + finest), 1e-3);
    assertEquals(0.7, jump.massShareAt(5), finest);
  }

  @Test
  void equalLoadingsAreOne() {
    Loading law = Loading.blocking(1.5, R);
    Loading curve = Loading.sampled(m -> 1 + m);
    assertEquals(law, Loading.blocking(1.5, R));
    assertEquals(law.hashCode(), Loading.blocking(1.5, R).hashCode());
    assertEquals(curve, Loading.sampled(m -> 1 + m));
    assertEquals(curve.hashCode(), Loading.sampled(m -> 1 + m).hashCode());
    assertNotEquals(law, Loading.blocking(1.4, R));
    assertNotEquals(law, Loading.blocking(1.5, 15));
    assertNotEquals(law.hashCode(), Loading.blocking(1.4, R).hashCode());
    assertNotEquals(curve, Loading.sampled(m -> 1 + 2 * m));
    assertNotEquals(Loading.blocking(1, Math.E), Loading.sampled(Math::exp));
    assertNotEquals(law, "loading");
  }

  @Test
  void beyondAWallNothingPasses() {
    Loading complete = Loading.blocking(2, R);
    assertEquals(Double.POSITIVE_INFINITY, complete.logSlope(1.07));
    assertTrue(complete.logSlope(1.06) > 0);
    assertEquals(Double.POSITIVE_INFINITY, Loading.sampled(m -> 1 + m).wall());
    assertEquals(Double.POSITIVE_INFINITY, Loading.blocking(0.5, R).wall());
  }

  @Test
  void aLawThatFallsIsToldWhere() {
    // e^m up to the capacity, e^(2 - m) behind it; pieces of an eighth
    String told =
        assertThrows(
                IllegalArgumentException.class,
                () -> Loading.sampled(m -> Math.exp(Math.min(m, 2 - m))))
            .getMessage();
    assertTrue(
        told.matches(".* is 2\\.39\\d* at 1\\.125 of the capacity after 2\\.71\\d* at 1\\.0"),
        told);
  }

  private static Element element(List<LoadingPoint> curve) {
    return new Element(
        "e", "Element", List.of(new BetaPoint(10, 75)), 25, 500, 100, 200, 32, 0.5, curve, 0, 50);
  }
}
