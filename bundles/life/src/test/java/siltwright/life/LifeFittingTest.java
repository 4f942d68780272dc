package siltwright.life;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;

import com.fasterxml.jackson.databind.JsonNode;
import java.util.Locale;
import java.util.stream.Stream;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;
import org.junit.jupiter.params.provider.MethodSource;
import siltwright.life.ReferenceCases.Case;
import siltwright.life.ReferenceCases.Recipe;

class LifeFittingTest {
  static Stream<Case> parametric() {
    return ReferenceCases.group("A", "");
  }

  private static LifeData data(Case c) {
    return c.file().isEmpty()
        ? Recipe.weibull(100000, 20240229, 1.7, 12000, 1000, 15000)
        : ReferenceCases.table(c.file()).data();
  }

  @ParameterizedTest(name = "{0}")
  @MethodSource("parametric")
  void parametricFitsMatchTheReference(Case c) {
    LifeData data = data(c);
    if (!c.node().get("exists").asBoolean()) {
      noMaximum(c, data);
    } else if (c.id().endsWith("-aic")) {
      String best = "";
      double lowest = Double.POSITIVE_INFINITY;
      for (LifeFamily family : LifeFamily.values()) {
        String name = family.name().toLowerCase(Locale.ROOT);
        double aic = LifeFitting.fit(data, family).get().aic();
        c.check("aic " + name, c.expected().get("aic").get(name), aic);
        if (aic < lowest) {
          lowest = aic;
          best = name;
        }
      }
      assertEquals(c.expected().get("best").asText(), best);
    } else {
      String name = c.node().get("model").get("distribution").asText();
      fitMatches(c, LifeFitting.fit(data, LifeFamily.valueOf(name.toUpperCase(Locale.ROOT))).get());
    }
  }

  private static void fitMatches(Case c, LifeFit fit) {
    c.check("n", fit.components());
    c.check("failures", fit.failures());
    c.check("loglik", fit.logLikelihood());
    c.check("aic", fit.aic());
    switch (fit.family()) {
      case WEIBULL -> {
        quantity(c, fit, "shape", Quantity.SHAPE);
        quantity(c, fit, "scale", Quantity.SCALE);
        c.check("cov_log_scale_log_shape", fit.covarianceLogScaleLogShape()[0][1]);
      }
      case LOGNORMAL -> {
        quantity(c, fit, "mu", Quantity.MU);
        quantity(c, fit, "sigma", Quantity.SIGMA);
        c.check("cov_mu_log_sigma", fit.covariance()[0][1]);
        c.check("median", fit.scaleH());
      }
      default -> quantity(c, fit, "mean", Quantity.MEAN_LIFE);
    }
    quantity(c, fit, "b10", new Quantity.BLife(0.1));
  }

  private static void quantity(Case c, LifeFit fit, String name, Quantity quantity) {
    Estimated e = fit.estimate(quantity, 0.95);
    c.check(name, e.value());
    c.check("se_" + name, e.standardError());
    c.check("se_log_" + name, e.logStandardError());
    c.check(name + "_lo", e.wald().lower());
    c.check(name + "_hi", e.wald().upper());
    if (c.expected().has(name + "_prof_lo")) {
      Interval profile = fit.profileInterval(quantity, 0.95);
      c.check(name + "_prof_lo", profile.lower());
      c.check(name + "_prof_hi", profile.upper());
    }
  }

  private static void noMaximum(Case c, LifeData data) {
    c.check("n", data.components());
    c.check("failures", data.failures());
    for (LifeFamily family : LifeFamily.values()) {
      String name = family.name().toLowerCase(Locale.ROOT);
      Estimate<LifeFit> fit = LifeFitting.fit(data, family);
      assertEquals(c.expected().get("mle_exists").get(name).asBoolean(), fit.exists(), name);
      if (!fit.exists()) {
        assertThrows(IllegalStateException.class, fit::get);
        assertFalse(fit.refusal().why().isEmpty());
      }
    }
    Estimate<LifeFit> exponential = LifeFitting.fit(data, LifeFamily.EXPONENTIAL);
    if (exponential.exists()) {
      c.check("exponential_mean", exponential.get().meanLifeH());
      c.check("exponential_loglik", exponential.get().logLikelihood());
    }
    for (String shape : new String[] {"1", "1.5", "2", "3"}) {
      double b = Double.parseDouble(shape);
      JsonNode scale = c.expected().get("scale_given_shape_" + shape);
      if (scale != null) {
        c.check("scale given " + shape, scale, LifeFitting.fitWithShape(data, b).get().scaleH());
        c.check("closed form " + shape, scale, LowerBound.of(data, b).scaleH());
      }
      if (c.expected().has("sum_t_pow_" + shape)) {
        LowerBound bound = LowerBound.of(data, b);
        c.check("sum_t_pow_" + shape, bound.sumOfPowers());
        c.check("scale_lower95_given_shape_" + shape, bound.scaleLowerH(0.95));
        c.check("scale_lower90_given_shape_" + shape, bound.scaleLowerH(0.90));
      }
    }
  }

  static Stream<Case> weibayes() {
    return ReferenceCases.group("H", "weibayes");
  }

  @ParameterizedTest(name = "{0}")
  @MethodSource("weibayes")
  void knownShapeMatchesTheReference(Case c) {
    double shape = c.node().get("data").get("inline").get("shape").asDouble();
    LifeData data = data(c);
    LowerBound bound = LowerBound.of(data, shape);
    c.check("failures", bound.failures());
    c.check("sum_t_pow_shape", bound.sumOfPowers());
    c.check("scale", bound.scaleH());
    c.check("scale_lower_50", bound.scaleLowerH(0.5));
    c.check("scale_lower_90", bound.scaleLowerH(0.9));
    c.check("scale_lower_95", bound.scaleLowerH(0.95));
    c.check("b10_lower_90", bound.bLifeLowerH(0.1, 0.9));
    Estimate<LifeFit> fit = LifeFitting.fitWithShape(data, shape);
    if (bound.failures() == 0) {
      assertEquals(Reason.NO_FAILURES, fit.refusal().reason());
    } else {
      c.check("scale", fit.get().scaleH());
      // the information of ln scale is r b^2, by hand
      assertEquals(
          1 / (shape * Math.sqrt(bound.failures())),
          fit.get().estimate(Quantity.SCALE, 0.95).logStandardError(),
          1e-9);
    }
  }

  /** Short intervals have the difference of two survivals as their share, written out here. */
  @ParameterizedTest
  @EnumSource(LifeFamily.class)
  void shortIntervalsHaveTheirShare(LifeFamily family) {
    double[] lower = {900, 1400, 1700, 2300, 3100, 3600};
    LifeData.Builder data = LifeData.builder().runningAt(4000).times(2);
    for (double l : lower) {
      data.failedBetween(l, 1.002 * l);
    }
    LifeFit fit = LifeFitting.fit(data.build(), family).get();
    double expected = 2 * Math.log(fit.reliability(4000));
    for (double l : lower) {
      expected += Math.log(fit.reliability(l) - fit.reliability(1.002 * l));
    }
    assertEquals(expected, fit.logLikelihood(), 1e-9);
  }
}
