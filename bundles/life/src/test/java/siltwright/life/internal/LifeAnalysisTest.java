package siltwright.life.internal;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.io.InputStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.stream.Collectors;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import siltwright.analysis.Analysis;
import siltwright.analysis.Cell;
import siltwright.analysis.Context;
import siltwright.analysis.Entry;
import siltwright.analysis.Figure;
import siltwright.analysis.Finding;
import siltwright.analysis.Progress;
import siltwright.analysis.Records;
import siltwright.analysis.Result;
import siltwright.analysis.Values;
import siltwright.exchange.RecordsReader;
import siltwright.life.RollingBearing;
import siltwright.model.Distribution;
import siltwright.model.Fleet;
import siltwright.model.InputException;
import siltwright.model.Machine;
import siltwright.model.Uncertainty;
import siltwright.model.json.FleetReader;
import siltwright.model.json.FleetRevision;

class LifeAnalysisTest {
  private static final Path FLEET =
      Path.of("../model/src/test/resources/siltwright/model/json/full.json");

  private final LifeAnalysis life = new LifeAnalysis();

  /** Expected values: case A-shared-shock_absorber-weibull of the reference answers (see there). */
  @Test
  void theFixedWordsHoldTheReferenceAnswer() throws IOException {
    String csv = reference("shock_absorber.csv").replace("time,event", "hours,event");
    Result r = run(csv, Map.of());
    Entry.Table fits = table(r, "fits");
    assertEquals(
        List.of(
            "distribution",
            "parameters",
            "standardErrors",
            "intervals",
            "logLikelihood",
            "aic",
            "b10_h",
            "meanLife_h"),
        fits.columns().stream().map(Entry.Column::name).toList());
    List<Cell> weibull =
        fits.rows().stream()
            .filter(row -> row.get(0).equals(Cell.of("weibull")))
            .findFirst()
            .orElseThrow();
    assertEquals(3.160470314534571, number(part(weibull.get(1), "shape")), 3e-6);
    assertEquals(27718.718128515124, number(part(weibull.get(1), "scale")), 3e-2);
    assertEquals(0.7308183945955211, number(part(weibull.get(2), "shape")), 1e-5);
    assertEquals(3046.0231833997036, number(part(weibull.get(2), "scale")), 3e-2);
    Cell.Range wald = (Cell.Range) part(part(weibull.get(3), "shape"), "wald");
    assertEquals(2.008733073286669, wald.low(), 2e-5);
    assertEquals(4.972573380648852, wald.high(), 5e-5);
    Cell.Range profile = (Cell.Range) part(part(weibull.get(3), "scale"), "profile");
    assertEquals(23330.066113327088, profile.low(), 2.4);
    assertEquals(37961.91083583049, profile.high(), 3.8);
    assertEquals(-123.9953611888331, number(weibull.get(4)), 1e-6);
    assertEquals(251.9907223776662, number(weibull.get(5)), 2e-6);
    assertEquals(13600.034715056496, number(weibull.get(6)), 1.4e-2);
    double[] aic = fits.rows().stream().mapToDouble(row -> number(row.get(5))).toArray();
    assertTrue(aic.length == 3 && aic[0] <= aic[1] && aic[1] <= aic[2]);
    assertEquals(Optional.of(new Result.Rows(38, 38, 0, List.of())), r.rows());
    assertEquals(
        List.of(
            "probability_weibull",
            "survival",
            "hazard",
            "profile_shape",
            "profile_scale",
            "profile_b10_h",
            "residuals"),
        run(csv, Map.of("distribution", "weibull")).figures().stream().map(Figure::name).toList());
  }

