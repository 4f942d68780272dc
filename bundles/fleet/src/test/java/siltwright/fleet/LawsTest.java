package siltwright.fleet;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Map;
import java.util.SplittableRandom;
import java.util.stream.IntStream;
import org.junit.jupiter.api.Test;
import siltwright.fleet.BeforeAfter.Term;
import siltwright.life.Covariate;
import siltwright.life.Estimated;
import siltwright.life.Interval;

/** What must hold for any records; seeds are told where a check fails. */
class LawsTest {
  /** Machines with late begins, gaps and marks, hours in steps so that some coincide. */
  private static EventData random(long seed) {
    SplittableRandom random = new SplittableRandom(seed);
    List<String> names = new ArrayList<>();
    List<double[]> windows = new ArrayList<>();
    List<double[]> events = new ArrayList<>();
    for (int m = 0; m < 12; m++) {
      names.add("M" + m);
      double t = random.nextInt(3) * 10;
      for (int w = 0; w < 1 + random.nextInt(3); w++) {
        double to = t + 10 * (1 + random.nextInt(6));
        windows.add(new double[] {m, t, to});
        for (int e = 0; e < random.nextInt(4); e++) {
          double at = t + 5 * (1 + random.nextInt((int) ((to - t) / 5)));
          events.add(new double[] {m, at, 1 + random.nextInt(5)});
        }
        t = to + 10 * random.nextInt(2);
      }
    }
    return EventData.of(
        names,
        windows.stream().mapToInt(w -> (int) w[0]).toArray(),
        windows.stream().mapToDouble(w -> w[1]).toArray(),
        windows.stream().mapToDouble(w -> w[2]).toArray(),
        events.stream().mapToInt(e -> (int) e[0]).toArray(),
        events.stream().mapToDouble(e -> e[1]).toArray(),
        events.stream().mapToDouble(e -> e[2]).toArray());
  }

  /** Second method: the definition, machine by machine and hour by hour. */
  @Test
  void onePassGivesTheVarianceOfTheDefinition() {
    for (long seed = 1; seed <= 40; seed++) {
      EventData data = random(seed);
      MeanCumulative mean = MeanCumulative.of(data);
      double[] times = mean.timesH();
      double[] brackets = new double[12];
      double[] small = new double[12];
      double total = 0;
      for (int k = 0; k < times.length; k++) {
        double t = times[k];
        boolean[] risk = new boolean[12];
        for (int w = 0; w < data.windows(); w++) {
          risk[data.windowMachine(w)] |= data.fromH(w) < t && t <= data.toH(w);
        }
        double[] marks = new double[12];
        for (int e = 0; e < data.events(); e++) {
          marks[data.eventMachine(e)] += data.atH(e) == t ? data.mark(e) : 0;
        }
        double r = IntStream.range(0, 12).filter(m -> risk[m]).count();
        double d = Arrays.stream(marks).sum();
        total += d / r;
        for (int m = 0; m < 12; m++) {
          brackets[m] += risk[m] ? (marks[m] - d / r) / r : 0;
          small[m] += risk[m] && r > 1 ? (marks[m] - d / r) / Math.sqrt(r * (r - 1)) : 0;
        }
        assertEquals(total, mean.mean()[k], 1e-12, "seed " + seed);
        assertEquals(squares(brackets), mean.variance()[k], 1e-12, "seed " + seed);
        assertEquals(squares(small), mean.smallFleetVariance()[k], 1e-12, "seed " + seed);
      }
    }
  }

  private static double squares(double[] values) {
    return Arrays.stream(values).map(v -> v * v).sum();
  }

