package siltwright.interval;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.concurrent.CancellationException;
import org.apache.commons.math3.special.Gamma;
import org.junit.jupiter.api.Assertions;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;
import siltwright.analysis.Description;
import siltwright.analysis.Progress;
import siltwright.analysis.Scope;
import siltwright.analysis.Values;
import siltwright.contamination.Circuit;
import siltwright.contamination.Cycle;
import siltwright.contamination.CycleSweep;
import siltwright.contamination.Wear;
import siltwright.interval.Tuning.CycleAnswer;
import siltwright.interval.Tuning.Policy;
import siltwright.interval.Tuning.PolicyAnswer;
import siltwright.interval.Tuning.ProcedureAnswer;
import siltwright.interval.Tuning.Spread;
import siltwright.model.Alternatives;
import siltwright.model.BetaPoint;
import siltwright.model.Breather;
import siltwright.model.ChangeProcedure;
import siltwright.model.Component;
import siltwright.model.Distribution;
import siltwright.model.Element;
import siltwright.model.Machine;
import siltwright.model.OfflineFilter;
import siltwright.model.ReturnFilter;
import siltwright.model.SizeBands;

@DisplayName("Change interval: renewal reward (Barlow and Proschan 1965) and brute force")
class TuningTest {
  private static final Tuning.Settings NOMINAL = new Tuning.Settings(4000, 0, 1);

  private static Tuning tune(Machine m) {
    return Tuning.of(m, NOMINAL, Progress.NONE);
  }

  private static Best.Interval best(Machine m) {
    return tune(m).procedures().get(0).best().interval().orElseThrow();
  }

  static List<Machine> demo() {
    return Machines.demo().machines();
  }

  @Test
  void costIsRenewalRewardWrittenOutByHand() {
    Machine m = Machines.small();
    ChangeProcedure p = Machines.first(m);
    double t = 400;
    CycleAnswer answer = Tuning.along(m, Option.TODAY, p, t).get(0).orElseThrow();
    Circuit circuit = Circuit.of(m);
    Cycle cycle = new Cycle(1);
    new CycleSweep(circuit, Wear.of(m)).fill(t, p, cycle);
    Component pump = m.components().get(0);
    // change: element 100 + seals 10 + 1 h x 70 + 1 h x 150 + 1 L x 4 = 334
    double change = 334 / t;
    // renewals an hour: mean wear / (eta Gamma(1 + 1/beta)), each 6000 + 6000
    double renewals = cycle.meanWear(0) / (9000 * Gamma.gamma(1 + 1 / 1.8)) * 12_000;
    assertEquals(12_000, pump.renewalMoney() + pump.consequenceMoney());
    assertEquals(change + renewals, answer.split().total(), 1e-9);
    assertEquals(100 / t, answer.split().element(), 1e-12);
    assertEquals(234 / t, answer.split().service(), 1e-12);
    assertEquals(
        renewals, answer.split().wear() + answer.split().acute() + answer.split().bypass(), 1e-9);
  }

  @ParameterizedTest(name = "{0}")
  @MethodSource("demo")
  void noIntervalOfAFineGridCostsLess(Machine m) {
    for (ProcedureAnswer a : tune(m).procedures()) {
      Optional<Best.Interval> best = a.best().interval();
      if (best.isEmpty()) {
        assertFalse(a.best().reason().isEmpty());
        continue;
      }
      CostCurve curve = new CostCurve(m, Option.TODAY.equipmentMoneyPerH(m));
      double longest = 4000;
      for (Best.Limit limit : a.best().limits()) {
        longest = Math.min(longest, limit.longestH());
      }
      double first = Double.NaN;
      double last = Double.NaN;
      for (double t = IntervalSearch.SHORTEST_H; t <= longest; t *= 1.01) {
        double g = curve.perH(t, a.procedure());
        assertTrue(g >= best.get().costPerH() * (1 - 1e-6), m.id() + " at " + t + ": " + g);
        if (g <= 1.05 * best.get().costPerH()) {
          first = Double.isNaN(first) ? t : first;
          last = t;
        }
      }
      assertEquals(first, best.get().within5pct()[0], 0.015 * first);
      assertEquals(last, best.get().within5pct()[1], 0.015 * last);
    }
  }