  @ParameterizedTest
  @CsvSource(
      delimiter = '|',
      value = {
        "-5,1,,,,,wear,18/16/13,a|hours: found -5; expected a number from 0",
        ",1,,,,,wear,18/16/13,a|hours: found nothing; expected a number: the age at which it failed",
        ",0,,,,,,18/16/13,a|hours: found nothing; expected a number: the age when it was last seen",
        "0,1,,,,,wear,18/16/13,a|hours: found 0; expected a number above 0",
        "many,1,,,,,wear,18/16/13,a|hours: found many; expected a number from 0",
        "900,failed,,,,,wear,18/16/13,a|event: found failed; expected 1 (failed) or 0",
        "900,,,,,,wear,18/16/13,a|event: found nothing; expected 1 (failed) or 0",
        "900,0,950,,,,,18/16/13,a|entry_hours: found 950; expected less than the age",
        "900,1,900,,,,wear,18/16/13,a|entry_hours: found 900; expected less than the age",
        ",1,,800,700,,wear,18/16/13,a|upper_hours: found 700; expected at least lower_hours, 800",
        "650,1,,600,700,,wear,18/16/13,a|hours: found 650; expected at least upper_hours, 700",
        "900,0,,600,700,,,18/16/13,a|upper_hours: found 700; expected nothing",
        "900,1,,600,,,wear,18/16/13,a|upper_hours: found nothing; expected a number",
        "900,1,,,,0,wear,18/16/13,a|count: found 0; expected a number above 0",
        "900,1,,,,,,18/16/13,a|mode: found nothing; expected the mode of the failure",
        "900,1,,,,,wear,13/16/18,a|code: found 13/16/18; expected a cleanliness code",
        "900,1,,,,,wear,29,a|code: found 29; expected a cleanliness code",
        "900,1,,,,,wear,,a|code: found nothing; expected a value",
        "900,1,,,,,wear,18/16/13,|depot: found nothing; expected a value"
      })
  void everyBadRowIsNamedAndTheOthersKept(String row, String message) {
    String head = "hours,event,entry_hours,lower_hours,upper_hours,count,mode,code,depot\n";
    String good =
        "1000,1,,,,1,wear,18/16/13,a\n1200,0,100,,,2,,17/15/12,b\n800,1,,,,,wear,17/15/12,b\n"
            + "1400,0,,,,,,16/14/11,a\n700,1,,,,,wear,18/16/13,b\n1100,1,,,,,wear,16,a\n";
    Result r =
        run(
            head + good + row + "\n" + good,
            Map.of("mode", "wear", "clean-column", "code", "covariate", "depot"));
    Result.Rows rows = r.rows().orElseThrow();
    assertEquals(List.of(13, 12, 1), List.of(rows.read(), rows.kept(), rows.refused()));
    String told = rows.refusals().get(0).toString();
    assertTrue(told.startsWith("t.csv row 8, column " + message), told);
  }

  @Test
  void intervalsMayStandWithoutHoursAndEvent() {
    Result r = run("lower_hours;upper_hours\n100;200\n;150\n300;\n120,5;260\n90;240\n", Map.of());
    assertEquals(4, number(value(r, "failures")));
    assertEquals(5, r.rows().orElseThrow().kept());
    assertEquals(3, table(r, "fits").rows().size());
    assertThrows(InputException.class, () -> run("lower_hours\n1\n", Map.of()));
  }

  @ParameterizedTest
  @CsvSource(
      delimiter = '|',
      value = {
        "1000,0;1500,0;2000,0|Nothing|lowerBounds",
        "1000,0;1500,0;2000,1|steeper|lowerBounds",
        "2000,1;2000,1;1500,0|at|lowerBounds"
      })
  void tooLittleDataGivesABoundAndWhyNoMore(String rows, String why, String points) {
    Result r = run("hours,event\n" + rows.replace(';', '\n'), Map.of("distribution", "weibull"));
    assertEquals(0, table(r, "fits").rows().size());
    assertEquals(4, table(r, points).rows().size());
    // (sum t^b / -ln 0.05)^(1/b) with b = 1 and no failure: W. Nelson 1985 (from memory)
    if (!rows.contains(",1")) {
      assertEquals(4500 / -Math.log(0.05), number(table(r, points).rows().get(0).get(2)), 1e-6);
    }
    assertTrue(r.findings().stream().anyMatch(f -> f.severity() == Finding.Severity.WARNING), why);
    assertTrue(r.findings().stream().anyMatch(f -> f.pointsAt().equals(points)));
  }

