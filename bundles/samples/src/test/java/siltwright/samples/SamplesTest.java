package siltwright.samples;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.SplittableRandom;
import org.apache.commons.math3.distribution.NormalDistribution;
import org.junit.jupiter.api.Test;
import siltwright.cleanliness.ReportedCode;

class SamplesTest {
  private static OilRecord sample(double hours, double minutes, String code, double... counts) {
    double[] perMl = {Double.NaN, Double.NaN, Double.NaN, Double.NaN, Double.NaN, Double.NaN};
    System.arraycopy(counts, 0, perMl, 0, counts.length);
    return new OilRecord(
        1,
        "M",
        hours,
        OilRecord.Kind.SAMPLE,
        minutes,
        perMl,
        code.isEmpty() ? Optional.empty() : Optional.of(ReportedCode.parse(code)),
        Double.NaN,
        Double.NaN,
        Map.of(),
        Map.of());
  }

  private static List<SampleCheck.Kind> kinds(OilRecord... rows) {
    return SampleCheck.of(List.of(rows), 3).stream().map(SampleCheck::kind).toList();
  }

  /** Counts and codes as printed on Hy-Pro's sheet "Understanding ISO codes", samples A, B, C. */
  @Test
  void printedSamplesAreNotSuspicious() {
    double no = Double.NaN;
    assertEquals(List.of(), kinds(sample(1, no, "24/22/19", 151_773, 38_363, 3339, 1048, 112, 2)));
    assertEquals(List.of(), kinds(sample(1, no, "16/14/11", 492, 149, 15, 5, 1)));
    assertEquals(List.of(), kinds(sample(1, no, "13/10/6", 69, 7, 0.4, 0.1, 0)));
  }

  @Test
  void everyDoubtIsCalledByItsName() {
    double no = Double.NaN;
    assertEquals(List.of(SampleCheck.Kind.CODE), kinds(sample(1, no, "15/13/10", 492, 149, 15)));
    assertEquals(List.of(SampleCheck.Kind.ORDER), kinds(sample(1, no, "", 492, 1490, 15)));
    assertEquals(List.of(SampleCheck.Kind.EARLY), kinds(sample(1, 1, "", 492, 149, 15)));
    assertEquals(List.of(SampleCheck.Kind.SHAPE), kinds(sample(1, no, "", 60_000, 100, 5)));
    assertEquals(
        List.of(SampleCheck.Kind.UNIT),
        kinds(
            sample(1, no, "", 492, 149, 15),
            sample(2, no, "", 430, 120, 12),
            sample(3, no, "", 52_000, 15_500, 1400),
            sample(4, no, "", 510, 160, 14)));
  }

  /** A big release is no mix-up of units: restart samples are not held against those in running. */
  @Test
  void aReleaseIsNoUnit() {
    double no = Double.NaN;
    assertEquals(
        List.of(),
        kinds(
            sample(1, no, "", 492, 149, 15),
            sample(2, no, "", 430, 120, 12),
            sample(3, 5, "", 52_000, 15_500, 1400),
            sample(4, no, "", 510, 160, 14)));
  }

  /** By SciPy 1.17.1: theilslopes, kendalltau (asymptotic), spearmanr. */
  @Test
  void trendsAreThoseOfAReferenceLibrary() {
    double[] x = {100, 220, 340, 500, 610, 760, 900, 1010};
    double[] y = {3.1, 2.9, 3.6, 3.4, 4.0, 3.9, 4.6, 4.0};
    Trend t = Trend.of(x, y);
    assertEquals(0.001623093681917211, t.slope(), 1e-12);
    assertEquals(0.8742671711966791, Trend.correlation(x, y), 1e-12);
    // Kendall's test there has no correction for continuity; with it z is (19 - 1)/19 of that.
    assertEquals(0.024821889044196407, t.pValue(), 1e-9);
  }

  /** By hand: a line of slope 2 has it by any pairs, and is as sure as it can be. */
  @Test
  void aLongSeriesTakesMemoryInProportion() {
    int n = 200_000;
    double[] x = new double[n];
    double[] y = new double[n];
    for (int i = 0; i < n; i++) {
      x[i] = 0.1 * i;
      y[i] = 0.2 * i + (i % 2 == 0 ? 1e-3 : 0);
    }
    Trend t = Trend.of(x, y);
    assertEquals(2, t.slope(), 1e-6);
    assertEquals(0, t.pValue(), 1e-12);
    assertEquals(1, Trend.correlation(x, y), 1e-9);
  }

  /** By hand: the pairs (1, 3) fall or rise, hours that are alike make no pair. */
  @Test
  void hoursAlikeMakeNoPair() {
    Trend t = Trend.of(new double[] {1, 1, 2, 2}, new double[] {5, 1, 6, 2});
    // slopes 1, -3, 5, 1
    assertEquals(1, t.slope(), 1e-12);
    // S = 3 - 1 = 2, variance 4 · 3 · 13/18, less 1 for continuity
    assertEquals(
        2 * (1 - new NormalDistribution().cumulativeProbability(1 / Math.sqrt(4 * 3 * 13 / 18.0))),
        t.pValue(),
        1e-7);
  }

  /** By hand: ranges 1, 2, 1 have mean 4/3; sigma 4/3/1.128. */
  @Test
  void theChartIsOfTheFirstValues() {
    ControlChart c = ControlChart.of(new double[] {1, 2, 0, 1, 9}, 0, 4);
    assertEquals(1, c.centre(), 1e-12);
    assertEquals(4 / 3.0 / 1.128, c.sigma(), 1e-12);
    assertEquals(List.of(4), c.signals());
  }

  @Test
  void falseAlarmsAreAsRareAsStated() {
    int alarms = 0;
    int found = 0;
    int near = 0;
    for (int seed = 0; seed < 300; seed++) {
      SplittableRandom random = new SplittableRandom(seed);
      double[] flat = new double[20];
      double[] step = new double[20];
      for (int i = 0; i < 20; i++) {
        flat[i] = Math.exp(random.nextGaussian()); // far from normal
        step[i] = random.nextGaussian() + (i >= 12 ? 3 : 0);
      }
      alarms += ChangePoints.in(flat, 0.05, seed).isEmpty() ? 0 : 1;
      List<ChangePoints.Change> changes = ChangePoints.in(step, 0.05, seed);
      found += changes.isEmpty() ? 0 : 1;
      near += changes.stream().anyMatch(c -> Math.abs(c.first() - 12) <= 1) ? 1 : 0;
    }
    assertTrue(alarms <= 0.085 * 300, alarms + " false alarms of 300 at 5 %");
    assertTrue(found > 285 && near > 255, found + " found, " + near + " near");
  }

  /** Poisson: with mean N the variance of ln(N + 1/2) is about 1/N. */
  @Test
  void countingErrorIsPoissons() {
    SplittableRandom random = new SplittableRandom(1);
    List<Double> logs = new ArrayList<>();
    for (int i = 0; i < 20_000; i++) {
      int n = 0;
      for (double p = random.nextDouble(); p > Math.exp(-40); p *= random.nextDouble()) {
        n++;
      }
      logs.add(Math.log(n + 0.5));
    }
    double mean = logs.stream().mapToDouble(v -> v).average().orElseThrow();
    double variance =
        logs.stream().mapToDouble(v -> (v - mean) * (v - mean)).average().orElseThrow();
    CountError counting = new CountError(0, 0, 0, 1);
    assertEquals(counting.bandVariance(40), variance, 0.05 * variance);
  }
}
