package siltwright.interval;

import static org.junit.jupiter.api.Assertions.assertAll;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import org.apache.commons.math3.stat.descriptive.rank.Percentile;
import org.apache.commons.math3.stat.descriptive.rank.Percentile.EstimationType;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.Arguments;
import org.junit.jupiter.params.provider.MethodSource;
import siltwright.analysis.Progress;
import siltwright.model.ChangeProcedure;
import siltwright.model.Distribution;
import siltwright.model.Machine;

/**
 * What the draws make of a recommendation, against brute force: every cost of every draw computed,
 * quantiles by Commons Math (type 7 of Hyndman and Fan 1996), least costs on a grid ten times as
 * fine.
 */
class SpreadTest {
  private static final int DRAWS = 12;
  private static final long SEED = 7;

  /** The grid is finer than the program's, which fits a parabola between its own. */
  private static final int FINE = 200;

  /** Draws are computed more coarsely than the curves here. */
  private static final double QUICKLY = 1e-3;

  /** What a parabola at a least cost may miss, and a cubic between costs computed, relative. */
  private static final double LEAST_MISSED = 1e-3;

  private static final double BETWEEN_MISSED = 1e-2;

  /** A tuning, and each of its draws over again. */
  private static final class Drawn {
    private final Tuning tuning;
    private final Tuning.Spread spread;
    private final ChangeProcedure ours;
    private final double bestH;
    private final List<CostCurve> curves = new ArrayList<>();
    private final double[] least = new double[DRAWS];

    Drawn(Machine machine) {
      tuning = Tuning.of(machine, new Tuning.Settings(4000, DRAWS, SEED), Progress.NONE);
      spread = tuning.spread().orElseThrow();
      Tuning.OptionAnswer recommended = tuning.recommended().orElseThrow();
      ours = recommended.procedure();
      bestH = recommended.best().interval().orElseThrow().hours();
      for (int i = 0; i < DRAWS; i++) {
        Machine drawn =
            ParameterDraw.of(machine, SEED, i).applied(recommended.option().fitted(machine));
        curves.add(new CostCurve(drawn, recommended.option().equipmentMoneyPerH(machine)));
        least[i] = least(curves.get(i), ours(i));
      }
    }

    ChangeProcedure ours(int draw) {
      return curves.get(draw).machine().procedures().stream()
          .filter(p -> p.id().equals(ours.id()))
          .findFirst()
          .orElseThrow();
    }

    double shortestH() {
      return spread.gridH()[0];
    }

    double longestH() {
      return spread.gridH()[spread.gridH().length - 1];
    }

    double least(CostCurve curve, ChangeProcedure procedure) {
      double least = Double.POSITIVE_INFINITY;
      for (int t = 0; t <= FINE; t++) {
        double h = shortestH() * Math.pow(longestH() / shortestH(), (double) t / FINE);
        least = Math.min(least, curve.perH(h, procedure));
      }
      return least;
    }

    double[] costs(double intervalH) {
      double[] costs = new double[DRAWS];
      Arrays.setAll(costs, i -> curves.get(i).perH(intervalH, ours(i)));
      return costs;
    }

    double regret(double intervalH) {
      double[] costs = costs(intervalH);
      double sum = 0;
      for (int i = 0; i < DRAWS; i++) {
        sum += costs[i] - least[i];
      }
      return sum / DRAWS;
    }
  }

  static List<Arguments> machines() {
    return List.of(
        Arguments.of("demo", Machines.demo().machines().get(0)),
        Arguments.of("undecided", quick(0.3)),
        Arguments.of("quick", quick(0.02)),
        Arguments.of("limited", Machines.limited(quick(0.3), 400, "")));
  }

  /** All of it at once, for the draws are dear. */
  @ParameterizedTest(name = "{0}")
  @MethodSource("machines")
  void whatIsToldIsThatOfTheDraws(String name, Machine machine) {
    Drawn drawn = new Drawn(machine);
    assertAll(
        () -> bandHoldsTheQuantilesOfTheDraws(drawn),
        () -> costAtTheRecommendationIsThatOfTheDraws(drawn),
        () -> bestIntervalIsThatOfTheDraws(drawn),
        () -> regretIsTheMeanAboveEachDrawsLeast(drawn),
        () -> shareOfAProcedureCountsTheDrawsThatItWins(drawn));
  }

