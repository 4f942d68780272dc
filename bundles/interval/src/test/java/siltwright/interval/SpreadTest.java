package siltwright.interval;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import org.apache.commons.math3.stat.descriptive.rank.Percentile;
import org.apache.commons.math3.stat.descriptive.rank.Percentile.EstimationType;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import siltwright.analysis.Progress;
import siltwright.model.ChangeProcedure;
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

  /** What a parabola at a least cost may miss, and a cubic between costs computed, relative. */
  private static final double LEAST_MISSED = 5e-4;

  private static final double BETWEEN_MISSED = 1e-2;

  private static Tuning tuning;
  private static Tuning.Spread spread;
  private static final List<CostCurve> CURVES = new ArrayList<>();
  private static ChangeProcedure ours;
  private static double bestH;
  private static final double[] LEAST = new double[DRAWS];

  @BeforeAll
  static void tuneOnce() {
    Machine machine = Machines.demo().machines().get(0);
    tuning = Tuning.of(machine, new Tuning.Settings(4000, DRAWS, SEED), Progress.NONE);
    spread = tuning.spread().orElseThrow();
    Tuning.OptionAnswer recommended = tuning.recommended().orElseThrow();
    ours = recommended.procedure();
    bestH = recommended.best().interval().orElseThrow().hours();
    for (int i = 0; i < DRAWS; i++) {
      Machine drawn =
          ParameterDraw.of(machine, SEED, i).applied(recommended.option().fitted(machine));
      CURVES.add(new CostCurve(drawn, recommended.option().equipmentMoneyPerH(machine)));
      LEAST[i] = least(CURVES.get(i), ours(i));
    }
  }

  private static ChangeProcedure ours(int draw) {
    return CURVES.get(draw).machine().procedures().stream()
        .filter(p -> p.id().equals(ours.id()))
        .findFirst()
        .orElseThrow();
  }

  private static double least(CostCurve curve, ChangeProcedure procedure) {
    double low = spread.gridH()[0];
    double high = spread.gridH()[spread.gridH().length - 1];
    double least = Double.POSITIVE_INFINITY;
    for (int t = 0; t <= FINE; t++) {
      least = Math.min(least, curve.perH(low * Math.pow(high / low, (double) t / FINE), procedure));
    }
    return least;
  }

  private static double[] costs(double intervalH) {
    double[] costs = new double[DRAWS];
    Arrays.setAll(costs, i -> CURVES.get(i).perH(intervalH, ours(i)));
    return costs;
  }

  private static double quantile(double[] values, double percent) {
    return new Percentile().withEstimationType(EstimationType.R_7).evaluate(values, percent);
  }

  private static double regret(double intervalH) {
    double[] costs = costs(intervalH);
    double sum = 0;
    for (int i = 0; i < DRAWS; i++) {
      sum += costs[i] - LEAST[i];
    }
    return sum / DRAWS;
  }

  @Test
  void bandHoldsTheQuantilesOfTheDraws() {
    double dear = 2 * spread.costPerH()[2]; // beyond, the program does not compute each draw
    int compared = 0;
    for (int t = 0; t < spread.gridH().length; t++) {
      double[] costs = costs(spread.gridH()[t]);
      if (Arrays.stream(costs).max().orElseThrow() < dear) {
        compared++;
        assertEquals(quantile(costs, 5), spread.low()[t], BETWEEN_MISSED * spread.low()[t]);
        assertEquals(quantile(costs, 95), spread.high()[t], BETWEEN_MISSED * spread.high()[t]);
      }
    }
    assertTrue(compared >= 5, compared + " intervals");
  }

  @Test
  void costAtTheRecommendationIsThatOfTheDraws() {
    double[] costs = costs(bestH);
    for (int k = 0; k < 3; k++) {
      double percent = new double[] {5, 50, 95}[k];
      assertEquals(quantile(costs, percent), spread.costPerH()[k], 1e-9 * spread.costPerH()[k]);
    }
    Tuning.PolicyAnswer fixed =
        tuning.policies().stream()
            .filter(p -> p.policy() == Tuning.Policy.FIXED_HOURS)
            .findFirst()
            .orElseThrow();
    double mean = Arrays.stream(costs).average().orElseThrow();
    assertEquals(mean, fixed.expectedPerH(), 1e-9 * mean);
  }

  @Test
  void bestIntervalIsThatOfTheDraws() {
    double low = spread.gridH()[0];
    double high = spread.gridH()[spread.gridH().length - 1];
    double[] best = new double[DRAWS];
    for (int i = 0; i < DRAWS; i++) {
      ChangeProcedure procedure = ours(i);
      CostCurve curve = CURVES.get(i);
      best[i] = IntervalSearch.cheapest(t -> curve.perH(t, procedure), low, high);
    }
    for (int k = 0; k < 3; k++) {
      double expected = quantile(best, new double[] {5, 50, 95}[k]);
      assertEquals(expected, spread.bestH()[k], 0.04 * expected);
    }
  }

  @Test
  void regretIsTheMeanAboveEachDrawsLeast() {
    double small = LEAST_MISSED * spread.costPerH()[1];
    assertEquals(regret(bestH), spread.regretOfRecommendedPerH(), small);
    assertEquals(regret(spread.leastRegretH()), spread.regretPerH(), small);
    for (double t : spread.gridH()) {
      assertTrue(regret(t) >= spread.regretPerH() - small, t + " h");
    }
  }

  @Test
  void shareOfAProcedureCountsTheDrawsThatItWins() {
    double[] share = new double[spread.shareCheapest().length];
    for (CostCurve curve : CURVES) {
      List<ChangeProcedure> procedures = curve.machine().procedures();
      int first = 0;
      double least = Double.POSITIVE_INFINITY;
      for (int p = 0; p < procedures.size(); p++) {
        double now = least(curve, procedures.get(p));
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