  @Test
  void separatedAndCollinearCovariatesFallBackToTheFitWithout() {
    String rows = "100,1,a,1\n150,1,a,2\n220,1,a,3\n300,0,b,1\n320,0,b,2\n180,0,a,4\n";
    Result r = run("hours,event,depot,x\n" + rows, Map.of("covariate", "depot"));
    assertTrue(
        r.findings().get(0).text().contains("Nothing failed where depot b"),
        r.findings().toString());
    assertEquals("meanLife_h", table(r, "fits").columns().get(7).name());
    String twice =
        rows.lines()
            .map(l -> l + l.substring(l.lastIndexOf(',')) + "\n")
            .collect(Collectors.joining());
    Result c = run("hours,event,depot,x,y\n" + twice, Map.of("covariate", "x,y"));
    assertEquals(Finding.Severity.WARNING, c.findings().get(0).severity());
  }

  @Test
  void theLawBehindInventedPumpsIsFoundAgain() {
    Result r =
        run(
            PumpLives.text(),
            Map.of("clean-column", "code", "distribution", "weibull", "at", "3000"));
    List<Cell> fit = table(r, "fits").rows().get(0);
    Cell coefficients = fit.get(columns(r).indexOf("coefficients"));
    double m = -number(part(coefficients, "code")) / Math.log(2);
    double error = number(part(fit.get(2), "code")) / Math.log(2);
    assertTrue(Math.abs(m - PumpLives.EXPONENT) < 2 * error, m + " +- " + error);
    double shape = number(part(fit.get(1), "shape"));
    assertTrue(Math.abs(shape - PumpLives.SHAPE) < 2 * number(part(fit.get(2), "shape")));
    assertTrue(r.figures().stream().anyMatch(f -> f.name().equals("cleanliness")));
    assertTrue(r.figures().stream().anyMatch(f -> f.name().equals("profile_effect_1")));
  }

  @Test
  void lifeGoesIntoTheFleetFileAndComesBackWithItsUncertainty() throws IOException {
    byte[] file = Files.readAllBytes(FLEET);
    Fleet fleet = FleetReader.read(file, "fleet.json").fleet();
    Map<String, String> options =
        Map.of(
            "clean-column",
            "code",
            "into",
            "fleet.json",
            "component",
            "axial piston pump",
            "distribution",
            "weibull");
    Result r = run(PumpLives.text(), options, Optional.of(fleet));
    assertEquals(1, r.revisions().size());
    byte[] now = FleetRevision.revised(file, "fleet.json", r.revisions());
    Machine m = FleetReader.read(now, "fleet.json").fleet().machine("EX-01").orElseThrow();
    List<Cell> fit = table(r, "fits").rows().get(0);
    double shape = number(part(fit.get(1), "shape"));
    double error = number(part(fit.get(2), "shape"));
    assertEquals(shape, m.components().get(0).life().shape(), 1e-8);
    Cell b = fit.get(columns(r).indexOf("coefficients"));
    // life at the component's reference code, 18/16/13
    assertEquals(
        Math.exp(number(part(b, "intercept")) + 16 * number(part(b, "code"))),
        m.components().get(0).life().scaleH(),
        1e-4);
    assertEquals(-number(part(b, "code")) / Math.log(2), m.components().get(0).exponent(), 1e-8);
    Uncertainty u = m.uncertainty().get(m.uncertainty().size() - 1);
    assertEquals(
        List.of(
            "components/pump/life/shape",
            "components/pump/life/scale_h",
            "components/pump/exponent"),
        u.parameters().stream().map(Object::toString).toList());
    double[][] v = ((Distribution.JointLogNormal) u.distribution()).logCovariance();
    assertEquals(error / shape, Math.sqrt(v[0][0]), 1e-7);
    assertEquals(
        number(part(fit.get(2), "code")) / -number(part(b, "code")), Math.sqrt(v[2][2]), 1e-7);
    assertArrayEquals(
        new double[] {v[0][1], v[0][2], v[1][2]}, new double[] {v[1][0], v[2][0], v[2][1]});
    InputException e =
        assertThrows(
            InputException.class,
            () -> {
              Map<String, String> other = new HashMap<>(options);
              other.put("component", "gearbox");
              run(PumpLives.text(), other, Optional.of(fleet));
            });
    assertTrue(e.getMessage().contains("one of axial piston pump, servo valve"), e.getMessage());
  }