  @ParameterizedTest(name = "{0}")
  @MethodSource("demo")
  void splitAddsUpAndLimitsHold(Machine m) {
    Tuning tuning = tune(m);
    for (ProcedureAnswer a : tuning.procedures()) {
      a.atBest()
          .ifPresent(
              c -> {
                assertEquals(a.best().interval().orElseThrow().costPerH(), c.split().total(), 1e-6);
                assertTrue(c.split().bypass() >= -1e-9);
                m.limits()
                    .makerMaximumH()
                    .ifPresent(h -> assertTrue(c.intervalH() <= h * (1 + 1e-9)));
                m.limits()
                    .target()
                    .ifPresent(code -> assertTrue(IntervalSearch.over(c.endPerMl(), code) <= 1e-4));
              });
    }
    // What could be fitted includes what is fitted, so no procedure of today's may cost less.
    tuning
        .recommended()
        .ifPresent(
            r ->
                tuning
                    .procedures()
                    .forEach(a -> assertTrue(r.best().costPerH() <= a.best().costPerH() + 1e-12)));
    tuning
        .recommended()
        .ifPresent(
            r ->
                tuning
                    .options()
                    .forEach(o -> assertTrue(r.best().costPerH() <= o.best().costPerH() + 1e-12)));
  }

  @Test
  void aDearerElementIsKeptLonger() {
    Machine m = Machines.small();
    assertTrue(best(Machines.priced(m, 400)).hours() > best(m).hours());
    assertTrue(best(Machines.priced(m, 400)).costPerH() > best(m).costPerH());
  }

  @Test
  void dearStandstillMeansLongerIntervals() {
    Machine m = Machines.small();
    assertTrue(best(Machines.standing(m, 1000)).hours() > best(m).hours());
  }

  @Test
  void moreDirtMeansShorterIntervalsAndMoreCost() {
    Machine m = Machines.small();
    assertTrue(best(Machines.dirtier(m, 2)).hours() < best(m).hours());
    assertTrue(best(Machines.dirtier(m, 2)).costPerH() > best(m).costPerH());
  }

  @Test
  void thickColdOilOpensTheBypassEarlierAndShortensTheInterval() {
    Machine m = Machines.small();
    assertTrue(best(Machines.at(m, 30)).hours() < best(m).hours());
    assertTrue(best(Machines.at(m, 30)).costPerH() > best(m).costPerH());
  }

  @Test
  void aBiggerElementIsKeptLongerAndCostsLess() {
    Machine m = Machines.small();
    assertTrue(best(Machines.holding(m, 80)).hours() > best(m).hours());
    assertTrue(best(Machines.holding(m, 80)).costPerH() < best(m).costPerH());
  }

  @Test
  void sheddingMoreNeverCostsLess() {
    Machine m = Machines.small();
    double last = 0;
    for (double share : new double[] {0, 0.05, 0.1, 0.2, 0.3, 0.5}) {
      double cost = best(Machines.shedding(m, share)).costPerH();
      assertTrue(cost > last, "share " + share);
      last = cost;
    }
  }

  @Test
  void theQuickWayWinsOnlyWhereDirtCostsNothing() {
    Machine m = Machines.small();
    assertEquals("right", tune(m).recommended().orElseThrow().procedure().id());
    Machine limited = Machines.limited(Machines.worthless(m), 1000, "");
    assertEquals("short", tune(limited).recommended().orElseThrow().procedure().id());
  }

