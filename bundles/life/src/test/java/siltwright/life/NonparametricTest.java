package siltwright.life;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.fasterxml.jackson.databind.JsonNode;
import java.util.Arrays;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;
import siltwright.life.ReferenceCases.Case;
import siltwright.life.ReferenceCases.Recipe;
import siltwright.life.ReferenceCases.Table;

class NonparametricTest {
  static Stream<Case> nonparametric() {
    return ReferenceCases.group("B", "");
  }

  @ParameterizedTest(name = "{0}")
  @MethodSource("nonparametric")
  void survivalCurvesMatchTheReference(Case c) {
    Table table = ReferenceCases.table(c.file());
    LifeData data = table.data();
    JsonNode filter = c.node().get("data").get("filter");
    if (filter != null) {
      String column = filter.fieldNames().next();
      String[] values = table.texts(column);
      data = data.where(i -> values[i].equals(filter.get(column).asText()));
    }
    if (c.id().contains("npmle")) {
      npmle(c, data);
    } else {
      kaplanMeier(c, data);
    }
  }

  private static void kaplanMeier(Case c, LifeData data) {
    KaplanMeier km = KaplanMeier.of(data);
    c.check("n", data.components());
    c.check("failures", data.failures());
    c.column("time", km.timesH());
    c.column("n_risk", km.atRisk());
    c.column("n_event", km.failed());
    c.column("surv", km.survival());
    c.column("se_surv", km.standardErrors());
    for (KaplanMeier.Band band : KaplanMeier.Band.values()) {
      String name = band == KaplanMeier.Band.LOG_LOG ? "loglog" : band.name().toLowerCase();
      double[][] ends = km.band(band, 0.95);
      c.column(name + "_lo", ends[0]);
      c.column(name + "_hi", ends[1]);
    }
    c.column("nelson_aalen", km.cumulativeHazard());
    c.column("se_nelson_aalen_aalen", km.cumulativeHazardStandardErrors());
    c.column("breslow_surv", Arrays.stream(km.cumulativeHazard()).map(h -> Math.exp(-h)).toArray());
    c.column("fleming_harrington_surv", km.flemingHarringtonSurvival());
    JsonNode q = c.expected().get("quantiles");
    if (q != null) {
      for (String name : new String[] {"t10", "median"}) {
        double share = name.equals("t10") ? 0.1 : 0.5;
        Interval limits = km.quantileInterval(share, KaplanMeier.Band.LOG_LOG, 0.95);
        c.check(name, q.get(name), km.quantileH(share));
        c.check(name + "_lo", q.get(name + "_lo"), limits.lower());
        c.check(name + "_hi", q.get(name + "_hi"), limits.upper());
      }
    }
    JsonNode mean = c.expected().get("restricted_mean");
    if (mean != null) {
      double[] got = km.restrictedMean(mean.get("tau").get("value").asDouble());
      c.check("rmean", mean.get("rmean"), got[0]);
      c.check("rmean se", mean.get("se"), got[1]);
    }
  }

  private static void npmle(Case c, LifeData data) {
    Turnbull estimate = Turnbull.of(data);
    c.column("left", estimate.leftH());
    c.column("right", estimate.rightH());
    c.column("mass", estimate.mass());
    c.column("surv_after", estimate.survivalAfter());
    c.check("loglik", estimate.logLikelihood());
    assertTrue(estimate.kuhnTuckerGap() < 1e-8, "gap " + estimate.kuhnTuckerGap());
  }

  @ParameterizedTest(name = "{0}")
  @MethodSource("million")
  void aMillionRowsMatchTheReference(Case c) {
    LifeData data = Recipe.weibull(1_000_000, 777, 1.5, 5000, 0, 9000);
    c.check("failures", data.failures());
    at(c, "distinct_times", KaplanMeier.of(data));
    double[] hours = new double[data.rows()];
    boolean[] failed = new boolean[hours.length];
    for (int i = 0; i < hours.length; i++) {
      hours[i] = Math.ceil(data.lowerH(i));
      failed[i] = data.failed(i);
    }
    at(c, "rounded_up_to_1h", KaplanMeier.of(LifeData.of(hours, failed)));
  }

  static Stream<Case> million() {
    return ReferenceCases.group("T", "km");
  }

  private static void at(Case c, String name, KaplanMeier km) {
    JsonNode want = c.expected().get(name);
    double[] times = km.timesH();
    double[] se = km.standardErrors();
    for (int k = 0; k < want.get("t").get("values").size(); k++) {
      double t = want.get("t").get("values").get(k).asDouble();
      int i = Arrays.binarySearch(times, t);
      i = i >= 0 ? i : -i - 2;
      ReferenceCases.near(
          name + t, want.get("surv").get("values").get(k).asDouble(), km.survivalAt(t), 1e-7, 0);
      ReferenceCases.near(name + t, want.get("se").get("values").get(k).asDouble(), se[i], 1e-7, 0);
    }
  }

  @Test
  void countsAreRepetition() {
    LifeData counted =
        LifeData.builder()
            .failedAt(100)
            .times(2)
            .runningAt(150)
            .times(3)
            .failedAt(200)
            .enteredAt(120)
            .build();
    LifeData repeated =
        LifeData.builder()
            .failedAt(100)
            .failedAt(100)
            .runningAt(150)
            .runningAt(150)
            .runningAt(150)
            .failedAt(200)
            .enteredAt(120)
            .build();
    KaplanMeier a = KaplanMeier.of(counted);
    KaplanMeier b = KaplanMeier.of(repeated);
    assertArrayEquals(b.atRisk(), a.atRisk());
    assertArrayEquals(b.survival(), a.survival());
    assertArrayEquals(b.standardErrors(), a.standardErrors());
    assertEquals(5, a.atRisk()[0]);
    assertEquals(0.6, a.survivalAt(120), 1e-15);
  }

  /** With points and removals only, the interval estimate is Kaplan and Meier's. */
  @Test
  void turnbullOfPointsIsKaplanMeier() {
    LifeData data = Recipe.weibull(60, 4711, 1.4, 1000, 200, 1500);
    Turnbull turnbull = Turnbull.of(data);
    KaplanMeier km = KaplanMeier.of(data);
    double[] times = km.timesH();
    for (int i = 0; i < times.length; i++) {
      assertEquals(times[i], turnbull.rightH()[i]);
      assertEquals(km.survival()[i], turnbull.survivalAfter()[i], 1e-9);
    }
  }

  @Test
  void whatAMethodCannotTakeIsRefused() {
    LifeData interval = LifeData.builder().failedBetween(1, 2).runningAt(3).build();
    assertThrows(IllegalArgumentException.class, () -> KaplanMeier.of(interval));
    LifeData late = LifeData.builder().failedBetween(1, 2).enteredAt(0.5).build();
    assertThrows(IllegalArgumentException.class, () -> Turnbull.of(late));
  }
}
