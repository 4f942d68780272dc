package siltwright.life;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import org.apache.commons.math3.distribution.BetaDistribution;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;
import siltwright.life.ReferenceCases.Recipe;

/** Too little data, three parameters, median ranks and goodness of fit. */
class SmallSampleTest {
  /**
   * Rats of M. C. Pike, Biometrics 22 (1966) 142-161, data from memory; estimates by mpmath 1.3.0
   * with 30 digits (src/test/reference/three_parameter.py). Published: shape 2.7112, scale 108.37
   * at a flat maximum.
   */
  @Test
  void threeParameterWeibullOfTheRats() {
    double[] failed = {
      143, 164, 188, 188, 190, 192, 206, 209, 213, 216, 220, 227, 230, 234, 246, 265, 304
    };
    LifeData.Builder b = LifeData.builder().runningAt(216).runningAt(244);
    for (double t : failed) {
      b.failedAt(t);
    }
    ThreeParameterWeibull fit = ThreeParameterWeibull.fit(b.build()).get();
    assertEquals(122.0259420622673, fit.locationH(), 1e-6);
    assertEquals(108.38273204914831, fit.scaleH(), 1e-6);
    assertEquals(2.711476939519154, fit.shape(), 1e-8);
    assertEquals(-87.324247123345572, fit.logLikelihood(), 1e-9);
    assertEquals(28.692439615801492, fit.standardErrors()[0], 1e-4);
    assertEquals(0.30054046107535346, fit.standardErrors()[1], 1e-6);
    assertEquals(0.39047324716145086, fit.standardErrors()[2], 1e-6);
    assertEquals(0.9, fit.reliability(fit.bLifeH(0.1)), 1e-12);
    assertEquals(1, fit.reliability(100));
    assertTrue(fit.locationInterval(0.95).lower() > 60);
    assertTrue(fit.aic() < 2 * 91);
  }

  @Test
  void noFailureFreeTimeIsSaid() {
    LifeData early = Recipe.weibull(60, 77, 0.8, 1000, 500, 4000);
    assertEquals(Reason.NO_LOCAL_MAXIMUM, ThreeParameterWeibull.fit(early).refusal().reason());
    LifeData none = LifeData.builder().runningAt(5).build();
    assertEquals(Reason.NO_FAILURES, ThreeParameterWeibull.fit(none).refusal().reason());
  }

  /** Failed inspections no older than passed ones: the share failed does not grow with age. */
  @ParameterizedTest
  @EnumSource(
      value = LifeFamily.class,
      names = {"WEIBULL", "LOGNORMAL"})
  void inspectionsWithoutAgeingAreRefused(LifeFamily family) {
    LifeData data =
        LifeData.builder()
            .failedBetween(0, 100)
            .times(3)
            .failedBetween(0, 900)
            .runningAt(1000)
            .times(4)
            .runningAt(80)
            .build();
    assertEquals(Reason.NO_AGEING_IN_INSPECTIONS, LifeFitting.fit(data, family).refusal().reason());
    assertTrue(LifeFitting.fit(data, LifeFamily.EXPONENTIAL).exists());
    LifeData ageing =
        LifeData.builder()
            .failedBetween(0, 1000)
            .times(3)
            .failedBetween(0, 90)
            .runningAt(100)
            .times(4)
            .runningAt(900)
            .build();
    assertTrue(LifeFitting.fit(ageing, family).exists());
  }

  @ParameterizedTest
  @EnumSource(LifeFamily.class)
  void nothingSeenAliveIsRefused(LifeFamily family) {
    LifeData data = LifeData.builder().failedBetween(0, 100).failedBetween(0, 250).build();
    assertEquals(Reason.NONE_SEEN_ALIVE, LifeFitting.fit(data, family).refusal().reason());
  }

  /** One failure, with something that outlives it, has an estimate; both boundaries by hand. */
  @Test
  void oneFailureNeedsASurvivorBeyondIt() {
    LifeData.Builder b = LifeData.builder().failedAt(500).runningAt(300);
    Refusal refusal = LifeFitting.fit(b.build(), LifeFamily.WEIBULL).refusal();
    assertEquals(Reason.SINGLE_FAILURE_AT_LARGEST_TIME, refusal.reason());
    assertTrue(refusal.toString().contains("500"), refusal.toString());
    assertTrue(LifeFitting.fit(b.runningAt(500.001).build(), LifeFamily.WEIBULL).exists());
    LifeData tied = LifeData.builder().failedAt(500).failedAt(500).runningAt(300).build();
    assertEquals(
        Reason.FAILURES_TIED_AT_LARGEST_TIME,
        LifeFitting.fit(tied, LifeFamily.LOGNORMAL).refusal().reason());
  }