  @Test
  void modesShareTheFailures() {
    Result r = run(PumpLives.text(), Map.of("mode", "wear"));
    Entry.Table incidence = table(r, "incidence");
    assertEquals(
        List.of(Cell.of("seizure"), Cell.of("wear")),
        incidence.rows().stream().map(x -> x.get(0)).toList());
    double all = number(value(run(PumpLives.text(), Map.of()), "failures"));
    double other = number(value(run(PumpLives.text(), Map.of("mode", "seizure")), "failures"));
    assertEquals(all, number(value(r, "failures")) + other);
    assertThrows(InputException.class, () -> run(PumpLives.text(), Map.of("mode", "rust")));
  }

  @Test
  void aGivenShapeIsNotEstimated() {
    Result r = run("hours,event\n100,1\n200,0\n300,0\n", Map.of("shape", "2", "at", "150"));
    List<Cell> fit = table(r, "fits").rows().get(0);
    // (sum t^b/failures)^(1/b)
    assertEquals(
        Math.sqrt(100 * 100 + 200 * 200 + 300 * 300), number(part(fit.get(1), "scale")), 1e-6);
    assertTrue(!((Cell.Parts) fit.get(2)).cells().containsKey("shape"));
  }

  /** Success run: 0.9^29 is the first below 0.05, 0.9^22 the first below 0.1 (by hand). */
  @ParameterizedTest
  @CsvSource({"0.95, 29", "0.9, 22"})
  void aLifeIsDemonstratedByUnitHours(String confidence, int components) {
    Result r =
        run(
            "hours,event\n1000,0\n1500,0\n",
            Map.of("demonstrate", "500", "confidence", confidence));
    List<Cell> none = table(r, "demonstration").rows().get(0);
    assertEquals(
        List.of(0.0, (double) components, components * 500.0),
        none.stream().map(LifeAnalysisTest::number).toList());
    // shape 2, run twice as long: a quarter of them
    List<Cell> two = table(r, "demonstrationByShape").rows().get(2);
    assertEquals(Math.ceil(components / 4.0), number(two.get(3)));
    // (sum t^b / -ln(1 - C))^(1/b) (-ln 0.9)^(1/b), b = 2
    double c = Double.parseDouble(confidence);
    double shown = Math.sqrt((1000 * 1000 + 1500 * 1500) / -Math.log(1 - c) * -Math.log(0.9));
    assertEquals(shown, number(two.get(5)), 1e-6);
    assertEquals(
        Math.sqrt((1000 * 1000 + 1500 * 1500) / -Math.log(1 - c)),
        number(table(r, "lowerBounds").rows().get(2).get(2)),
        1e-6);
  }

  @Test
  void intervalsWithLateEntryHaveNoCurveWithoutALaw() {
    Result r =
        run("lower_hours,upper_hours,entry_hours\n100,200,50\n,150,\n300,,\n90,240,\n", Map.of());
    Figure survival =
        r.figures().stream().filter(f -> f.name().equals("survival")).findFirst().orElseThrow();
    assertTrue(
        survival.panels().get(0).layers().stream().noneMatch(l -> l.label().startsWith("records")));
    assertTrue(r.findings().stream().anyMatch(f -> f.text().contains("the laws alone")));
  }

  @Test
  void aFailureFreeTimeIsToldOrWhyThereIsNone() {
    // Weibull of shape 2 and scale 1000 at its median ranks, 2000 h later
    StringBuilder csv = new StringBuilder("hours,event\n");
    for (int i = 1; i <= 30; i++) {
      double p = (i - 0.3) / 30.4;
      csv.append(2000 + 1000 * Math.sqrt(-Math.log(1 - p))).append(",1\n");
    }
    Result r = run(csv.toString(), Map.of("failure-free", "true", "distribution", "weibull"));
    Entry.Group group = (Entry.Group) entry(r, "failureFree");
    double location = number(group.values().get(0).cell());
    assertEquals(2000, location, 150);
    Cell.Range interval = (Cell.Range) group.values().get(1).cell();
    assertTrue(interval.low() < location && location < interval.high());
    String early = "hours,event\n1,1\n2,1\n4,1\n100,1\n400,1\n900,0\n";
    Result none = run(early, Map.of("failure-free", "true"));
    assertTrue(none.entries().stream().noneMatch(e -> e.name().equals("failureFree")));
    assertTrue(
        none.findings().stream().anyMatch(f -> f.text().startsWith("There is no Weibull with a")));
  }