  /** Cutting a window in two changes nothing. */
  @Test
  void aCutWindowIsTheSame() {
    EventData whole = two(new double[] {0, 0, 20}, new double[] {100, 80, 90}, new int[] {0, 1, 2});
    EventData cut =
        two(
            new double[] {0, 40, 0, 20, 55},
            new double[] {40, 100, 80, 55, 90},
            new int[] {0, 0, 1, 2, 2});
    assertArrayEquals(
        MeanCumulative.of(whole).variance(), MeanCumulative.of(cut).variance(), 1e-14);
    assertEquals(PowerLaw.fit(whole).get().shape(), PowerLaw.fit(cut).get().shape(), 1e-12);
    Covariate.Categorical g = new Covariate.Categorical(List.of("a", "b"), new int[] {0, 1, 1});
    assertEquals(
        RateModel.compare(whole, g, null).chiSquare(),
        RateModel.compare(cut, g, null).chiSquare(),
        1e-12);
  }

  private static EventData two(double[] from, double[] to, int[] machine) {
    return EventData.of(
        List.of("A", "B", "C"),
        machine,
        from,
        to,
        new int[] {0, 0, 1, 2, 2},
        new double[] {30, 90, 60, 50, 70},
        null);
  }

  /**
   * By hand: with as long before as after, the step is the ratio of the counts, here 6 to 9, and
   * the share after of each machine's events is binomial.
   */
  @Test
  void aStepAloneIsTheRatioOfTheCounts() {
    List<Integer> machine = new ArrayList<>();
    List<Double> at = new ArrayList<>();
    int[][] counts = {{3, 1}, {2, 2}, {4, 3}};
    for (int m = 0; m < 3; m++) {
      for (int side = 0; side < 2; side++) {
        for (int e = 0; e < counts[m][side]; e++) {
          machine.add(m);
          at.add(100.0 * side + 10 * (e + 1));
        }
      }
    }
    EventData data =
        EventData.of(
            List.of("A", "B", "C"),
            new int[] {0, 1, 2},
            new double[3],
            new double[] {200, 200, 200},
            machine.stream().mapToInt(i -> i).toArray(),
            at.stream().mapToDouble(d -> d).toArray(),
            null);
    BeforeAfter fit =
        BeforeAfter.fit(data, new double[] {100, 100, 100}, List.of(Term.STEP), null).get();
    assertEquals(6.0 / 9, fit.factor(Term.STEP, 0.95).value(), 1e-9);
    // expected in two bins: the events as they fell
    assertArrayEquals(new double[] {9, 6}, fit.expected(new double[] {-100, 0, 100}), 1e-9);
    assertFalse(
        BeforeAfter.fit(data, new double[] {300, 300, 300}, List.of(Term.STEP), null).exists());
  }

  /** The truth of simulated interventions lies within the interval about as often as it should. */
  @Test
  void stepAndSlopesAreFoundAgain() {
    SplittableRandom random = new SplittableRandom(7);
    int within = 0;
    double sum = 0;
    int runs = 60;
    for (int run = 0; run < runs; run++) {
      List<Integer> machine = new ArrayList<>();
      List<Double> at = new ArrayList<>();
      int n = 30;
      double[] to = new double[n];
      double[] c = new double[n];
      for (int m = 0; m < n; m++) {
        to[m] = 4000 + 3000 * random.nextDouble();
        c[m] = to[m] * (0.3 + 0.4 * random.nextDouble());
        double own = 8 * random.nextDouble();
        for (double t = 0; ; ) {
          t -= Math.log(1 - random.nextDouble()) / 0.02;
          if (t > to[m]) {
            break;
          }
          // thinned from 20 in 1000 h
          double rate = own * Math.exp(0.1 * (t - c[m]) / 1000) * (t > c[m] ? 0.5 : 1);
          if (random.nextDouble() < rate / 20) {
            machine.add(m);
            at.add(t);
          }
        }
      }
      int[] windows = IntStream.range(0, n).toArray();
      EventData data =
          EventData.of(
              IntStream.range(0, n).mapToObj(m -> "M" + m).toList(),
              windows,
              new double[n],
              to,
              machine.stream().mapToInt(i -> i).toArray(),
              at.stream().mapToDouble(d -> d).toArray(),
              null);
      Estimated f =
          BeforeAfter.fit(data, c, List.of(Term.TREND, Term.STEP, Term.BEND), null)
              .get()
              .factor(Term.STEP, 0.95);
      sum += Math.log(f.value());
      within += f.wald().lower() < 0.5 && f.wald().upper() > 0.5 ? 1 : 0;
    }
    assertTrue(within >= 52, within + " of " + runs);
    assertEquals(Math.log(0.5), sum / runs, 0.06);
  }

