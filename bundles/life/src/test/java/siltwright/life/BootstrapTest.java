package siltwright.life;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Arrays;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;
import siltwright.life.ReferenceCases.Case;
import siltwright.life.ReferenceCases.Recipe;

class BootstrapTest {
  static Stream<Case> bootstrap() {
    return ReferenceCases.group("T", "bootstrap");
  }

  private static final LifeData DATA = Recipe.weibull(200, 99, 1.8, 3000, 0, 6000);

  @ParameterizedTest(name = "{0}")
  @MethodSource("bootstrap")
  void spreadMatchesTheReference(Case c) {
    Bootstrap bootstrap = Bootstrap.of(DATA, LifeFamily.WEIBULL, 2000, 1, true).get();
    c.check("shape", bootstrap.fit().shape());
    c.check("scale", bootstrap.fit().scaleH());
    c.check("failures", bootstrap.fit().failures());
    c.check("boot_sd_shape", bootstrap.standardDeviation(Quantity.SHAPE));
    c.check("boot_sd_scale", bootstrap.standardDeviation(Quantity.SCALE));
    assertEquals(0, bootstrap.withoutMaximum());
  }

  @Test
  void theSeedAloneDecides() {
    Bootstrap one = Bootstrap.of(DATA, LifeFamily.LOGNORMAL, 50, 7, false).get();
    Bootstrap many = Bootstrap.of(DATA, LifeFamily.LOGNORMAL, 50, 7, true).get();
    assertArrayEquals(one.values(Quantity.SIGMA), many.values(Quantity.SIGMA));
    assertEquals(one.bcaInterval(Quantity.SIGMA, 0.9), many.bcaInterval(Quantity.SIGMA, 0.9));
    Bootstrap other = Bootstrap.of(DATA, LifeFamily.LOGNORMAL, 50, 8, true).get();
    assertFalse(Arrays.equals(one.values(Quantity.MU), other.values(Quantity.MU)));
  }

  /** With many components all intervals tell the same; percentile ends are ranks of the draws. */
  @Test
  void intervalsAgreeWithTheLikelihood() {
    Bootstrap bootstrap = Bootstrap.of(DATA, LifeFamily.WEIBULL, 1999, 3, true).get();
    for (Quantity q : new Quantity[] {Quantity.SCALE, Quantity.SHAPE, new Quantity.BLife(0.1)}) {
      Interval profile = bootstrap.fit().profileInterval(q, 0.95);
      double width = profile.upper() - profile.lower();
      for (Interval i :
          new Interval[] {bootstrap.percentileInterval(q, 0.95), bootstrap.bcaInterval(q, 0.95)}) {
        assertEquals(profile.lower(), i.lower(), 0.15 * width, q.toString());
        assertEquals(profile.upper(), i.upper(), 0.15 * width, q.toString());
      }
      double[] sorted = bootstrap.values(q);
      Arrays.sort(sorted);
      Interval percentile = bootstrap.percentileInterval(q, 0.95);
      assertEquals(sorted[49], percentile.lower(), 1e-9 * sorted[49]); // rank 0.025 * 2000
      assertEquals(sorted[1949], percentile.upper(), 1e-9 * sorted[1949]);
    }
  }

  /** The bias-corrected interval is the same whatever monotone scale the quantity is on. */
  @Test
  void bcaFollowsTheScale() {
    Bootstrap b = Bootstrap.of(DATA, LifeFamily.WEIBULL, 400, 11, true).get();
    Interval shape = b.bcaInterval(Quantity.SHAPE, 0.9);
    Interval sigma = b.bcaInterval(Quantity.SIGMA, 0.9);
    assertEquals(1 / sigma.upper(), shape.lower(), 1e-9);
    assertEquals(1 / sigma.lower(), shape.upper(), 1e-9);
  }

  @Test
  void drawsWithoutAnEstimateAreCounted() {
    LifeData few = LifeData.builder().failedAt(100).failedAt(300).runningAt(400).times(8).build();
    Bootstrap b = Bootstrap.of(few, LifeFamily.WEIBULL, 500, 2, true).get();
    assertTrue(b.withoutMaximum() > 20, "no failure drawn in about (8/10)^10 of the draws");
    assertEquals(500, b.withoutMaximum() + b.values(Quantity.MU).length);
    LifeData none = LifeData.builder().runningAt(400).build();
    assertEquals(
        Reason.NO_FAILURES, Bootstrap.of(none, LifeFamily.WEIBULL, 10, 2, true).refusal().reason());
    LifeData half = LifeData.builder().failedAt(100).times(0.5).build();
    assertThrows(
        IllegalArgumentException.class,
        () -> Bootstrap.of(half, LifeFamily.EXPONENTIAL, 10, 2, true));
  }
}
