package siltwright.fleet;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static siltwright.fleet.ReferenceCases.Case.check;
import static siltwright.fleet.ReferenceCases.Case.column;

import com.fasterxml.jackson.databind.JsonNode;
import java.util.Arrays;
import java.util.List;
import java.util.Map;
import java.util.SplittableRandom;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;
import siltwright.fleet.ReferenceCases.Case;
import siltwright.life.Covariate;
import siltwright.life.Interval;
import siltwright.life.SignificanceTest;

/** The shared reference cases; what made their answers and their sources stand in cases.json. */
class ReferenceTest {
  static Stream<Case> oneSample() {
    return ReferenceCases.cases("E-shared-mcf_");
  }

  @ParameterizedTest(name = "{0}")
  @MethodSource("oneSample")
  void meanCumulativeMatchesTheReference(Case c) {
    sample(c.expected(), c.data(), c.id());
  }

  private static void sample(JsonNode e, EventData data, String id) {
    MeanCumulative m = MeanCumulative.withUnbiasedVariance(data);
    column(id + " time", e.get("time"), m.timesH());
    column(id + " at_risk", e.get("at_risk"), m.atRisk());
    column(id + " events_at", e.get("events_at"), m.marks());
    column(id + " mcf", e.get("mcf"), m.mean());
    column(id + " se_poisson", e.get("se_poisson"), roots(m.poissonVariance()));
    column(id + " se_robust", e.get("se_robust"), roots(m.variance()));
    column(id + " se_nelson", e.get("se_nelson"), roots(m.unbiasedVariance()));
    double[][] band = m.band(0.95);
    column(id + " low", e.get("robust_log_lo"), band[0]);
    column(id + " high", e.get("robust_log_hi"), band[1]);
    check(id + " systems", e.get("systems"), data.machines().size());
    check(id + " events", e.get("events"), data.events());
    check(id + " exposure", e.get("exposure"), data.hoursH());
  }

  private static double[] roots(double[] squares) {
    return Arrays.stream(squares).map(Math::sqrt).toArray();
  }

  @Test
  void twoFleetsMatchTheReference() {
    Case c = ReferenceCases.cases("mcf2").findFirst().orElseThrow();
    String file = "sim_two_fleets.csv";
    EventData a = ReferenceCases.events(file, r -> r.get("fleet").equals("A"), false);
    EventData b = ReferenceCases.events(file, r -> r.get("fleet").equals("B"), false);
    sample(c.expected().get("mcf_a"), a, "a");
    sample(c.expected().get("mcf_b"), b, "b");
    for (JsonNode d : c.expected().get("difference_a_minus_b")) {
      MeanDifference got =
          MeanDifference.ofMany(
              MeanCumulative.of(a), MeanCumulative.of(b), d.get("t").asDouble(), 0.95);
      check("mcf_a", d.get("mcf_a"), got.first());
      check("mcf_b", d.get("mcf_b"), got.second());
      check("diff", d.get("diff"), got.difference());
      check("se", d.get("se_robust"), got.standardError());
      check("lo", d.get("lo"), got.interval().lower());
      check("hi", d.get("hi"), got.interval().upper());
      check("z", d.get("z"), got.statistic());
      check("p", d.get("p"), got.pValue());
    }
    EventData both = ReferenceCases.events(file, r -> true, false);
    int[] codes =
        both.machines().stream().mapToInt(m -> a.machines().contains(m) ? 0 : 1).toArray();
    Covariate.Categorical fleet = new Covariate.Categorical(List.of("A", "B"), codes);
    RateFit fit = RateModel.fit(both, Map.of("fleet", fleet), null).get();
    JsonNode want = c.expected().get("rate_ratio_model");
    check("log ratio", want.get("log_rate_ratio_b_vs_a"), fit.coefficients()[0]);
    check("robust", want.get("se_robust"), fit.standardError("fleet=B"));
    check("naive", want.get("se_naive"), fit.standardErrorByChance("fleet=B"));
    SignificanceTest score = RateModel.compare(both, fleet, null);
    check("score", want.get("robust_score_chisq"), score.chiSquare());
    check("score p", want.get("robust_score_p"), score.pValue());
    check("wald", want.get("wald_robust_chisq"), fit.waldTest("fleet").chiSquare());
  }

  static Stream<Case> single() {
    return Stream.of("nhpp_nist", "nhpp_mil189", "nhpp_lhd").flatMap(ReferenceCases::cases);
  }