  /** Zero failures by hand: ten watched 1000 h, 95 %, shape 2: 1000 sqrt(10/-ln 0.05). */
  @Test
  void zeroFailuresGiveALowerBound() {
    LifeData data = LifeData.builder().runningAt(1000).times(10).build();
    LowerBound bound = LowerBound.of(data, 2);
    assertEquals(1000 * Math.sqrt(10 / -Math.log(0.05)), bound.scaleLowerH(0.95), 1e-9);
    assertEquals(
        bound.scaleLowerH(0.95) * Math.sqrt(-Math.log(0.9)), bound.bLifeLowerH(0.1, 0.95), 1e-9);
    assertTrue(Double.isNaN(bound.scaleH()));
    LifeData late = LifeData.builder().runningAt(1000).enteredAt(600).build();
    assertEquals(1000 * 1000 - 600 * 600, LowerBound.of(late, 2).sumOfPowers(), 1e-6);
    assertThrows(IllegalArgumentException.class, () -> LowerBound.of(data, 0));
    assertThrows(IllegalArgumentException.class, () -> bound.scaleLowerH(1));
    LifeData interval = LifeData.builder().failedBetween(1, 2).build();
    assertThrows(IllegalArgumentException.class, () -> LowerBound.of(interval, 2));
  }

  /** Failures placed on their own median ranks lie on the line. */
  @Test
  void medianRanksOfPerfectDataGiveTheLawBack() {
    LifeData.Builder b = LifeData.builder();
    int n = 7;
    for (int i = 1; i <= n; i++) {
      double share = new BetaDistribution(i, n - i + 1).inverseCumulativeProbability(0.5);
      b.failedAt(2000 * Math.pow(-Math.log1p(-share), 1 / 2.5));
    }
    MedianRanks ranks = MedianRanks.of(b.build(), LifeFamily.WEIBULL).get();
    assertEquals(Math.log(2000), ranks.mu(), 1e-6);
    assertEquals(1 / 2.5, ranks.sigma(), 1e-6);
    assertEquals(1, ranks.rSquared(), 1e-9);
    assertEquals(1 - Math.pow(0.5, 1.0 / n), ranks.failedShare()[0], 1e-9); // closed form, i = 1
  }

  /**
   * Adjusted ranks by hand: failures at 1 and 3, removal at 2, failure at 4; ranks 1, then 1 + (5 -
   * 1)/(1 + 2), then + 4/3 again.
   */
  @Test
  void ranksAreAdjustedForRemovals() {
    LifeData data = LifeData.builder().failedAt(1).runningAt(2).failedAt(3).failedAt(4).build();
    MedianRanks ranks = MedianRanks.of(data, LifeFamily.WEIBULL).get();
    double[] adjusted = {1, 1 + 4 / 3.0, 1 + 8 / 3.0};
    double[] want = new double[3];
    for (int i = 0; i < 3; i++) {
      want[i] =
          new BetaDistribution(adjusted[i], 5 - adjusted[i]).inverseCumulativeProbability(0.5);
    }
    assertArrayEquals(want, ranks.failedShare(), 1e-8);
    assertFalse(
        MedianRanks.of(
                LifeData.builder().failedBetween(1, 2).runningAt(4).build(), LifeFamily.WEIBULL)
            .exists());
    assertFalse(
        MedianRanks.of(LifeData.builder().failedAt(1).build(), LifeFamily.WEIBULL).exists());
  }

  /** Weibull records don't contradict the Weibull; two far-apart lumps do. */
  @Test
  void goodnessOfFitTellsALawFromAContradiction() {
    LifeData weibull = Recipe.weibull(80, 321, 2.2, 1000, 600, 2000);
    LifeFit fit = LifeFitting.fit(weibull, LifeFamily.WEIBULL).get();
    GoodnessOfFit good = GoodnessOfFit.of(weibull, fit, 199, 1).get();
    assertTrue(good.pValue() > 0.05, good.toString());
    assertEquals(good, GoodnessOfFit.of(weibull, fit, 199, 1).get());
    LifeData.Builder lumps = LifeData.builder();
    for (int i = 0; i < 40; i++) {
      lumps.failedAt(100 + i).failedAt(5000 + i);
    }
    LifeData two = lumps.build();
    GoodnessOfFit bad =
        GoodnessOfFit.of(two, LifeFitting.fit(two, LifeFamily.WEIBULL).get(), 199, 1).get();
    assertEquals(1 / 200.0, bad.pValue(), 1e-12);
    LifeData interval = LifeData.builder().failedBetween(1, 2).runningAt(4).build();
    assertFalse(GoodnessOfFit.of(interval, fit, 9, 1).exists());
  }

  /** Failures at one hour take ranks one after another; the usual table of n = 5, from memory. */
  @Test
  void tiedFailuresTakeARankEach() {
    LifeData.Builder b = LifeData.builder().failedAt(100).failedAt(200).times(2);
    MedianRanks ranks =
        MedianRanks.of(b.failedAt(300).failedAt(400).build(), LifeFamily.WEIBULL).get();
    double[] table = {0.1294, 0.3138, 0.5, 0.6862, 0.8706};
    assertArrayEquals(table, ranks.failedShare(), 1e-4);
  }
}