  @Test
  void equivalentFiltrationRatioIsThatOfTheCoarserElement() {
    Machine m = Machines.small();
    Tuning tuning = tune(m);
    Circuit circuit = Circuit.of(m);
    for (int j = 0; j < SizeBands.COUNT; j++) {
      double e = circuit.captureShare(j, 0);
      assertEquals(1 / (1 - e), tuning.procedures().get(0).equivalentBeta().get(j), 1e-12);
      assertEquals(1 / (1 - 0.7 * e), tuning.procedures().get(1).equivalentBeta().get(j), 1e-12);
    }
  }

  @Test
  void withoutWearThereIsNoFiniteOptimum() {
    Machine m = Machines.holding(Machines.worthless(Machines.small()), 10_000);
    Best best = tune(m).procedures().get(0).best();
    assertTrue(best.interval().isEmpty());
    assertTrue(best.reason().startsWith("no finite optimum"), best.reason());
    // the maker's limit makes an answer of it, and binds
    Best limited = tune(Machines.limited(m, 1000, "")).procedures().get(0).best();
    assertEquals(1000, limited.interval().orElseThrow().hours(), 1e-6);
    assertTrue(limited.limits().get(0).binds());
    assertTrue(limited.free().isEmpty());
  }

  @Test
  void aTargetThatACleanElementMissesIsSaid() {
    Best best = tune(Machines.limited(Machines.small(), 0, "4/3/1")).procedures().get(0).best();
    assertTrue(best.interval().isEmpty());
    assertTrue(best.reason().contains("4/3/1"), best.reason());
    assertTrue(best.free().isPresent());
    assertEquals(0, best.limits().get(0).longestH());
  }

  @Test
  void anElementThatDirtOverwhelmsIsSaid() {
    Best best = tune(Machines.dirtier(Machines.small(), 1000)).procedures().get(0).best();
    assertTrue(best.interval().isEmpty());
    assertTrue(best.reason().contains("cannot hold"), best.reason());
  }

  @Test
  void theIndicatorPolicyChangesWhereTheWarmReadingTrips() {
    Machine m = Machines.small();
    Tuning tuning = tune(m);
    PolicyAnswer indicator =
        tuning.policies().stream()
            .filter(p -> p.policy() == Policy.INDICATOR)
            .findFirst()
            .orElseThrow();
    CycleAnswer there =
        Tuning.along(
                m,
                Option.TODAY,
                tuning.recommended().orElseThrow().procedure(),
                indicator.intervalH())
            .get(0)
            .orElseThrow();
    double reading = Circuit.of(m).readingKPa(0, there.retainedG());
    assertEquals(130, reading, 0.02);
    PolicyAnswer first =
        tuning.policies().stream()
            .filter(p -> p.policy() == Policy.WHICHEVER_FIRST)
            .findFirst()
            .orElseThrow();
    assertEquals(
        Math.min(indicator.intervalH(), tuning.policies().get(0).intervalH()),
        first.intervalH(),
        1e-9);
  }

  @Test
  void anIndicatorThatIsNeverReachedIsSaid() {
    Machine m = Machines.small();
    Machine sealed =
        m.withReturnFilter(
            new ReturnFilter(
                m.returnFilter().housing(),
                m.returnFilter().element(),
                50,
                60,
                OptionalDouble.of(130),
                "work",
                10,
                0.6));
    PolicyAnswer indicator = tune(sealed).policies().get(1);
    assertTrue(Double.isNaN(indicator.intervalH()));
    assertTrue(indicator.reason().contains("bypass opens before"), indicator.reason());
  }

