package siltwright.interval;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import java.util.function.DoublePredicate;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;
import siltwright.analysis.Progress;
import siltwright.cleanliness.Iso4406;
import siltwright.model.Bands;
import siltwright.model.ChangeProcedure;
import siltwright.model.CleanlinessCode;
import siltwright.model.Distribution;
import siltwright.model.Machine;
import siltwright.model.SizeBands;

/** The cheapest interval within limits, and the flat range round it, by halving. */
class LimitsTest {
  private static final double SHORTEST_H = 10;

  /** Failures so dear that the optimum stands where the bypass opens: about 950 h. */
  private static final Machine WEARING = failing(1_200_000);

  private static Machine failing(double money) {
    Machine m = Machines.small();
    return m.withComponents(List.of(m.components().get(0).withCosts(money / 2, money / 2)));
  }

  private static Best best(Machine m) {
    return best(m, 4000);
  }

  private static Best best(Machine m, double horizonH) {
    return IntervalSearch.best(new CostCurve(m, 0), Machines.first(m), horizonH);
  }

  private static Best.Interval interval(Machine m) {
    return best(m).interval().orElseThrow();
  }

  /** The place between one where something holds and one where it does not. */
  private static double between(double holds, double not, DoublePredicate p) {
    double in = holds;
    double out = not;
    for (int i = 0; i < 50; i++) {
      double middle = (in + out) / 2;
      if (p.test(middle)) {
        in = middle;
      } else {
        out = middle;
      }
    }
    return in;
  }

  private static void isFlatWithin(
      double share, double[] range, Best.Interval i, Machine m, double longestH) {
    CostCurve curve = new CostCurve(m, 0);
    DoublePredicate flat = t -> curve.perH(t, Machines.first(m)) <= (1 + share) * i.costPerH();
    double low = flat.test(SHORTEST_H) ? SHORTEST_H : between(i.hours(), SHORTEST_H, flat);
    double high = flat.test(longestH) ? longestH : between(i.hours(), longestH, flat);
    assertEquals(low, range[0], 1e-4 * low);
    assertEquals(high, range[1], 1e-4 * high);
  }

  @ParameterizedTest
  @ValueSource(doubles = {0, 700, 1000, 1050})
  void theFlatRangeEndsWhereTheCostIsSoMuchMore(double makerH) {
    Machine m = Machines.limited(WEARING, makerH, "");
    Best.Interval i = interval(m);
    double longest = makerH > 0 ? makerH : 4000;
    isFlatWithin(0.01, i.within1pct(), i, m, longest);
    isFlatWithin(0.05, i.within5pct(), i, m, longest);
  }

  @Test
  void aLimitBindsWhereTheCostWouldStillFall() {
    double free = interval(WEARING).hours();
    Best bound = best(Machines.limited(WEARING, free / 2, ""));
    assertEquals(free / 2, bound.interval().orElseThrow().hours(), 1e-9);
    assertEquals(free, bound.free().orElseThrow().hours(), 1e-4 * free);
    assertEquals(List.of(new Best.Limit("maker's maximum", free / 2, true)), bound.limits());
    Best loose = best(Machines.limited(WEARING, 2 * free, ""));
    assertEquals(free, loose.interval().orElseThrow().hours(), 1e-4 * free);
    assertEquals(List.of(new Best.Limit("maker's maximum", 2 * free, false)), loose.limits());
    // beyond what was looked at, it is a limit all the same
    assertFalse(best(Machines.limited(WEARING, 9000, "")).limits().get(0).binds());
    assertEquals(free, interval(Machines.limited(WEARING, 9000, "")).hours(), 1e-4 * free);
  }

  private static boolean isClean(CostCurve curve, ChangeProcedure p, double t, String code) {
    Bands settled = curve.circuit().steadyPerMl(curve.massG(t, p));
    double[] n = SizeBands.toCumulative(settled.toArray());
    double[] most = Iso4406.upperLimitsPerMl(CleanlinessCode.parse(code));
    return n[0] <= most[0] && n[1] <= most[1] && n[2] <= most[2];
  }

