package siltwright.life;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.fasterxml.jackson.databind.JsonNode;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.HashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.MethodSource;
import siltwright.life.ReferenceCases.Case;
import siltwright.life.ReferenceCases.Recipe;
import siltwright.life.ReferenceCases.Table;

class AftModelTest {
  static Stream<Case> regressions() {
    return ReferenceCases.group("C", "");
  }

  /** The handbook's own constants, 273.16 K and 8.617e-5 eV/K; its printed digits need them. */
  private static LifeData data(Table table, List<String> covariates) {
    LifeData data = table.data();
    for (String name : covariates) {
      if (name.equals("lkT")) {
        double[] celsius = table.numbers("temp_c", Double.NaN);
        data =
            data.withCovariate(
                name, Arrays.stream(celsius).map(t -> 1 / (8.617e-5 * (t + 273.16))).toArray());
      } else if (name.equals("celltype")) {
        data =
            data.withCovariate(
                name, table.texts(name), List.of("squamous", "smallcell", "adeno", "large"));
      } else {
        data = data.withCovariate(name, table.numbers(name, Double.NaN));
      }
    }
    return data;
  }

  @ParameterizedTest(name = "{0}")
  @MethodSource("regressions")
  void regressionsMatchTheReference(Case c) {
    Table table = ReferenceCases.table(c.file());
    if (!c.node().get("exists").asBoolean()) {
      levelWithoutFailures(c, table);
      return;
    }
    JsonNode model = c.node().get("model");
    List<String> covariates =
        List.of(model.get("formula").asText().replaceAll(".*~ ", "").split(" \\+ "));
    LifeFamily family =
        LifeFamily.valueOf(model.get("distribution").asText().toUpperCase(Locale.ROOT));
    AftFit fit = AftModel.fit(data(table, covariates), family, covariates).get();
    JsonNode e = c.expected();
    List<String> order = new ArrayList<>();
    e.get("coef").fieldNames().forEachRemaining(order::add);
    for (String name : order) {
      String ours = name.replace("celltype", "celltype=");
      Estimated b = fit.coefficient(ours, 0.95);
      c.check("coef " + name, e.get("coef").get(name), b.value());
      c.check("se " + name, e.get("se").get(name), b.standardError());
      c.check("lo " + name, e.get("coef_lo").get(name), b.wald().lower());
      c.check("hi " + name, e.get("coef_hi").get(name), b.wald().upper());
      c.check("p " + name, e.get("p_value").get(name), fit.pValue(ours));
      c.check("ratio " + name, e.get("time_ratio").get(name), fit.lifeFactor(ours, 0.95).value());
      if (e.has("hazard_ratio")) {
        c.check("hazard " + name, e.get("hazard_ratio").get(name), fit.hazardRatio(ours));
      }
    }
    c.check("n", fit.withoutCovariates().components());
    c.check("failures", fit.withoutCovariates().failures());
    c.check("sigma", fit.sigma());
    c.check("shape", fit.shape());
    c.check("se_log_sigma", fit.logSigmaStandardError());
    c.check("loglik", fit.logLikelihood());
    c.check("loglik_null", fit.withoutCovariates().logLikelihood());
    c.check("lr_chisq", fit.likelihoodRatioTest().chiSquare());
    c.check("lr_df", fit.likelihoodRatioTest().degreesOfFreedom());
    c.check("lr_p", fit.likelihoodRatioTest().pValue());
    c.check("aic", fit.aic());
    covariance(c, fit, order);
    for (JsonNode p : e.path("predict")) {
      Map<String, Double> at = new HashMap<>();
      boolean numeric = true;
      for (String name : covariates) {
        numeric &= p.get("at").has(name) && p.get("at").get(name).isNumber();
        at.put(name, p.get("at").path(name).asDouble());
      }
      Map<String, Object> values = new HashMap<>(at);
      if (!numeric) {
        values.put("celltype", p.get("at").get("celltype").asText());
      }
      Estimated b10 = fit.bLife(values, 0.1, 0.95);
      Estimated median = fit.bLife(values, 0.5, 0.95);
      c.check("b10", p.get("b10"), b10.value());
      c.check("median", p.get("median"), median.value());
      c.check("se_log_b10", p.get("se_log_b10"), b10.logStandardError());
      c.check("se_log_median", p.get("se_log_median"), median.logStandardError());
      c.check("b10_lo", p.get("b10_lo"), b10.wald().lower());
      c.check("b10_hi", p.get("b10_hi"), b10.wald().upper());
      assertEquals(0.9, fit.reliability(values, b10.value()), 1e-12);
    }
  }