  @ParameterizedTest(name = "{0}")
  @MethodSource("single")
  void powerLawOfOneMachineMatchesTheReference(Case c) {
    EventData data = c.data();
    PowerLaw law = PowerLaw.fit(data).get();
    double end = data.toH(0);
    assertEquals(c.expected().get("truncation").asText().equals("failure"), law.endsAtEvent());
    c.check("n", data.events());
    c.check("T", end);
    c.check("beta", law.shape());
    c.check("lam", law.lambda());
    c.check("eta", law.scaleH());
    c.check("beta_unbiased", law.unbiasedShape());
    c.check("lam_unbiased", law.unbiasedLambda());
    c.check("loglik", law.logLikelihood());
    c.check("se_log_beta", law.logShapeStandardError());
    c.check("intensity_T", law.ratePerH(end));
    c.check("mtbf_T", 1 / law.ratePerH(end));
    c.check("mtbf_T_unbiased", law.hoursBetweenAtEndH());
    c.check("beta_lo_95", law.shapeInterval(0.95).lower());
    c.check("beta_hi_95", law.shapeInterval(0.95).upper());
    c.check("beta_lo_90", law.shapeInterval(0.9).lower());
    c.check("beta_hi_90", law.shapeInterval(0.9).upper());
    CramerVonMises fit = CramerVonMises.of(data, 0, 1);
    c.check("M", fit.events());
    c.check("cvm", fit.statistic());
    TrendTests.Laplace laplace = TrendTests.laplace(data);
    c.check("laplace", laplace.z());
    c.check("laplace_p", laplace.pValue());
    SignificanceTest mil = TrendTests.militaryHandbook(data);
    c.check("mil_chisq", mil.chiSquare());
    c.check("mil_df", mil.degreesOfFreedom());
    c.check("mil_p", mil.pValue());
    c.check("lr_beta1", law.againstConstant().chiSquare());
    c.check("lr_beta1_p", law.againstConstant().pValue());
    if (!law.endsAtEvent()) {
      c.check("nist_mtbf_lo_80", law.hoursBetweenInterval(0.8).lower());
      c.check("nist_mtbf_hi_80", law.hoursBetweenInterval(0.8).upper());
    }
  }

  static Stream<Case> several() {
    return ReferenceCases.cases("nhpp_multi");
  }

  @ParameterizedTest(name = "{0}")
  @MethodSource("several")
  void powerLawOfSeveralMachinesMatchesTheReference(Case c) {
    EventData data = c.data();
    PowerLaw law = PowerLaw.fit(data).get();
    c.check("systems", data.machines().size());
    c.check("n", data.events());
    c.check("exposure", data.hoursH());
    c.check("beta", law.shape());
    c.check("lam", law.lambda());
    c.check("eta", law.scaleH());
    c.check("loglik", law.logLikelihood());
    c.check("se_log_beta", law.logShapeStandardError());
    c.check("se_log_lam", law.logLambdaStandardError());
    c.check("beta_lo", law.shapeInterval(0.95).lower());
    c.check("beta_hi", law.shapeInterval(0.95).upper());
    TrendTests.Laplace laplace = TrendTests.laplace(data);
    c.check("laplace", laplace.z());
    c.check("laplace_p", laplace.pValue());
    SignificanceTest mil = TrendTests.militaryHandbook(data);
    c.check("mil_chisq", mil.chiSquare());
    c.check("mil_df", mil.degreesOfFreedom());
    c.check("mil_p", mil.pValue());
    c.check("hpp_rate", data.events() / data.hoursH());
    c.check("lr_beta1", law.againstConstant().chiSquare());
  }

  @Test
  void powerLawOfCountsMatchesTheReference() {
    Case c = ReferenceCases.cases("grouped").findFirst().orElseThrow();
    double[] bounds = numbers(c.inline("bounds"));
    long[] counts = Arrays.stream(numbers(c.inline("counts"))).mapToLong(v -> (long) v).toArray();
    PowerLaw.Grouped g = PowerLaw.grouped(bounds, counts);
    c.check("beta", g.shape());
    c.check("lam", g.lambda());
    c.check("eta", g.scaleH());
    c.column("expected", g.expected());
    c.check("chisq", g.test().chiSquare());
    c.check("chisq_df", g.test().degreesOfFreedom());
    c.check("intensity_T", g.ratePerH(100));
    c.check("mtbf_T", 1 / g.ratePerH(100));
  }

  private static double[] numbers(JsonNode array) {
    double[] v = new double[array.size()];
    Arrays.setAll(v, i -> array.get(i).asDouble());
    return v;
  }

  /** A statistic at a drawn critical value has its p-value, within what draws allow. */
  @Test
  void goodnessOfFitIsJudgedAsTheReferenceDraws() {
    Case c = ReferenceCases.cases("cvm_critical").findFirst().orElseThrow();
    for (int m : new int[] {5, 10, 27, 39}) {
      JsonNode e = c.expected().get(Integer.toString(m));
      SplittableRandom random = new SplittableRandom(20261128);
      int draws = 40_000;
      double[] drawn = new double[draws];
      double[] logs = new double[m];
      for (int d = 0; d < draws; d++) {
        for (int i = 0; i < m; i++) {
          logs[i] = -Math.log(1 - random.nextDouble());
        }
        drawn[d] = CramerVonMises.statistic(logs);
      }
      Arrays.sort(drawn);
      for (double level : new double[] {0.2, 0.1, 0.05, 0.01}) {
        JsonNode want = e.get("upper_" + level);
        double critical = want.get("value").asDouble();
        long above = Arrays.stream(drawn).filter(v -> v > critical).count();
        double error = Math.sqrt(level * (1 - level) / draws);
        assertEquals(level, above / (double) draws, 4 * error, "M " + m);
      }
    }
  }