  @Test
  void drawsAreReproducibleAndTheRecommendationIsHonest() {
    Machine m = Machines.demo().machines().get(0);
    Tuning.Settings settings = new Tuning.Settings(4000, 20, 7);
    Spread one = Tuning.of(m, settings, Progress.NONE).spread().orElseThrow();
    Spread two = Tuning.of(m, settings, Progress.NONE).spread().orElseThrow();
    assertArrayEquals(one.low(), two.low());
    assertArrayEquals(one.bestH(), two.bestH());
    Spread other =
        Tuning.of(m, new Tuning.Settings(4000, 20, 8), Progress.NONE).spread().orElseThrow();
    assertTrue(one.costPerH()[1] != other.costPerH()[1]);
    for (int i = 0; i < one.gridH().length; i++) {
      assertTrue(one.low()[i] <= one.high()[i]);
    }
    assertTrue(one.regretPerH() >= 0);
    assertTrue(one.regretPerH() <= one.regretOfRecommendedPerH() * 1.02 + 1e-3);
    double sum = 0;
    for (double share : one.shareCheapest()) {
      sum += share;
    }
    assertEquals(1, sum, 1e-9);
  }

  @Test
  void withoutUncertaintyThereIsNoBand() {
    assertTrue(
        Tuning.of(Machines.small(), new Tuning.Settings(4000, 50, 1), Progress.NONE)
            .spread()
            .isEmpty());
  }

  /** A machine with other things to fit, and numbers that are drawn. */
  private static Machine choosing() {
    Machine m = Machines.small();
    Element big = Machines.priced(Machines.holding(m, 90), 180).returnFilter().element();
    Alternatives others =
        new Alternatives(
            List.of(big),
            List.of(new Breather("b", "B", 0.3, 0.02)),
            List.of(new OfflineFilter("o", "O", 8, List.of(new BetaPoint(5, 100)), 0.8, 0.3)));
    return Machines.uncertain(
        Machines.choosing(m, others), new Distribution.LogNormal(2), "ingress/returnLine");
  }

  /** Each procedure searched with each option, where the program leaves out what is far dearer. */
  @Test
  void anOptionHasItsCheapestProcedure() {
    for (Machine m :
        List.of(choosing(), Machines.limited(Machines.worthless(choosing()), 900, ""))) {
      Tuning tuning = tune(m);
      assertEquals(
          Option.of(m), tuning.options().stream().map(Tuning.OptionAnswer::option).toList());
      double least = Double.POSITIVE_INFINITY;
      for (Tuning.OptionAnswer a : tuning.options()) {
        CostCurve curve = new CostCurve(a.option().fitted(m), a.option().equipmentMoneyPerH(m));
        double[] costs =
            m.procedures().stream()
                .mapToDouble(p -> IntervalSearch.best(curve, p, 4000).costPerH())
                .toArray();
        double expected = Arrays.stream(costs).min().orElseThrow();
        assertEquals(expected, a.best().costPerH(), 1e-9 * expected);
        int at = m.procedures().indexOf(a.procedure());
        assertEquals(expected, costs[at], 1e-9 * expected);
        least = Math.min(least, expected);
      }
      assertEquals(least, tuning.recommended().orElseThrow().best().costPerH(), 1e-9 * least);
    }
  }

  @Test
  void partsOfTheAnswerAreThoseOfTheWhole() {
    Machine m = Machines.limited(Machines.small(), 1200, "");
    Tuning tuning = tune(m);
    List<ProcedureAnswer> procedures = Tuning.procedures(m, 4000, Progress.NONE);
    List<Best> best = Tuning.asFitted(m, 4000);
    assertEquals(m.procedures().size(), best.size());
    for (int p = 0; p < best.size(); p++) {
      ProcedureAnswer whole = tuning.procedures().get(p);
      assertEquals(whole.best().costPerH(), best.get(p).costPerH(), 1e-9);
      assertEquals(whole.best().costPerH(), procedures.get(p).best().costPerH(), 1e-9);
      CycleAnswer atBest = whole.atBest().orElseThrow();
      assertEquals(whole.best().costPerH(), atBest.split().total(), 1e-9);
      double[] costs = Tuning.costPerH(m, whole.procedure(), 500, 1200);
      assertEquals(costs[0], whole.atToday().orElseThrow().split().total(), 1e-9);
      assertEquals(costs[1], whole.atMaker().orElseThrow().split().total(), 1e-9);
    }
    assertEquals(500, tuning.today().orElseThrow().intervalH());
    Machine demo = Machines.demo().machines().get(0);
    ChangeProcedure usual = demo.procedure(demo.today().procedure()).orElseThrow();
    assertTrue(!usual.equals(Machines.first(demo)), "not the first one");
    double today = Tuning.costPerH(demo, usual, demo.today().intervalH())[0];
    assertEquals(today, tune(demo).today().orElseThrow().split().total(), 1e-9);
    assertTrue(tune(Machines.small()).procedures().get(0).atMaker().isEmpty());
    assertTrue(tune(Machines.dirtier(m, 1e5)).today().isEmpty());
  }