  @Test
  void withoutALawThereIsTheCurveAlone() {
    Result r = run(PumpLives.text(), Map.of("distribution", "none"));
    assertEquals(0, table(r, "fits").rows().size());
    assertEquals(List.of("survival"), r.figures().stream().map(Figure::name).toList());
    assertTrue(r.entries().stream().noneMatch(e -> e.name().equals("lowerBounds")));
    assertThrows(
        InputException.class,
        () -> run(PumpLives.text(), Map.of("distribution", "none", "covariate", "depot")));
  }

  @Test
  void sameSeedSameBootstrap() {
    Map<String, String> options = Map.of("bootstrap", "50", "seed", "7", "distribution", "weibull");
    assertEquals(
        entry(run(PumpLives.text(), options), "bootstrap"),
        entry(run(PumpLives.text(), options), "bootstrap"));
  }

  @Test
  void bearingsFollowTheStandard() {
    Analysis bearing = new BearingAnalysis();
    Map<String, String> texts = new HashMap<>();
    for (String option :
        "code 18/16/13,pitch-diameter 60,dynamic-rating 40,load 4,fatigue-limit 1,speed 1500,viscosity 20"
            .split(",")) {
      texts.put(option.split(" ")[0], option.split(" ")[1]);
    }
    Result r = bearing.run(Context.NONE, Values.of(bearing.description(), texts), Progress.NONE);
    // by hand: nu_1 = 4500/sqrt(1500 * 60) = 15; L_10 = 10^3 million revolutions at 1500 r/min
    assertEquals(15, number(value(r, "referenceViscosity_mm2_per_s")), 1e-9);
    assertEquals(20.0 / 15, number(value(r, "kappa")), 1e-12);
    assertEquals(1e9 / (60 * 1500), number(value(r, "basicLife_h")), 1e-6);
    assertEquals(
        RollingBearing.lifeFactor(
            RollingBearing.Type.RADIAL_BALL, 20.0 / 15, number(value(r, "loadRatio"))),
        number(value(r, "lifeFactor")),
        1e-12);
    texts.put("viscosity", "1");
    assertThrows(
        InputException.class,
        () -> bearing.run(Context.NONE, Values.of(bearing.description(), texts), Progress.NONE));
  }

  private Result run(String csv, Map<String, String> options) {
    return run(csv, options, Optional.empty());
  }

  private Result run(String csv, Map<String, String> options, Optional<Fleet> fleet) {
    Values values = Values.of(life.description(), options);
    Records records = RecordsReader.read(csv, "t.csv", life.columns(values));
    return life.run(Context.of(records, fleet), values, Progress.NONE);
  }

  private static List<String> columns(Result r) {
    return table(r, "fits").columns().stream().map(Entry.Column::name).toList();
  }

  private static Entry.Table table(Result r, String name) {
    return (Entry.Table) entry(r, name);
  }

  private static Cell value(Result r, String name) {
    return ((Entry.Value) entry(r, name)).cell();
  }

  private static Entry entry(Result r, String name) {
    return r.entries().stream().filter(e -> e.name().equals(name)).findFirst().orElseThrow();
  }

  private static Cell part(Cell cell, String name) {
    return ((Cell.Parts) cell).cells().get(name);
  }

  private static double number(Cell cell) {
    return ((Cell.Num) cell).value();
  }

  private static String reference(String name) throws IOException {
    try (InputStream in =
        LifeAnalysisTest.class.getResourceAsStream("/siltwright/life/reference/" + name)) {
      return new String(in.readAllBytes(), StandardCharsets.UTF_8);
    }
  }
}
