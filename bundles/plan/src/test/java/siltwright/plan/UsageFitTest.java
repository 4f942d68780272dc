package siltwright.plan;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Random;
import org.junit.jupiter.api.Test;

class UsageFitTest {
  /**
   * Thirteen trials of BCG vaccine (Colditz et al., J. Am. Med. Assoc. 271 (1994) 698): log
   * relative risks, whose spread by moments is 0.3088 and whose mean is −0.7141. Data and both
   * values from memory, as textbooks on meta-analysis give them.
   */
  @Test
  void spreadByMomentsOfThirteenTrials() {
    int[][] trials = {
      {4, 119, 11, 128},
      {6, 300, 29, 274},
      {3, 228, 11, 209},
      {62, 13536, 248, 12619},
      {33, 5036, 47, 5761},
      {180, 1361, 372, 1079},
      {8, 2537, 10, 619},
      {505, 87886, 499, 87892},
      {29, 7470, 45, 7232},
      {17, 1699, 65, 1600},
      {186, 50448, 141, 27197},
      {5, 2493, 3, 2338},
      {27, 16886, 29, 17825}
    };
    double[] r = new double[trials.length];
    double[] v = new double[trials.length];
    for (int i = 0; i < r.length; i++) {
      double a = trials[i][0];
      double c = trials[i][2];
      double n1 = a + trials[i][1];
      double n2 = c + trials[i][3];
      r[i] = Math.log(a / n1 / (c / n2));
      v[i] = 1 / a - 1 / n1 + 1 / c - 1 / n2;
    }
    UsageFit.Group g = UsageFit.group(r, v);
    assertEquals(0.3088, g.spread2(), 5e-5);
    assertEquals(-0.7141, g.mean(), 5e-5);
  }

  private static UsageFit.Source machine(
      String id, double perDay, Season season, int from, int days, int step, Random random) {
    List<MeterLog.Step> steps = new ArrayList<>();
    for (int d = from; d + step <= from + days; d += step) {
      double mean = perDay * season.meanDays(d, d + step);
      double h = mean + Math.sqrt(2 * mean) * random.nextGaussian();
      steps.add(new MeterLog.Step(d, d + step, Math.max(0, h)));
    }
    return new UsageFit.Source(id, "class", "site", steps);
  }

  /** Simulated use of known mean, season and variance comes back. */
  @Test
  void knownUseComesBack() {
    Random random = new Random(5);
    Season season = new Season(-0.3, 0.2);
    List<UsageFit.Source> machines = new ArrayList<>();
    double[] truth = new double[30];
    for (int i = 0; i < truth.length; i++) {
      truth[i] = 6 + 4 * random.nextDouble();
      machines.add(machine("m" + i, truth[i], season, 19_000 + i, 730, 14, random));
    }
    Map<String, Usage> usage = UsageFit.of(machines, 8);
    int within = 0;
    for (int i = 0; i < truth.length; i++) {
      Usage u = usage.get("m" + i);
      assertEquals(-0.3, u.season().cosine(), 0.02);
      assertEquals(0.2, u.season().sine(), 0.02);
      assertEquals(2, u.dispersionH(), 0.3);
      within += Math.abs(u.perDayH() - truth[i]) < 2 * u.perDaySdH() ? 1 : 0;
    }
    assertTrue(within >= 26, within + " of 30 within two standard errors");
  }

  /** What was not seen is as uncertain as the fit says: nine of ten within the 90 % range. */
  @Test
  void projectionsCoverWhatComes() {
    Random random = new Random(8);
    int covered = 0;
    int all = 0;
    for (int fleet = 0; fleet < 20; fleet++) {
      List<UsageFit.Source> past = new ArrayList<>();
      double[] next = new double[20];
      for (int i = 0; i < next.length; i++) {
        double perDay = 8 + random.nextGaussian();
        past.add(
            machine("m" + i, perDay, Season.NONE, 0, 14 * (1 + random.nextInt(10)), 7, random));
        double mean = 60 * perDay;
        next[i] = mean + Math.sqrt(2 * mean) * random.nextGaussian();
      }
      Map<String, Usage> usage = UsageFit.of(past, 8);
      for (int i = 0; i < next.length; i++) {
        Usage u = usage.get("m" + i);
        double mu = u.hours(1000, 1060);
        covered += Math.abs(next[i] - mu) < 1.645 * Math.sqrt(u.variance(mu)) ? 1 : 0;
        all++;
      }
    }
    assertEquals(0.9, (double) covered / all, 0.04);
  }

  @Test
  void fewReadingsLeanOnTheClass() {
    Random random = new Random(2);
    List<UsageFit.Source> machines = new ArrayList<>();
    for (int i = 0; i < 10; i++) {
      machines.add(machine("m" + i, 8 + 0.2 * i, Season.NONE, 0, 200, 10, random));
    }
    machines.add(new UsageFit.Source("new", "class", "site", List.of(new MeterLog.Step(0, 2, 40))));
    machines.add(new UsageFit.Source("none", "class", "site", List.of()));
    Map<String, Usage> usage = UsageFit.of(machines, 3);
    Usage few = usage.get("new");
    assertTrue(few.ownShare() < 0.5);
    assertTrue(few.perDayH() < 15, few.toString());
    assertTrue(usage.get("m3").ownShare() > 0.5);
    assertEquals(0, usage.get("none").ownShare());
    assertEquals(9, usage.get("none").perDayH(), 1);
    assertTrue(usage.get("none").perDaySdH() > usage.get("m3").perDaySdH());
  }

  @Test
  void nothingKnownAtAll() {
    Usage u = UsageFit.of(List.of(new UsageFit.Source("a", "c", "s", List.of())), 8).get("a");
    assertEquals(8, u.perDayH());
    assertEquals(Season.NONE, u.season());
  }

  /** ∫ s over a year is a year. */
  @Test
  void seasonKeepsTheYear() {
    assertEquals(365.2425, new Season(0.4, -0.3).meanDays(100, 465.2425), 1e-9);
  }
}
