package siltwright.interval;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.OptionalDouble;
import java.util.function.DoublePredicate;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import siltwright.analysis.Progress;
import siltwright.cleanliness.Iso4406;
import siltwright.interval.Tuning.Policy;
import siltwright.interval.Tuning.PolicyAnswer;
import siltwright.model.Bands;
import siltwright.model.ChangeProcedure;
import siltwright.model.CleanlinessCode;
import siltwright.model.Distribution;
import siltwright.model.Machine;
import siltwright.model.ReturnFilter;
import siltwright.model.SizeBands;

/**
 * Ways to decide when, against brute force: each draw's own hours of the indicator by halving on
 * what it reads, of the first sample over its limit by taking one after the other.
 */
class PoliciesTest {
  private static final int DRAWS = 8;
  private static final long SEED = 3;
  private static final double LONGEST_H = 64_000;
  private static final double SAMPLE_H = 60;
  private static final double SAMPLE_MONEY = 45;

  /** An interval found within 0.2 % shifts a cost by less, and two costs may cross there. */
  private static final double FOUND = 4e-3;

  private static Machine indicated(double tripsKPa, double crackingKPa) {
    Machine m = Machines.small();
    ReturnFilter f = m.returnFilter();
    OptionalDouble trips = tripsKPa > 0 ? OptionalDouble.of(tripsKPa) : OptionalDouble.empty();
    return m.withReturnFilter(
        new ReturnFilter(
            f.housing(), f.element(), crackingKPa, crackingKPa + 100, trips, "work", 10, 0.6));
  }

  private static Machine failing(Machine m, double money) {
    return m.withComponents(
        m.components().stream().map(c -> c.withCosts(money / 2, money / 2)).toList());
  }

  private static Machine uncertain(Machine m) {
    Machine dirt = Machines.uncertain(m, new Distribution.LogNormal(2.2), "ingress/returnLine");
    return Machines.uncertain(
        dirt, new Distribution.LogNormal(1.5), "components/pump/life/scale_h");
  }

  private static Tuning tune(Machine m, int draws) {
    return Tuning.of(m, new Tuning.Settings(4000, draws, SEED), Progress.NONE);
  }

  private static PolicyAnswer answer(Tuning tuning, Policy policy) {
    return tuning.policies().stream().filter(a -> a.policy() == policy).findFirst().orElseThrow();
  }

  private static double bestH(Tuning tuning) {
    return tuning.recommended().orElseThrow().best().interval().orElseThrow().hours();
  }

  /** The longest interval within something, by halving. */
  private static double longest(DoublePredicate within) {
    double low = 1;
    double high = LONGEST_H;
    for (int i = 0; i < 40; i++) {
      double middle = Math.sqrt(low * high);
      if (within.test(middle)) {
        low = middle;
      } else {
        high = middle;
      }
    }
    return low;
  }

  private static double tripsH(CostCurve curve, ChangeProcedure p, double tripsKPa) {
    return longest(h -> curve.circuit().readingKPa(0, curve.massG(h, p)) < tripsKPa);
  }

  private static double sampleH(CostCurve curve, ChangeProcedure p, CleanlinessCode limit) {
    double[] most = Iso4406.upperLimitsPerMl(limit);
    for (double h = SAMPLE_H; h < LONGEST_H; h += SAMPLE_H) {
      double mass = curve.massG(h, p);
      if (Double.isInfinite(mass)) {
        return h;
      }
      Bands bands = curve.circuit().steadyPerMl(mass);
      double[] n = SizeBands.toCumulative(bands.toArray());
      if (n[0] > most[0] || n[1] > most[1] || n[2] > most[2]) {
        return h;
      }
    }
    return LONGEST_H;
  }

  /** The curve of each draw with what is recommended. */
  private static List<CostCurve> curves(Machine m, Tuning tuning) {
    Option option = tuning.recommended().orElseThrow().option();
    List<CostCurve> curves = new ArrayList<>();
    for (int i = 0; i < DRAWS; i++) {
      Machine drawn = ParameterDraw.of(m, SEED, i).applied(option.fitted(m));
      curves.add(new CostCurve(drawn, option.equipmentMoneyPerH(m)));
    }
    return curves;
  }

