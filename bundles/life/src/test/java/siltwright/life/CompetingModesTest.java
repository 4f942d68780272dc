package siltwright.life;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;

import java.util.Arrays;
import java.util.List;
import org.junit.jupiter.api.Test;
import siltwright.life.ReferenceCases.Recipe;

class CompetingModesTest {
  /** Failures at 10 (leak), 20 (wear), 30 (leak) of five; removals at 15 and 40. */
  private static final LifeData FIVE =
      LifeData.builder()
          .failedAt(10)
          .runningAt(15)
          .failedAt(20)
          .failedAt(30)
          .runningAt(40)
          .build()
          .withModes(new String[] {"leak", "", "wear", "leak", null});

  /** By hand: S before 10, 20, 30 is 1, 4/5, 8/15; n is 5, 3, 2. */
  @Test
  void incidenceByHand() {
    CumulativeIncidence c = CumulativeIncidence.of(FIVE);
    assertEquals(List.of("leak", "wear"), c.modes());
    assertArrayEquals(new double[] {10, 20, 30}, c.timesH());
    assertArrayEquals(
        new double[] {1 / 5.0, 1 / 5.0, 1 / 5.0 + 8 / 15.0 / 2}, c.incidence()[0], 1e-15);
    assertArrayEquals(new double[] {0, 4 / 15.0, 4 / 15.0}, c.incidence()[1], 1e-15);
    // the first step is a binomial share, p (1 - p)/n
    assertEquals(Math.sqrt(0.2 * 0.8 / 5), c.standardErrors()[0][0], 1e-15);
    // wear at 20: F = 4/15 rests on 4 of 5 at 10 and 1 of 3 at 20; delta method by hand
    double variance = Math.pow(4 / 15.0, 2) / (5 * 4.0) + Math.pow(4 / 5.0, 2) * 1 * 2 / 27.0;
    assertEquals(Math.sqrt(variance), c.standardErrors()[1][1], 1e-15);
  }

  /** All modes together are what Kaplan and Meier lose. */
  @Test
  void incidencesAndSurvivalAddToOne() {
    LifeData data = withModes(Recipe.weibull(300, 8, 1.3, 900, 100, 1500));
    CumulativeIncidence c = CumulativeIncidence.of(data);
    double[] survival = KaplanMeier.of(data).survival();
    for (int j = 0; j < survival.length; j++) {
      assertEquals(1, survival[j] + c.incidence()[0][j] + c.incidence()[1][j], 1e-12);
    }
  }

  @Test
  void oneModeIsGreenwoods() {
    LifeData data = Recipe.weibull(100, 8, 1.3, 900, 100, 1500);
    String[] mode = new String[data.rows()];
    Arrays.fill(mode, "wear");
    CumulativeIncidence c = CumulativeIncidence.of(data.withModes(mode));
    assertArrayEquals(KaplanMeier.of(data).standardErrors(), c.standardErrors()[0], 1e-12);
  }

  private static LifeData withModes(LifeData data) {
    String[] mode = new String[data.rows()];
    for (int i = 0; i < mode.length; i++) {
      mode[i] = i % 3 == 0 ? "leak" : "wear";
    }
    return data.withModes(mode);
  }

  /** The likelihood factors by mode, so two exponential rates add to that of all failures. */
  @Test
  void exponentialRatesOfModesAdd() {
    LifeData data = withModes(Recipe.weibull(300, 8, 1.0, 900, 100, 1500));
    CompetingModes modes = CompetingModes.fit(data, LifeFamily.EXPONENTIAL);
    LifeFit all = LifeFitting.fit(data, LifeFamily.EXPONENTIAL).get();
    double rate = 0;
    for (Estimate<LifeFit> fit : modes.fits().values()) {
      rate += 1 / fit.get().meanLifeH();
    }
    assertEquals(1 / all.meanLifeH(), rate, 1e-12);
    assertEquals(all.reliability(700), modes.reliability(700), 1e-12);
  }

  @Test
  void aModeWithoutFitSaysWhy() {
    LifeData data =
        LifeData.builder()
            .failedAt(10)
            .failedAt(12)
            .failedAt(20)
            .build()
            .withModes(new String[] {"a", "a", "b"});
    CompetingModes modes = CompetingModes.fit(data, LifeFamily.WEIBULL);
    assertEquals(Reason.SINGLE_FAILURE_AT_LARGEST_TIME, modes.fits().get("b").refusal().reason());
    assertThrows(IllegalStateException.class, () -> modes.reliability(5));
  }
}