  /** The oil is dirty only once the bypass is open; a dear failure ends the interval before. */
  @ParameterizedTest(name = "failure {0}, target {1}")
  @CsvSource({"12000, 12/11/8, true", "1200000, 12/11/8, false"})
  void aTargetIsKeptUpToTheIntervalThatTheOilSettlesAt(double money, String code, boolean binds) {
    Machine m = Machines.limited(failing(money), 0, code);
    CostCurve curve = new CostCurve(m, 0);
    ChangeProcedure p = Machines.first(m);
    Best best = best(m);
    double allowed = between(SHORTEST_H, 4000, t -> isClean(curve, p, t, code));
    Best.Limit limit = best.limits().get(0);
    assertEquals("cleanliness target " + code, limit.name());
    assertEquals(allowed, limit.longestH(), 3e-5 * allowed);
    assertEquals(binds, limit.binds());
    double free = best(failing(money)).interval().orElseThrow().hours();
    assertEquals(free, best.free().orElseThrow().hours(), 1e-3 * free);
    double hours = best.interval().orElseThrow().hours();
    assertEquals(Math.min(free, allowed), hours, 1e-3 * hours);
  }

  @Test
  void aTargetThatIsNeverMissedIsNoLimit() {
    Best best = best(Machines.limited(WEARING, 0, "21/19/16"));
    assertEquals(
        List.of(new Best.Limit("cleanliness target 21/19/16", Double.POSITIVE_INFINITY, false)),
        best.limits());
  }

  @Test
  void aShortLookAheadIsLengthenedUntilTheCostRises() {
    double free = interval(WEARING).hours();
    for (double horizon : new double[] {50, 300, free, 2000}) {
      Best.Interval i = best(WEARING, horizon).interval().orElseThrow();
      assertEquals(free, i.hours(), 1e-3 * free, horizon + " h");
    }
  }

  /** Looked for by a few costs only, so that a dear way is left out early. */
  @Test
  void aRoughLeastIsLittleAboveTheLeast() {
    for (double makerH : new double[] {0, 30, 200, 700}) {
      for (String code : new String[] {"", "12/11/8"}) {
        Machine m = Machines.limited(WEARING, makerH, code);
        CostCurve curve = new CostCurve(m, 0);
        Best best = IntervalSearch.best(curve, Machines.first(m), 4000);
        double rough = IntervalSearch.roughly(curve, Machines.first(m), 4000);
        double least = best.interval().orElseThrow().costPerH();
        assertTrue(rough >= least * (1 - 1e-6) && rough <= 1.2 * least, () -> rough / least + "");
      }
    }
  }

  @Test
  void limitsMayLeaveNothing() {
    Best maker = best(Machines.limited(WEARING, 9, ""));
    assertTrue(maker.interval().isEmpty() && maker.free().isEmpty());
    assertEquals("the limits leave no interval of 10 h or longer", maker.reason());
    assertEquals(Double.POSITIVE_INFINITY, maker.costPerH());
  }

  @Test
  void oilThatNothingCleansIsSaid() {
    Best best = best(WEARING.withFieldEfficiency(0));
    assertTrue(best.interval().isEmpty());
    assertTrue(best.reason().startsWith("particles of some size come in"), best.reason());
  }

  @Test
  void aLimitMayLeaveOneInterval() {
    Machine m = Machines.limited(WEARING, SHORTEST_H, "");
    assertEquals(SHORTEST_H, interval(m).hours(), 1e-9);
    m = Machines.uncertain(m, new Distribution.LogNormal(2), "ingress/returnLine");
    Tuning tuning = Tuning.of(m, new Tuning.Settings(4000, 3, 1), Progress.NONE);
    double cost = tuning.recommended().orElseThrow().best().costPerH();
    assertEquals(cost, tuning.spread().orElseThrow().costPerH()[1], 0.1 * cost);
    assertEquals(SHORTEST_H, tuning.spread().orElseThrow().bestH()[1], 1e-9);
  }
}