  /** The indicator comes before the best hours, near them, and after them. */
  @ParameterizedTest(name = "indicator {0} kPa, bypass {1} kPa, failure {2}, dirt {3}, {4}")
  @CsvSource({
    "130, 150, 240000, 3, 18/16/13",
    "158, 150, 1200000, 1, 15/13/10",
    "75, 40, 1200000, 1, 16/14/11"
  })
  void eachDrawIsChangedWhenItsOwnTimeHasCome(
      double tripsKPa, double crackingKPa, double failure, double dirt, String limit) {
    Machine m = failing(Machines.dirtier(indicated(tripsKPa, crackingKPa), dirt), failure);
    m = uncertain(Machines.sampled(m, SAMPLE_H, limit, SAMPLE_MONEY));
    Tuning tuning = tune(m, DRAWS);
    ChangeProcedure p = tuning.recommended().orElseThrow().procedure();
    double[] grid = tuning.spread().orElseThrow().gridH();
    double onIndicator = 0;
    double onSample = 0;
    double[] first = new double[grid.length];
    for (CostCurve curve : curves(m, tuning)) {
      double trips = tripsH(curve, p, tripsKPa);
      double there = curve.perH(trips, p);
      onIndicator += there / DRAWS;
      double sample = sampleH(curve, p, CleanlinessCode.parse(limit));
      onSample += (curve.perH(sample, p) + SAMPLE_MONEY / SAMPLE_H) / DRAWS;
      for (int t = 0; t < grid.length; t++) {
        first[t] += (grid[t] < trips ? curve.perH(grid[t], p) : there) / DRAWS;
      }
    }
    PolicyAnswer indicator = answer(tuning, Policy.INDICATOR);
    assertEquals(onIndicator, indicator.expectedPerH(), FOUND * onIndicator);
    PolicyAnswer sample = answer(tuning, Policy.SAMPLE_LIMIT);
    assertEquals(onSample, sample.expectedPerH(), FOUND * onSample);
    int best = 0;
    for (int t = 0; t < grid.length; t++) {
      best = first[t] < first[best] ? t : best;
    }
    PolicyAnswer whichever = answer(tuning, Policy.WHICHEVER_FIRST);
    assertEquals(first[best], whichever.expectedPerH(), FOUND * first[best]);
    assertEquals(Math.min(grid[best], indicator.intervalH()), whichever.intervalH(), 1e-9);

    CostCurve nominal = new CostCurve(m, 0);
    double trips = tripsH(nominal, p, tripsKPa);
    assertEquals(trips, indicator.intervalH(), 3e-5 * trips);
    assertEquals(nominal.perH(trips, p), indicator.costPerH(), 1e-4 * indicator.costPerH());
    assertEquals(
        nominal.perH(whichever.intervalH(), p), whichever.costPerH(), 1e-9 * whichever.costPerH());
    assertEquals(sampleH(nominal, p, CleanlinessCode.parse(limit)), sample.intervalH(), 1e-9);
    double sampled = nominal.perH(sample.intervalH(), p) + SAMPLE_MONEY / SAMPLE_H;
    assertEquals(sampled, sample.costPerH(), 1e-9 * sampled);
  }

  @Test
  void withoutDrawsTheFirstOfBothIsTaken() {
    for (double[] filter : new double[][] {{130, 150}, {75, 40}}) {
      Tuning tuning = tune(uncertain(failing(indicated(filter[0], filter[1]), 1_200_000)), 0);
      PolicyAnswer hours = answer(tuning, Policy.FIXED_HOURS);
      PolicyAnswer indicator = answer(tuning, Policy.INDICATOR);
      PolicyAnswer first = answer(tuning, Policy.WHICHEVER_FIRST);
      PolicyAnswer comes = hours.intervalH() < indicator.intervalH() ? hours : indicator;
      assertEquals(bestH(tuning), hours.intervalH());
      assertEquals(comes.intervalH(), first.intervalH());
      assertEquals(comes.costPerH(), first.costPerH(), 1e-9 * comes.costPerH());
      for (PolicyAnswer a : tuning.policies()) {
        assertTrue(Double.isNaN(a.expectedPerH()), a::toString);
      }
    }
  }

  private static void isNone(String reason, PolicyAnswer answer) {
    assertEquals(reason, answer.reason());
    assertTrue(Double.isNaN(answer.intervalH() + answer.costPerH()), answer::toString);
    assertTrue(Double.isNaN(answer.expectedPerH()), answer::toString);
  }

  private static void hasNoIndicatorPolicy(String reason, Machine m) {
    for (int draws : new int[] {0, 3}) {
      isNone(reason, answer(tune(m, draws), Policy.INDICATOR));
      isNone(reason, answer(tune(m, draws), Policy.WHICHEVER_FIRST));
    }
  }

  /** Without dirt but a little, so that no element is ever full. */
  private static Machine clean(Machine m) {
    return Machines.limited(Machines.dirtier(m, 1e-5), 1000, "");
  }

  @Test
  void anIndicatorThatHelpsNobodyIsSaid() {
    hasNoIndicatorPolicy("there is no indicator", uncertain(indicated(0, 150)));
    hasNoIndicatorPolicy(
        "the indicator is tripped by a clean element in state work", uncertain(indicated(15, 150)));
    hasNoIndicatorPolicy(
        "the bypass opens before the indicator's setting is reached in state work",
        uncertain(indicated(400, 150)));
    hasNoIndicatorPolicy(
        "the indicator is not reached within 64000 h", uncertain(clean(indicated(130, 150))));
  }

  @Test
  void samplesThatHelpNobodyAreSaid() {
    Machine m = uncertain(indicated(130, 150));
    isNone("no oil samples are taken", answer(tune(m, 3), Policy.SAMPLE_LIMIT));
    isNone(
        "samples are over 4/3/1 even with a clean element",
        answer(tune(Machines.sampled(m, 60, "4/3/1", 45), 3), Policy.SAMPLE_LIMIT));
    Machine clean = Machines.sampled(clean(m), 60, "18/16/13", 45);
    isNone("samples stay within 18/16/13 for 64000 h", answer(tune(clean, 3), Policy.SAMPLE_LIMIT));
  }

  /** Between samples nobody looks, so the change waits for the first even where it is late. */
  @Test
  void aFirstSampleMayBeTooLate() {
    Machine m = Machines.dirtier(indicated(130, 150), 8);
    PolicyAnswer late =
        answer(tune(Machines.sampled(m, 400, "16/14/11", 45), 0), Policy.SAMPLE_LIMIT);
    assertEquals(400, late.intervalH());
    // nor is there a cost where the element has long been full
    PolicyAnswer never =
        answer(tune(Machines.sampled(m, 9000, "16/14/11", 45), 0), Policy.SAMPLE_LIMIT);
    assertEquals(9000, never.intervalH());
    assertTrue(Double.isNaN(never.costPerH()));
  }

  @Test
  void eachHasWordsOfItsOwn() {
    List<String> words = Arrays.stream(Policy.values()).map(Policy::words).distinct().toList();
    assertEquals(Policy.values().length, words.size());
    assertTrue(words.stream().noneMatch(String::isBlank), words::toString);
  }
}
