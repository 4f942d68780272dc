package siltwright.cleanliness;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Optional;
import java.util.Random;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvFileSource;
import org.junit.jupiter.params.provider.CsvSource;
import siltwright.cleanliness.ReportedCode.Kind;
import siltwright.cleanliness.ReportedCode.Place;
import siltwright.model.CleanlinessCode;

class Iso4406Test {
  private static final double NOT = Double.NaN;

  @DisplayName(
      "limits of the scale numbers: Petro-Canada Lubricants, SKF General Catalogue 6000 table 5,"
          + " Schroeder p. 130 (ISO 4406)")
  @ParameterizedTest(name = "scale number {0}: more than {1}, up to {2} per mL")
  @CsvFileSource(resources = "reference/iso4406-limits.csv")
  void limitsBelongToTheCleanerNumber(int number, double moreThan, double upTo) {
    assertEquals(new CountRange(moreThan, upTo), Iso4406.rangePerMl(number));
    assertEquals(number, Iso4406.scaleNumber(upTo));
    assertEquals(number + 1, Iso4406.scaleNumber(Math.nextUp(upTo)));
    assertEquals(number, Iso4406.scaleNumber(Math.nextUp(moreThan)));
    assertEquals(Math.max(0, number - 1), Iso4406.scaleNumber(moreThan));
  }

  @DisplayName("counted samples with their printed code: Hy-Pro, Understanding ISO codes")
  @ParameterizedTest(name = "{0}, {1}, {2} per mL: {3}")
  @CsvFileSource(resources = "reference/iso4406-samples.csv")
  void printedSamplesGetTheirCode(double at4, double at6, double at14, String code) {
    assertEquals(
        code, Iso4406.code(ParticleCounts.perMl(at4, at6, at14, NOT, NOT, NOT)).toString());
  }

  @DisplayName(
      "ranges printed with codes: SKF General Catalogue 6000 p. 63, Orbit 4Q01, HYDAC FCU 8111"
          + " p. 98, Petro-Canada Lubricants")
  @ParameterizedTest(name = "{0}, place {1}: more than {2}, up to {3} per mL")
  @CsvFileSource(resources = "reference/iso4406-printed-ranges.csv")
  void printedCodesHaveTheirRanges(String code, int place, double moreThan, double upTo) {
    assertEquals(
        Optional.of(new CountRange(moreThan, upTo)),
        ReportedCode.parse(code).places().get(place).rangePerMl());
  }

  @DisplayName("published target codes survive code, counts, code: womackmachine.com and others")
  @ParameterizedTest(name = "{0}")
  @CsvFileSource(resources = "reference/target-codes.csv")
  void publishedTargetCodesSurviveTheWayThroughCounts(String code) {
    CleanlinessCode parsed = CleanlinessCode.parse(code);
    for (double[] perMl :
        new double[][] {Iso4406.cumulativePerMl(parsed), Iso4406.upperLimitsPerMl(parsed)}) {
      assertEquals(code, Iso4406.code(ParticleCounts.perMl(perMl)).toString());
    }
  }

  @DisplayName("the limits are the table's decimals, not powers of two (ISO 4406)")
  @ParameterizedTest(name = "{0} per mL is {1}")
  @CsvSource({
    "1.28, 7",
    "1.3, 7",
    "1.31, 8",
    "2.5, 8",
    "2.56, 9",
    "1280, 17",
    "1300, 17",
    "1300.1, 18",
    "2500, 18",
    "2560, 19",
    "2621.44, 19",
    "20.0, 11",
    "20.01, 12"
  })
  void limitsAreDecimalsNotPowersOfTwo(double perMl, int number) {
    assertEquals(number, Iso4406.scaleNumber(perMl));
  }

  @Test
  void countsPerHundredMillilitresMeetTheLimitsExactly() {
    for (int number = 0; number <= CleanlinessCode.HIGHEST; number++) {
      double per100Ml = Math.rint(Iso4406.rangePerMl(number).upToPerMl() * 100);
      ParticleCounts counts =
          ParticleCounts.inVolume(new double[] {per100Ml, NOT, NOT, NOT, NOT, NOT}, 100);
      assertEquals(number, Iso4406.scaleNumber(counts.perMl(0)));
    }
  }

  @DisplayName("zero is scale number 0, above 28 is >28 (Petro-Canada Lubricants, SKF)")
  @Test
  void endsOfTheScale() {
    assertEquals(0, Iso4406.scaleNumber(0));
    assertTrue(Iso4406.rangePerMl(0).contains(0));
    assertFalse(Iso4406.rangePerMl(1).contains(0.01));
    assertEquals(Iso4406.ABOVE_SCALE, Iso4406.scaleNumber(2_500_001));
    ReportedCode code = Iso4406.code(ParticleCounts.perMl(3e6, 2e4, 0, NOT, NOT, NOT));
    assertEquals(">28/21/0", code.toString());
    assertEquals(Optional.empty(), code.code());
    assertEquals(
        Optional.of(new CountRange(2_500_000, Double.POSITIVE_INFINITY)),
        code.places().get(0).rangePerMl());
  }