  @Test
  void exactIntervalsOfARateMatchTheReference() {
    Case c = ReferenceCases.cases("poisson_ci").findFirst().orElseThrow();
    JsonNode rows = c.node().get("data").get("inline");
    for (int i = 0; i < rows.size(); i++) {
      JsonNode in = rows.get(i);
      JsonNode want = c.expected().get("rows").get(i);
      double hours = in.get("exposure").asDouble();
      Interval got =
          PoissonRates.interval(in.get("count").asLong(), hours, in.get("confidence").asDouble());
      check("rate", want.get("rate"), in.get("count").asLong() / hours);
      check("lo", want.get("lo"), got.lower());
      check("hi", want.get("hi"), got.upper());
    }
  }

  @Test
  void exactRatiosOfTwoRatesMatchTheReference() {
    Case c = ReferenceCases.cases("two_rates").findFirst().orElseThrow();
    JsonNode rows = c.node().get("data").get("inline");
    for (int i = 0; i < rows.size(); i++) {
      JsonNode in = rows.get(i);
      JsonNode want = c.expected().get("rows").get(i);
      PoissonRates.Ratio got =
          PoissonRates.ratio(
              in.get("a").asLong(),
              in.get("exposure_a").asDouble(),
              in.get("b").asLong(),
              in.get("exposure_b").asDouble(),
              0.95);
      check("ratio", want.get("ratio"), got.ratio());
      check("lo", want.get("ratio_lo"), got.interval().lower());
      check("hi", want.get("ratio_hi"), got.interval().upper());
      check("central", want.get("p_central"), got.pValue());
      check(
          "minlik",
          want.get("p_minlik"),
          PoissonRates.leastLikelyPValue(
              in.get("a").asLong(),
              in.get("exposure_a").asDouble(),
              in.get("b").asLong(),
              in.get("exposure_b").asDouble()));
    }
  }

  @Test
  void homogeneityAndShrinkageMatchTheReference() {
    Case c = ReferenceCases.cases("fleet_pumps").findFirst().orElseThrow();
    List<Map<String, String>> rows = ReferenceCases.rows("pump_failures.csv");
    double[] counts =
        rows.stream().mapToDouble(r -> Double.parseDouble(r.get("failures"))).toArray();
    double[] hours =
        rows.stream().mapToDouble(r -> Double.parseDouble(r.get("kilohours"))).toArray();
    PoissonRates.Alike alike = PoissonRates.alike(counts, hours);
    c.check("pearson_chisq", alike.pearson().chiSquare());
    c.check("pearson_p", alike.pearson().pValue());
    c.check("lr_chisq", alike.likelihoodRatio().chiSquare());
    c.check("lr_p", alike.likelihoodRatio().pValue());
    c.check("df", alike.pearson().degreesOfFreedom());
    GammaPoisson g = GammaPoisson.of(counts, hours);
    c.check("gamma_shape", g.shape());
    c.check("gamma_rate", g.rateH());
    c.check("gamma_mean", g.meanPerH());
    c.check("negbin_loglik", g.logLikelihood());
    double[] shrunk = new double[counts.length];
    Arrays.setAll(shrunk, g::ratePerH);
    c.column("eb_rate", shrunk);
    double[] low = new double[counts.length];
    double[] high = new double[counts.length];
    for (int i = 0; i < counts.length; i++) {
      Interval interval = PoissonRates.interval((long) counts[i], hours[i], 0.95);
      low[i] = interval.lower();
      high[i] = interval.upper();
    }
    c.column("rate_lo", low);
    c.column("rate_hi", high);
  }

  @Test
  void aHundredThousandMachinesMatchTheReference() {
    Case c = ReferenceCases.cases("T-mcf").findFirst().orElseThrow();
    EventData data = ReferenceCases.Recipe.machines(100_000);
    c.check("events", data.events());
    MeanCumulative m = MeanCumulative.of(data);
    double[] at = {1000, 4000, 8000};
    c.column("mcf", Arrays.stream(at).map(m::meanAt).toArray());
    c.column("se_robust", Arrays.stream(at).map(h -> Math.sqrt(m.varianceAt(h))).toArray());
    int[] place =
        Arrays.stream(at)
            .mapToInt(
                h -> {
                  int i = Arrays.binarySearch(m.timesH(), h);
                  return i >= 0 ? i : -i - 2;
                })
            .toArray();
    double[] poisson = m.poissonVariance();
    c.column("se_poisson", Arrays.stream(place).mapToDouble(i -> Math.sqrt(poisson[i])).toArray());
  }
}
