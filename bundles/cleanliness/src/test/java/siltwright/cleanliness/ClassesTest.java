package siltwright.cleanliness;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.aggregator.ArgumentsAccessor;
import org.junit.jupiter.params.provider.CsvFileSource;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.EnumSource;
import org.junit.jupiter.params.provider.EnumSource.Mode;
import siltwright.model.CleanlinessCode;

/** Classes of AS4059 (cumulative) and NAS 1638 (differential), against each other and print. */
class ClassesTest {
  private static final double NOT = Double.NaN;
  private static final int SIZES = 6;

  @DisplayName("limits of AS4059, sizes A to F: HYDAC CS1000 manual p. 90, Schroeder p. 16")
  @ParameterizedTest(name = "class {0}")
  @CsvFileSource(resources = "reference/as4059-limits.csv")
  void as4059LimitsBelongToTheCleanerClass(ArgumentsAccessor row) {
    CountClass countClass = CountClass.parse(row.getString(0));
    for (int size = 0; size < SIZES; size++) {
      double limit = row.getDouble(size + 1);
      assertEquals(limit, As4059.limitPer100Ml(countClass, size));
      assertTrue(as4059(size, limit).compareTo(countClass) <= 0);
      assertTrue(as4059(size, limit + 0.01).compareTo(countClass) > 0);
      boolean sameAsCleaner =
          countClass != CountClass.CLASS_000
              && As4059.limitPer100Ml(CountClass.values()[countClass.ordinal() - 1], size) == limit;
      if (!sameAsCleaner) {
        assertEquals(countClass, as4059(size, limit));
      }
    }
  }

  @DisplayName("limits of NAS 1638: scribd 434376521, HYDAC CS1000 manual p. 140, Schroeder p. 15")
  @ParameterizedTest(name = "class {0}")
  @CsvFileSource(resources = "reference/nas1638-limits.csv")
  void nasLimitsBelongToTheCleanerClass(ArgumentsAccessor row) {
    CountClass countClass = CountClass.parse(row.getString(0));
    for (int range = 0; range < Nas1638.RANGES; range++) {
      double limit = row.getDouble(range + 1);
      assertEquals(limit, Nas1638.limitPer100Ml(countClass, range));
      assertTrue(nas(range, limit).compareTo(countClass) <= 0);
      assertTrue(nas(range, limit + 0.01).compareTo(countClass) > 0);
    }
  }

  @DisplayName(
      "NAS 1638 summed from the right is the unrounded AS4059 table: Machinery Lubrication India,"
          + " Nov-Dec 2019, p. 28")
  @ParameterizedTest(name = "class {0}")
  @CsvFileSource(resources = "reference/as4059-unrounded.csv")
  void nasSummedFromTheRightIsThePrintedCumulativeTable(ArgumentsAccessor row) {
    CountClass countClass = CountClass.parse(row.getString(0));
    for (int range = 0; range < Nas1638.RANGES; range++) {
      assertEquals(row.getDouble(range + 1), nasSummedFrom(countClass, range));
    }
  }

  @DisplayName("AS4059 cumulative is NAS 1638 summed from the right, to three figures (0.4 %)")
  @ParameterizedTest
  @EnumSource(
      mode = Mode.EXCLUDE,
      names = {"CLASS_000", "ABOVE_12"})
  void as4059IsNasSummedWithinRounding(CountClass countClass) {
    for (int range = 0; range < Nas1638.RANGES; range++) {
      double sum = nasSummedFrom(countClass, range);
      double limit = As4059.limitPer100Ml(countClass, range + 1);
      assertEquals(sum, limit, sum < 1000 ? 0 : 0.004 * sum);
    }
  }

  @DisplayName("codes of ISO 4406 printed beside NAS classes, places 6 and 14: scribd 434376521")
  @ParameterizedTest(name = "class {0}: {1}")
  @CsvFileSource(resources = "reference/nas1638-iso4406.csv")
  void nasClassesHaveTheirPrintedIsoCode(String text, String code) {
    CountClass countClass = CountClass.parse(text);
    CleanlinessCode printed = CleanlinessCode.parse(code);
    assertEquals(printed.at6(), Iso4406.scaleNumber(nasSummedFrom(countClass, 0) / 100));
    assertEquals(printed.at14(), Iso4406.scaleNumber(nasSummedFrom(countClass, 1) / 100));
  }

  @DisplayName("reading rules 6B, 7B/6C/5D, 6 B-F and no letter: HYDAC CS1000 manual p. 90")
  @Test
  void classesAreReadAsPrinted() {
    Map<Integer, CountRange> atB = Map.of(1, new CountRange(97.3, 195));
    assertEquals(atB, As4059.rangesPerMl("6B"));
    assertEquals(atB, As4059.rangesPerMl("6"));
    assertEquals(
        Map.of(
            1, new CountRange(195, 389),
            2, new CountRange(17.3, 34.6),
            3, new CountRange(1.52, 3.06)),
        As4059.rangesPerMl("7B/6C/5D"));
    assertEquals(
        Map.of(
            1, new CountRange(0, 195),
            2, new CountRange(0, 34.6),
            3, new CountRange(0, 6.12),
            4, new CountRange(0, 1.06),
            5, new CountRange(0, 0.16)),
        As4059.rangesPerMl("6 B-F"));
    assertEquals(
        new CountRange(12_500, Double.POSITIVE_INFINITY), As4059.rangesPerMl(">12B").get(1));
  }