  /** The words of the trade about a cycle, from the circuit and the cycle themselves. */
  @Test
  void aCycleIsTold() {
    Machine m = Machines.small();
    ChangeProcedure p = Machines.first(m);
    Cycle cycle = new Cycle(1);
    Circuit circuit = Circuit.of(m);
    new CycleSweep(circuit, Wear.of(m)).fill(1500, p, cycle);
    CycleAnswer told = Tuning.along(m, Option.TODAY, p, 1500).get(0).orElseThrow();
    assertEquals(1500, told.intervalH());
    assertEquals(cycle.retainedG(), told.retainedG());
    assertEquals(0.02, told.releasedG(), 0.002); // 20 mg of handling dirt, without its fines
    assertEquals(cycle.startPerMl(), told.startPerMl());
    assertEquals(cycle.endPerMl(), told.endPerMl());
    assertEquals(circuit.steadyPerMl(0), told.runningPerMl());
    assertEquals(circuit.dropKPa(0, cycle.retainedG()), told.dropKPa()[0]);
    assertEquals(circuit.bypassShare(0, cycle.retainedG()), told.bypassShare()[0]);
    for (int j = 0; j < SizeBands.COUNT; j++) {
      assertEquals(cycle.meanPerMl(j), told.meanPerMl().get(j));
    }
  }

  /** Whoever watches is asked at every stage, and told more each time. */
  @Test
  void eachStageAsksWhetherToGoOn() {
    Machine m = choosing();
    Tuning.Settings settings = new Tuning.Settings(4000, 4, 1);
    List<Double> shares = new ArrayList<>();
    List<String> stages = new ArrayList<>();
    Tuning.of(
        m,
        settings,
        (share, doing) -> {
          shares.add(share);
          stages.add(doing);
          return true;
        });
    assertEquals(shares.stream().sorted().toList(), shares);
    assertEquals(0.3, shares.get(shares.size() - 4), 1e-12);
    assertEquals(0.3 + 0.7 * 3 / 4, shares.get(shares.size() - 1), 1e-12);
    assertEquals(
        List.of("m: Right", "m: Short", "m: options", "m: uncertainty"),
        stages.stream().distinct().toList());
    for (String stage : stages) {
      Assertions.assertThrows(
          CancellationException.class,
          () -> Tuning.of(m, settings, (share, doing) -> !doing.equals(stage)));
    }
  }

  @Test
  void settingsAreThoseThatWereAskedFor() {
    Description about =
        Description.of(
            "tune",
            "",
            "",
            Scope.MACHINE,
            TuningParameters.HORIZON,
            TuningParameters.DRAWS,
            TuningParameters.SEED);
    assertEquals(new Tuning.Settings(4000, 100, 1), TuningParameters.of(Values.standard(about)));
    Map<String, String> texts = Map.of("horizon", "900", "draws", "7", "seed", "12");
    assertEquals(new Tuning.Settings(900, 7, 12), TuningParameters.of(Values.of(about, texts)));
  }

  @Test
  void cancelStopsTheWork() {
    Assertions.assertThrows(
        CancellationException.class,
        () -> Tuning.of(Machines.small(), NOMINAL, (share, doing) -> false));
  }
}