  @Test
  void ratiosTurnRoundAndStandInOneScale() {
    EventData data = ReferenceCases.Recipe.machines(60);
    Covariate.Categorical g =
        new Covariate.Categorical(
            List.of("a", "b", "c"), IntStream.range(0, 60).map(m -> m % 3).toArray());
    double[] load = IntStream.range(0, 60).mapToDouble(m -> (m * 7) % 11).toArray();
    RateFit fit =
        RateModel.fit(data, Map.of("g", g, "load", new Covariate.Numeric(load)), null).get();
    RateFit.Ratio ab = fit.ratio("g", "b", "a", 0.95);
    RateFit.Ratio ba = fit.ratio("g", "a", "b", 0.95);
    assertEquals(1, ab.estimate().value() * ba.estimate().value(), 1e-12);
    assertEquals(ab.pValue(), ba.pValue(), 1e-9);
    assertEquals(1, ab.estimate().wald().lower() * ba.estimate().wald().upper(), 1e-5);
    double ac = fit.ratio("g", "a", "c", 0.95).estimate().value();
    double bc = fit.ratio("g", "b", "c", 0.95).estimate().value();
    assertEquals(ab.estimate().value(), bc / ac, 1e-12);
    // the interval ends where the test says 5 %
    assertEquals(
        ab.pValue() < 0.05,
        !(ab.estimate().wald().lower() < 1 && ab.estimate().wald().upper() > 1));
  }

  @Test
  void stratificationComparesWithinStrataOnly() {
    // In each stratum the groups are alike, between the strata they are not.
    List<Integer> machine = new ArrayList<>();
    List<Double> at = new ArrayList<>();
    int[] counts = {1, 1, 2, 1, 5, 6, 6, 5};
    int n = 24;
    for (int m = 0; m < n; m++) {
      for (int e = 0; e < counts[m % 8]; e++) {
        machine.add(m);
        at.add(10.0 + 11 * e + m / 3.0);
      }
    }
    double[] to = new double[n];
    Arrays.fill(to, 100);
    EventData data =
        EventData.of(
            IntStream.range(0, n).mapToObj(m -> "M" + m).toList(),
            IntStream.range(0, n).toArray(),
            new double[n],
            to,
            machine.stream().mapToInt(i -> i).toArray(),
            at.stream().mapToDouble(d -> d).toArray(),
            null);
    int[] groups = {0, 0, 0, 1, 0, 1, 1, 1};
    Covariate.Categorical group =
        new Covariate.Categorical(
            List.of("a", "b"), IntStream.range(0, n).map(m -> groups[m % 8]).toArray());
    Covariate.Categorical stratum =
        new Covariate.Categorical(
            List.of("x", "y"), IntStream.range(0, n).map(m -> m % 8 / 4).toArray());
    assertTrue(RateModel.compare(data, group, null).pValue() < 0.1);
    assertTrue(RateModel.compare(data, group, stratum).pValue() > 0.3);
  }

  @Test
  void unitsThatDifferByChanceShareOneRate() {
    GammaPoisson g = GammaPoisson.of(new double[] {5, 5, 5}, new double[] {100, 100, 100});
    assertFalse(g.differ());
    assertEquals(0.05, g.ratePerH(1), 1e-15);
    Interval all = PoissonRates.interval(15, 300, 0.95);
    assertEquals(all, g.interval(0, 0.95));
    GammaPoisson far =
        GammaPoisson.of(new double[] {0, 40, 3, 80}, new double[] {100, 100, 1, 100});
    assertTrue(far.differ());
    // little watched, much drawn in
    assertTrue(far.ownShare(2) < far.ownShare(1));
    assertTrue(far.ratePerH(2) < 3);
  }

