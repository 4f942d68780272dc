package siltwright.life;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;

import com.fasterxml.jackson.databind.JsonNode;
import java.util.List;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;
import siltwright.life.ReferenceCases.Case;
import siltwright.life.ReferenceCases.Table;

class GroupTestsTest {
  static Stream<Case> logRank() {
    return ReferenceCases.group("D", "");
  }

  @ParameterizedTest(name = "{0}")
  @MethodSource("logRank")
  void logRankMatchesTheReference(Case c) {
    Table table = ReferenceCases.table(c.file());
    JsonNode model = c.node().get("model");
    String[] terms = model.get("formula").asText().replaceAll(".*~ ", "").split(" \\+ ");
    String group = terms[0];
    LifeData data = table.data().withCovariate(group, table.texts(group));
    String stratum = null;
    if (terms.length > 1) {
      stratum = terms[1].replaceAll("strata\\((.*)\\)", "$1");
      data = data.withCovariate(stratum, table.texts(stratum));
    }
    if (c.id().contains("ecog3")) { // its filter, in words: ph_ecog <= 2
      double[] ecog = table.numbers("ph_ecog", Double.NaN);
      LifeData kept = table.data().where(i -> ecog[i] <= 2);
      String[] texts = table.texts(group);
      String[] keptTexts =
          java.util.stream.IntStream.range(0, ecog.length)
              .filter(i -> ecog[i] <= 2)
              .mapToObj(i -> texts[i])
              .toArray(String[]::new);
      data = kept.withCovariate(group, keptTexts);
    }
    LogRank test = LogRank.of(data, group, model.get("rho").asDouble(), stratum);
    JsonNode e = c.expected();
    for (int k = 0; k < test.groups().size(); k++) {
      assertEquals(e.get("groups").get(k).asText(), test.groups().get(k));
      JsonNode variance = e.get("var");
      for (int m = 0; m < test.groups().size(); m++) {
        ReferenceCases.near(
            c.id() + " var",
            variance.get("values").get(k).get(m).asDouble(),
            test.variance()[k][m],
            variance.get("rtol").asDouble(),
            variance.get("atol").asDouble());
      }
    }
    c.column("n", test.components());
    c.column("observed", test.observed());
    c.column("expected", test.expected());
    c.check("chisq", test.test().chiSquare());
    c.check("df", test.test().degreesOfFreedom());
    c.check("p", test.test().pValue());
  }

  static Stream<Case> plans() {
    return Stream.of("zero_failure", "binomial_plan", "test_length")
        .flatMap(part -> ReferenceCases.group("H", part));
  }

  @ParameterizedTest(name = "{0}")
  @MethodSource("plans")
  void demonstrationPlansMatchTheReference(Case c) {
    JsonNode rows = c.node().get("data").get("inline");
    for (int i = 0; i < rows.size(); i++) {
      JsonNode in = rows.get(i);
      JsonNode want = c.expected().get("rows").get(i);
      double confidence = in.get("confidence").asDouble();
      if (c.id().contains("zero_failure")) {
        double n =
            DemonstrationPlan.withoutFailure(
                in.get("reliability").asDouble(),
                confidence,
                in.get("test_to_mission_ratio").asDouble(),
                in.get("shape").asDouble());
        c.check("n_real", want.get("n_real"), n);
        c.check("n", want.get("n"), Math.ceil(n - 1e-9));
      } else if (c.id().contains("binomial_plan")) {
        double reliability = in.get("reliability").asDouble();
        int allowed = in.get("failures_allowed").asInt();
        int n = DemonstrationPlan.components(reliability, confidence, allowed);
        c.check("n", want.get("n"), n);
        c.check(
            "attained",
            want.get("attained_confidence"),
            DemonstrationPlan.attainedConfidence(n, reliability, allowed));
      } else {
        c.check(
            "factor",
            want.get("factor"),
            DemonstrationPlan.testLength(in.get("failures").asInt(), confidence));
      }
    }
  }

  /** Risk sets by hand: at 100 h one of 3 alike, at 200 h the late one has joined. */
  @Test
  void lateEntryJoinsTheRiskWhenItEnters() {
    LifeData data =
        LifeData.builder()
            .failedAt(100)
            .failedAt(200)
            .runningAt(300)
            .runningAt(250)
            .enteredAt(150)
            .build()
            .withCovariate("depot", new String[] {"a", "b", "a", "b"});
    LogRank test = LogRank.of(data, "depot", 0, null);
    assertEquals(2.0 / 3 + 1.0 / 3, test.expected()[0], 1e-12);
    assertEquals(1.0 / 3 + 2.0 / 3, test.expected()[1], 1e-12);
    assertEquals(2 * 2.0 / 9, test.variance()[0][0], 1e-12);
  }

  @Test
  void numbersAreNoGroups() {
    LifeData data = LifeData.builder().failedAt(1).build().withCovariate("x", new double[] {1});
    assertThrows(IllegalArgumentException.class, () -> LogRank.of(data, "x", 0, null));
    assertThrows(
        IllegalArgumentException.class,
        () -> data.withCovariate("y", new String[] {"c"}, List.of("a", "b")));
  }
}