  private static void covariance(Case c, AftFit fit, List<String> order) {
    JsonNode vcov = c.expected().get("vcov");
    if (vcov == null) {
      return;
    }
    List<String> names = new ArrayList<>(fit.names());
    names.add("ln sigma");
    double[][] got = fit.covariance();
    for (int i = 0; i < vcov.get("order").size(); i++) {
      int ours = names.indexOf(vcov.get("order").get(i).asText().replace("celltype", "celltype="));
      for (int j = 0; j < vcov.get("order").size(); j++) {
        int other =
            names.indexOf(vcov.get("order").get(j).asText().replace("celltype", "celltype="));
        ReferenceCases.near(
            c.id() + " vcov",
            vcov.get("values").get(i).get(j).asDouble(),
            got[ours][other],
            vcov.get("rtol").asDouble(),
            vcov.get("atol").asDouble());
      }
    }
  }

  private static void levelWithoutFailures(Case c, Table table) {
    LifeFamily family = LifeFamily.valueOf(c.id().replaceAll(".*_", "").toUpperCase(Locale.ROOT));
    double[] group = table.numbers("new_design", Double.NaN);
    LifeData data = table.data().withCovariate("new_design", group);
    assertEquals(
        Reason.LEVEL_WITHOUT_FAILURES,
        AftModel.fit(data, family, List.of("new_design")).refusal().reason());
    assertEquals(
        Reason.LEVEL_WITHOUT_FAILURES,
        AftModel.fit(
                table.data().withCovariate("new_design", table.texts("new_design")),
                family,
                List.of("new_design"))
            .refusal()
            .reason());
    LifeFit reference = LifeFitting.fit(data.where(i -> group[i] == 0), family).get();
    JsonNode want = c.expected().get("reference_group");
    ReferenceCases.near("mu", want.get("intercept").asDouble(), reference.mu(), 1e-5, 0);
    ReferenceCases.near("sigma", want.get("scale").asDouble(), reference.sigma(), 1e-5, 0);
    ReferenceCases.near(
        "loglik", want.get("loglik").asDouble(), reference.logLikelihood(), 0, 1e-5);
  }

  static Stream<Case> large() {
    return ReferenceCases.group("T", "aft");
  }

  static LifeData hundredThousand() {
    int n = 100_000;
    Recipe u = new Recipe(424242);
    double[] code = new double[n];
    double[] temp = new double[n];
    double[] mob = new double[n];
    double[] hours = new double[n];
    boolean[] failed = new boolean[n];
    for (int i = 0; i < n; i++) {
      code[i] = 14 + Math.floor(9 * u.next());
      temp[i] = 35 + 40 * u.next();
      mob[i] = u.next() < 0.4 ? 1 : 0;
      double life =
          Math.exp(9.6 - 0.16 * (code[i] - 17) - 0.012 * (temp[i] - 50) - 0.35 * mob[i])
              * Math.pow(-Math.log(u.next()), 1 / 1.9);
      double cens = 16000 * (0.3 + 0.7 * u.next());
      failed[i] = life <= cens;
      hours[i] = Math.min(life, cens);
    }
    return LifeData.of(hours, failed)
        .withCovariate("code", code)
        .withCovariate("temp", temp)
        .withCovariate("mob", mob);
  }

  @ParameterizedTest(name = "{0}")
  @MethodSource("large")
  void aHundredThousandRowsMatchTheReference(Case c) {
    AftFit fit =
        AftModel.fit(hundredThousand(), LifeFamily.WEIBULL, List.of("code", "temp", "mob")).get();
    for (String name : fit.names()) {
      Estimated b = fit.coefficient(name, 0.95);
      c.check(name, c.expected().get("coef").get(name), b.value());
      c.check(name, c.expected().get("se").get(name), b.standardError());
    }
    c.check("sigma", fit.sigma());
    c.check("loglik", fit.logLikelihood());
    c.check("failures", fit.withoutCovariates().failures());
  }

  private static final LifeData SMALL =
      Recipe.weibull(40, 99, 1.5, 1000, 300, 1500)
          .withCovariate("x", column(i -> i % 7))
          .withCovariate("twice", column(i -> 2 * (i % 7) + 3))
          .withCovariate("same", column(i -> 5));

  private static double[] column(java.util.function.IntToDoubleFunction f) {
    double[] v = new double[40];
    Arrays.setAll(v, f);
    return v;
  }

  @Test
  void covariatesThatDetermineEachOtherAreNamed() {
    Refusal twice = AftModel.fit(SMALL, LifeFamily.WEIBULL, List.of("x", "twice")).refusal();
    assertEquals(Reason.COLLINEAR, twice.reason());
    assertTrue(twice.why().contains("twice is determined by x"), twice.why());
    Refusal same = AftModel.fit(SMALL, LifeFamily.LOGNORMAL, List.of("same")).refusal();
    assertEquals(Reason.COLLINEAR, same.reason());
    assertThrows(
        IllegalArgumentException.class,
        () -> AftModel.fit(SMALL, LifeFamily.WEIBULL, List.of("unknown")));
  }