  /** By hand: 0.01, 0.04, 0.03 of three. */
  @Test
  void correctionsAreThoseByHand() {
    double[] p = {0.01, 0.04, 0.03, Double.NaN};
    assertArrayEquals(
        new double[] {0.03, 0.06, 0.06, Double.NaN}, Multiplicity.HOLM.adjusted(p), 1e-15);
    assertArrayEquals(
        new double[] {0.03, 0.04, 0.04, Double.NaN}, Multiplicity.FALSE_SHARE.adjusted(p), 1e-15);
    assertArrayEquals(p, Multiplicity.NONE.adjusted(p));
  }

  /** By hand: cost per hour 3/30, (1 - 1)² + (2 - 2)² = 0 of spread where cost goes with hours. */
  @Test
  void aRatioWithoutSpreadHasNoError() {
    MachineRatio r = MachineRatio.of(new double[] {1, 2}, new double[] {10, 20});
    assertEquals(0.1, r.value(), 1e-15);
    assertEquals(0, r.standardError(), 1e-8);
    // (1, 0) over (1, 1): R 1/2, 2/1 * (1/4 + 1/4) = 1, over 2² hours²
    assertEquals(
        0.5, MachineRatio.of(new double[] {1, 0}, new double[] {1, 1}).standardError(), 1e-15);
  }

  @Test
  void unsoundColumnsAreRefused() {
    List<String> one = List.of("A");
    int[] zero = {0};
    assertThrows(
        IllegalArgumentException.class,
        () ->
            EventData.of(
                one, zero, new double[] {5}, new double[] {5}, zero, new double[] {5}, null));
    assertThrows(
        IllegalArgumentException.class,
        () ->
            EventData.of(
                one, zero, new double[] {0}, new double[] {5}, zero, new double[] {6}, null));
    assertThrows(
        IllegalArgumentException.class,
        () ->
            EventData.of(
                one,
                new int[] {0, 0},
                new double[] {0, 4},
                new double[] {5, 9},
                zero,
                new double[] {5},
                null));
  }

  /**
   * By hand: gaps 3, 2, 1 have mean 2 and variance 1, so z is (3 - 1)/sqrt(3 · 8/12); of their six
   * orders two give as great a sum. A second machine ten times as slow counts the same.
   */
  @Test
  void gapsInAnyOrderByHand() {
    double[] at = {3, 5, 6};
    EventData one =
        EventData.of(
            List.of("A"), new int[1], new double[1], new double[] {7}, new int[3], at, null);
    TrendTests.Laplace test = TrendTests.gapOrder(one, 1);
    assertEquals(2 / Math.sqrt(2), test.z(), 1e-12);
    assertEquals(1 / 3.0, test.pValue(), 0.04);
    EventData two =
        EventData.of(
            List.of("A", "B"),
            new int[] {0, 1},
            new double[2],
            new double[] {7, 70},
            new int[] {0, 0, 0, 1, 1, 1},
            new double[] {3, 5, 6, 30, 50, 60},
            null);
    assertEquals(2, TrendTests.gapOrder(two, 1).z(), 1e-12);
    assertEquals(2 / 36.0, TrendTests.gapOrder(two, 1).pValue(), 0.02);
    // late begin: the first gap is not known, and two are left
    EventData late =
        EventData.of(
            List.of("A"), new int[1], new double[] {1}, new double[] {7}, new int[3], at, null);
    assertEquals(2, TrendTests.gapOrder(late, 1).events());
    assertEquals(1, TrendTests.gapOrder(late, 1).pValue());
  }
}