  /**
   * A machine whose quick way to change costs less in the draws in which it lets out little, with a
   * sharp least where the bypass opens.
   */
  private static Machine quick(double mostLetOut) {
    Machine m = Machines.dirtier(Machines.small(), 3);
    m = m.withComponents(List.of(m.components().get(0).withCosts(600_000, 600_000)));
    m = Machines.uncertain(m, new Distribution.LogNormal(2.5), "ingress/returnLine");
    m = Machines.uncertain(m, new Distribution.LogNormal(2), "components/pump/life/scale_h");
    return Machines.uncertain(
        m, new Distribution.Uniform(0, mostLetOut), "procedures/short/backFlushShare");
  }

  private static double quantile(double[] values, double percent) {
    return new Percentile().withEstimationType(EstimationType.R_7).evaluate(values, percent);
  }

  private static void bandHoldsTheQuantilesOfTheDraws(Drawn d) {
    Tuning.Spread spread = d.spread;
    double dear = 2 * spread.costPerH()[2]; // beyond, the program does not compute each draw
    int compared = 0;
    for (int t = 0; t < spread.gridH().length; t++) {
      double[] costs = d.costs(spread.gridH()[t]);
      if (Arrays.stream(costs).max().orElseThrow() < dear) {
        compared++;
        assertEquals(quantile(costs, 5), spread.low()[t], BETWEEN_MISSED * spread.low()[t]);
        assertEquals(quantile(costs, 95), spread.high()[t], BETWEEN_MISSED * spread.high()[t]);
      }
    }
    assertTrue(compared >= 5, compared + " intervals");
  }

  private static void costAtTheRecommendationIsThatOfTheDraws(Drawn d) {
    Tuning.Spread spread = d.spread;
    double[] costs = d.costs(d.bestH);
    for (int k = 0; k < 3; k++) {
      double percent = new double[] {5, 50, 95}[k];
      assertEquals(quantile(costs, percent), spread.costPerH()[k], QUICKLY * spread.costPerH()[k]);
    }
    Tuning.PolicyAnswer fixed =
        d.tuning.policies().stream()
            .filter(p -> p.policy() == Tuning.Policy.FIXED_HOURS)
            .findFirst()
            .orElseThrow();
    double mean = Arrays.stream(costs).average().orElseThrow();
    assertEquals(mean, fixed.expectedPerH(), QUICKLY * mean);
  }

  private static void bestIntervalIsThatOfTheDraws(Drawn d) {
    Tuning.Spread spread = d.spread;
    double[] best = new double[DRAWS];
    for (int i = 0; i < DRAWS; i++) {
      ChangeProcedure procedure = d.ours(i);
      CostCurve curve = d.curves.get(i);
      best[i] =
          new IntervalSearch.Known(t -> curve.perH(t, procedure))
              .cheapest(d.shortestH(), d.longestH());
    }
    for (int k = 0; k < 3; k++) {
      double expected = quantile(best, new double[] {5, 50, 95}[k]);
      assertEquals(expected, spread.bestH()[k], 0.04 * expected);
    }
  }

  private static void regretIsTheMeanAboveEachDrawsLeast(Drawn d) {
    Tuning.Spread spread = d.spread;
    double small = LEAST_MISSED * spread.costPerH()[1];
    assertEquals(d.regret(d.bestH), spread.regretOfRecommendedPerH(), small);
    assertEquals(d.regret(spread.leastRegretH()), spread.regretPerH(), small);
    for (double t : spread.gridH()) {
      assertTrue(d.regret(t) >= spread.regretPerH() - small, t + " h");
    }
  }

  private static void shareOfAProcedureCountsTheDrawsThatItWins(Drawn d) {
    Tuning.Spread spread = d.spread;
    double[] share = new double[spread.shareCheapest().length];
    for (CostCurve curve : d.curves) {
      List<ChangeProcedure> procedures = curve.machine().procedures();
      int first = 0;
      double least = Double.POSITIVE_INFINITY;
      for (int p = 0; p < procedures.size(); p++) {
        double now = d.least(curve, procedures.get(p));
        if (now < least) {
          least = now;
          first = p;
        }
      }
      share[first] += 1.0 / DRAWS;
    }
    for (int p = 0; p < share.length; p++) {
      assertEquals(share[p], spread.shareCheapest()[p], 1e-9, "procedure " + p);
    }
  }
}