  @ParameterizedTest
  @CsvSource({"B", "13B", "6G", "6F-B", "6-B", "6B/5B", "7B/", "01B"})
  void otherClassTextsAreRefused(String text) {
    assertThrows(IllegalArgumentException.class, () -> As4059.rangesPerMl(text));
  }

  @DisplayName("class 6B is 9731 to 19 500 per 100 mL above 6 um(c): HYDAC CS1000 manual p. 90")
  @Test
  void printedExampleOfClass6() {
    assertEquals(CountClass.CLASS_6, as4059(1, 9731));
    assertEquals(CountClass.CLASS_6, as4059(1, 19_500));
    assertEquals(CountClass.CLASS_5, as4059(1, 9730));
  }

  @Test
  void codesOfASampleNameTheSizesThatWereCounted() {
    ParticleCounts three = ParticleCounts.perMl(NOT, 389, 34.6, 3.06, NOT, NOT);
    assertEquals("7B/6C/5D", As4059.sizeCode(three));
    assertEquals("7B-D", As4059.worstCode(three));
    assertEquals(CountClass.CLASS_7, As4059.worst(three));
    assertEquals(Optional.empty(), As4059.classes(three).get(0));
    ParticleCounts gap = ParticleCounts.perMl(50_000, NOT, 34.6, 3.06, NOT, 0);
    assertEquals(">12A/6C/5D/000F", As4059.sizeCode(gap));
    assertEquals(">12A,C-D,F", As4059.worstCode(gap));
  }

  @Test
  void nasClassIsTheWorstOfItsRanges() {
    // per 100 mL: 16000, 2850, 507, 90, 16: one particle too many for class 6 from 21 to 38 um(c)
    ParticleCounts counts =
        ParticleCounts.inVolume(new double[] {30_000, 19_463, 3463, 613, 106, 16}, 100);
    assertEquals(
        List.of(
            Optional.of(CountClass.CLASS_6),
            Optional.of(CountClass.CLASS_6),
            Optional.of(CountClass.CLASS_7),
            Optional.of(CountClass.CLASS_6),
            Optional.of(CountClass.CLASS_6)),
        Nas1638.classes(counts));
    assertEquals(Optional.of(CountClass.CLASS_7), Nas1638.worst(counts));
  }

  @Test
  void countsPerMillilitreMeetTheLimitsExactly() {
    // 0.14 · 100 is above 14 in binary, and 194.63 − 34.63 is not 160 either
    assertEquals("000C", As4059.sizeCode(ParticleCounts.perMl(NOT, NOT, 0.14, NOT, NOT, NOT)));
    assertEquals(
        Optional.of(CountClass.CLASS_6),
        Nas1638.worst(ParticleCounts.perMl(NOT, 194.63, 34.63, NOT, NOT, NOT)));
  }

  @Test
  void nasRangesNeedBothTheirSizes() {
    ParticleCounts counts = ParticleCounts.perMl(500, 160, 20, NOT, 1, NOT);
    assertEquals(
        List.of(true, false, false, false, false),
        Nas1638.classes(counts).stream().map(Optional::isPresent).toList());
    assertEquals(
        Optional.empty(), Nas1638.worst(ParticleCounts.perMl(500, 160, NOT, NOT, NOT, NOT)));
  }

  @Test
  void nasHasNoClass000() {
    assertThrows(IllegalArgumentException.class, () -> Nas1638.rangePerMl(CountClass.CLASS_000, 0));
    assertEquals(new CountRange(0, 1.25), Nas1638.rangePerMl(CountClass.CLASS_00, 0));
  }

  private static double nasSummedFrom(CountClass countClass, int range) {
    double sum = 0;
    for (int i = range; i < Nas1638.RANGES; i++) {
      sum += Nas1638.limitPer100Ml(countClass, i);
    }
    return sum;
  }

  private static CountClass as4059(int size, double per100Ml) {
    double[] particles = {NOT, NOT, NOT, NOT, NOT, NOT};
    particles[size] = per100Ml;
    return As4059.worst(ParticleCounts.inVolume(particles, 100));
  }

  private static CountClass nas(int range, double per100Ml) {
    // Seven larger particles than those of the range, so that the difference has to be taken.
    double[] particles = {NOT, NOT, NOT, NOT, NOT, NOT};
    boolean last = range + 1 == Nas1638.RANGES;
    particles[range + 1] = last ? per100Ml : per100Ml + 7;
    if (!last) {
      particles[range + 2] = 7;
    }
    return Nas1638.classes(ParticleCounts.inVolume(particles, 100)).get(range).orElseThrow();
  }
}