  /** Failures all at x = 0, survivors at rising x: the likelihood rises with the slope for ever. */
  @Test
  void aNumberThatSeparatesFailuresFromSurvivorsIsRefused() {
    double[] hours = {100, 150, 220, 180, 300, 250, 400, 120, 350, 270};
    boolean[] failed = {true, true, true, true, true, true, false, false, false, false};
    double[] x = {0, 0, 0, 0, 0, 0, 1, 2, 3, 4};
    LifeData data = LifeData.of(hours, failed).withCovariate("x", x);
    for (LifeFamily family : LifeFamily.values()) {
      assertEquals(Reason.SEPARATED, AftModel.fit(data, family, List.of("x")).refusal().reason());
    }
  }

  /** A covariate's unit only rescales its coefficient. */
  @Test
  void aChangeOfUnitChangesNothingElse() {
    AftFit a = AftModel.fit(SMALL, LifeFamily.WEIBULL, List.of("x")).get();
    AftFit b = AftModel.fit(SMALL, LifeFamily.WEIBULL, List.of("twice")).get();
    assertEquals(a.logLikelihood(), b.logLikelihood(), 1e-9);
    assertEquals(a.coefficients()[1], 2 * b.coefficients()[1], 1e-9);
    assertEquals(a.pValue("x"), b.pValue("twice"), 1e-9);
    assertEquals(
        a.bLife(Map.of("x", 2), 0.1, 0.95).standardError(),
        b.bLife(Map.of("twice", 7), 0.1, 0.95).standardError(),
        1e-6);
    assertEquals(
        a.waldTest("x").pValue(), a.pValue("x"), 1e-12, "one degree of freedom: the same test");
    assertEquals(-a.coefficients()[1] / Math.log(2), a.countExponent("x", 0.95).value(), 1e-15);
  }

  /** Residuals of the failures and removals have the mean that the score of ln sigma demands. */
  @Test
  void residualsSolveTheScore() {
    AftFit fit = AftModel.fit(SMALL, LifeFamily.WEIBULL, List.of("x")).get();
    double[] z = fit.standardisedResiduals(SMALL);
    double sum = 0;
    double failures = 0;
    for (int i = 0; i < z.length; i++) {
      sum += Math.exp(z[i]);
      failures += SMALL.failed(i) ? 1 : 0;
    }
    assertEquals(failures, sum, 1e-6); // the score of the intercept: sum exp(z) = failures
  }

  /**
   * Source: R survival 3.5-3, survreg of its data set ovarian with the number held by an offset (or
   * by scale), and uniroot on twice the likelihood lost; of the B10 life with optim instead.
   */
  @ParameterizedTest
  @CsvSource({
    "WEIBULL, age, -0.152861342, -0.052408644",
    "WEIBULL, ecog_ps, -0.78090010, 0.83405415",
    "WEIBULL, (Intercept), 9.6623667, 16.1365285",
    "WEIBULL, sigma, 0.39885096, 1.01740508",
    "WEIBULL, b10, 125.67707, 478.59978",
    "LOGNORMAL, age, -0.135388139, -0.047025095",
    "LOGNORMAL, ecog_ps, -0.62556740, 0.96393443",
    "LOGNORMAL, (Intercept), 8.8074629, 14.4603649",
    "LOGNORMAL, sigma, 0.53475535, 1.29358481",
    "LOGNORMAL, b10, 162.10986, 423.26282",
    "EXPONENTIAL, age, -0.185806423, -0.050734714",
    "EXPONENTIAL, ecog_ps, -1.2819072, 1.1001438",
    "EXPONENTIAL, (Intercept), 9.9062532, 18.5517998"
  })
  void profileIntervalsMatchTheReference(
      LifeFamily family, String name, double lower, double upper) {
    List<String> covariates = List.of("age", "ecog_ps");
    AftFit fit =
        AftModel.fit(data(ReferenceCases.table("ovarian.csv"), covariates), family, covariates)
            .get();
    Map<String, Double> at = Map.of("age", 56.0, "ecog_ps", 1.5);
    Interval i =
        switch (name) {
          case "sigma" -> fit.sigmaProfileInterval(0.95);
          case "b10" -> fit.bLifeProfileInterval(at, 0.1, 0.95);
          default -> fit.profileInterval(name, 0.95);
        };
    double tolerance = name.equals("b10") ? 1e-5 : 1e-6;
    assertEquals(lower, i.lower(), tolerance * Math.abs(lower));
    assertEquals(upper, i.upper(), tolerance * Math.abs(upper));
  }
}
