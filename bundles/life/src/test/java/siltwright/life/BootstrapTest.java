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

  /**
   * A skewed sample, for which the acceleration matters. Reference: R 4.2.2, boot 1.3-28.1 with
   * survreg of survival 3.5-3, 20 000 draws, boot.ci of types perc and bca with jackknife influence
   * values (acceleration -0.0880, 0.0385 and -0.0288 for ln shape, ln scale and ln B10). Both sides
   * have Monte-Carlo error: a limit's is about 0.5 %.
   */
  @Test
  void limitsOfFewFailuresMatchTheReference() {
    LifeData data = ReferenceCases.table("ball_bearing.csv").data();
    Bootstrap b = Bootstrap.of(data, LifeFamily.WEIBULL, 20_000, 5, true).get();
    near(b.percentileInterval(Quantity.SHAPE, 0.95), 1.718368, 3.031796);
    near(b.bcaInterval(Quantity.SHAPE, 0.95), 1.541003, 2.656133);
    near(b.percentileInterval(Quantity.SCALE, 0.95), 65.67399, 99.34624);
    near(b.bcaInterval(Quantity.SCALE, 0.95), 67.26891, 101.8484);
    near(b.percentileInterval(new Quantity.BLife(0.1), 0.95), 20.19054, 41.15569);
    near(b.bcaInterval(new Quantity.BLife(0.1), 0.95), 17.94951, 37.61166);
  }

  private static void near(Interval got, double lower, double upper) {
    assertEquals(lower, got.lower(), 0.015 * lower);
    assertEquals(upper, got.upper(), 0.015 * upper);
  }

  /** Draws count components: a row for several is the same as several rows. */
  @Test
  void countsAreDrawnComponentByComponent() {
    LifeData.Builder rows = LifeData.builder();
    LifeData.Builder counts = LifeData.builder();
    for (double hours : new double[] {120, 260, 410, 700, 1100}) {
      rows.failedAt(hours).failedAt(hours).failedAt(hours).runningAt(1.5 * hours);
      counts.failedAt(hours).times(3).runningAt(1.5 * hours);
    }
    Bootstrap a = Bootstrap.of(rows.build(), LifeFamily.WEIBULL, 500, 4, true).get();
    Bootstrap b = Bootstrap.of(counts.build(), LifeFamily.WEIBULL, 500, 4, true).get();
    assertArrayEquals(a.values(Quantity.MU), b.values(Quantity.MU), 1e-9);
    Interval i = a.bcaInterval(Quantity.SHAPE, 0.95);
    Interval j = b.bcaInterval(Quantity.SHAPE, 0.95);
    assertEquals(i.lower(), j.lower(), 1e-9);
    assertEquals(i.upper(), j.upper(), 1e-9);
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