  @DisplayName("fewer than 20 particles: 14/12/>=7 (Petro-Canada Lubricants, Schroeder p. 130)")
  @Test
  void fewParticlesMakeALowerBound() {
    double[] particles = {1200, 300, 10, NOT, NOT, NOT};
    ReportedCode code = Iso4406.code(ParticleCounts.inVolume(particles, 10));
    assertEquals("14/12/>=7", code.toString());
    assertEquals(Optional.of(new CleanlinessCode(14, 12, 7)), code.code());
    assertEquals(
        Optional.of(new CountRange(0.64, Double.POSITIVE_INFINITY)),
        code.places().get(2).rangePerMl());
  }

  @Test
  void twentyParticlesAreEnoughWhateverTheVolume() {
    for (double volumeMl : new double[] {0.3, 0.7, 1, 3, 7, 10, 25, 29.7, 100}) {
      double[] particles = {20, 20, 19, NOT, NOT, NOT};
      ReportedCode code = Iso4406.code(ParticleCounts.inVolume(particles, volumeMl));
      assertEquals(Kind.NUMBER, code.places().get(0).kind(), "volume " + volumeMl);
      assertEquals(Kind.AT_LEAST, code.places().get(2).kind(), "volume " + volumeMl);
    }
  }

  @DisplayName("microscope code -/15/12 (SKF General Catalogue 6000 p. 63)")
  @Test
  void microscopeCodeHasTwoPlaces() {
    assertEquals("-/15/12", Iso4406.microscopeCode(320, 40).toString());
    assertEquals("-/15/12", Iso4406.microscopeCode(160.5, 20.5).toString());
  }

  @DisplayName("reported forms read and write the same; * from memory of ISO 4406")
  @ParameterizedTest
  @CsvSource({"18/16/13", "14/12/>=7", ">28/>28/28", "-/15/12", "*/19/14", "-/-/>=3"})
  void reportedFormsReadAndWriteTheSame(String text) {
    assertEquals(text, ReportedCode.parse(text).toString());
  }

  @Test
  void lowerBoundIsReadInBothSpellings() {
    assertEquals(ReportedCode.parse("14/12/>=7"), ReportedCode.parse("14/12/≥7"));
    assertEquals(Optional.empty(), Place.parse("*").rangePerMl());
  }

  @ParameterizedTest
  @CsvSource({"18/16", "18/16/13/9", "12/14/9", "18/29/13", "18/>28/13", "18//13", "a/b/c"})
  void otherTextsAreRefused(String text) {
    assertThrows(IllegalArgumentException.class, () -> ReportedCode.parse(text));
  }

  @DisplayName("expected counts fall above 14 um(c) as AS4059 class 6 does: 3460 612 106 16")
  @Test
  void expectedCountsByHand() {
    double at14 = Math.sqrt(40.0 * 80);
    double[] expected = {
      Math.sqrt(1300.0 * 2500),
      Math.sqrt(320.0 * 640),
      at14,
      at14 * 612 / 3460,
      at14 * 106 / 3460,
      at14 * 16 / 3460
    };
    assertArrayEquals(expected, Iso4406.cumulativePerMl(new CleanlinessCode(18, 16, 13)), 1e-9);
    double[] highest = {2500, 640, 80, 80.0 * 612 / 3460, 80.0 * 106 / 3460, 80.0 * 16 / 3460};
    assertArrayEquals(highest, Iso4406.upperLimitsPerMl(new CleanlinessCode(18, 16, 13)), 1e-9);
  }

  @Test
  void everyCodeSurvivesTheWayThroughCountsThatNeverRise() {
    for (int at4 = 0; at4 <= 28; at4++) {
      for (int at6 = 0; at6 <= at4; at6++) {
        for (int at14 = 0; at14 <= at6; at14++) {
          CleanlinessCode code = new CleanlinessCode(at4, at6, at14);
          double[] perMl = Iso4406.cumulativePerMl(code);
          assertEquals(6, perMl.length);
          assertEquals(Optional.of(code), Iso4406.code(ParticleCounts.perMl(perMl)).code());
        }
      }
    }
  }

  @Test
  void scaleNumbersNeverFallWithTheCount() {
    long seed = 4406;
    Random random = new Random(seed);
    for (int i = 0; i < 10_000; i++) {
      double count = Math.pow(10, -3 + 10 * random.nextDouble());
      double more = count * (1 + random.nextDouble());
      int number = Iso4406.scaleNumber(count);
      assertTrue(number <= Iso4406.scaleNumber(more), "seed " + seed + ", count " + count);
      assertTrue(Iso4406.rangePerMl(number).contains(count), "seed " + seed + ", count " + count);
    }
  }

  @Test
  void impossibleCountsAreRefused() {
    assertThrows(IllegalArgumentException.class, () -> Iso4406.scaleNumber(-1));
    assertThrows(IllegalArgumentException.class, () -> Iso4406.scaleNumber(NOT));
    assertThrows(IllegalArgumentException.class, () -> Iso4406.rangePerMl(30));
    assertThrows(IllegalArgumentException.class, () -> Iso4406.microscopeCode(10, 11));
  }
}
