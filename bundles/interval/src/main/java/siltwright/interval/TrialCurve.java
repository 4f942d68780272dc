package siltwright.interval;

import java.util.Optional;
import java.util.stream.IntStream;
import siltwright.model.ChangeProcedure;
import siltwright.model.Machine;

/**
 * The cost curve of a trial: enough for a picture that follows a slider.
 *
 * @param machine the machine under the supposition
 * @param trial the supposition
 * @param hours intervals, h
 * @param costPerH cost at each, money per hour; infinite where no cycle repeats itself
 * @param best the interval that costs least
 */
public record TrialCurve(
    Machine machine, Trial trial, double[] hours, double[] costPerH, Best best) {
  private static final int POINTS = 61;
  private static final double HORIZON_H = 4000;

  /**
   * Computes a curve.
   *
   * @param machine the machine as its file has it
   * @param trial the supposition
   * @param shortestH first interval, h
   * @param longestH last interval, h
   * @throws IllegalArgumentException if the machine has no such procedure
   */
  public static TrialCurve of(Machine machine, Trial trial, double shortestH, double longestH) {
    Machine supposed = trial.on(machine);
    ChangeProcedure procedure = trial.procedureOf(supposed);
    CostCurve curve = new CostCurve(supposed, trial.option().equipmentMoneyPerH(machine));
    double[] hours =
        IntStream.range(0, POINTS)
            .mapToDouble(i -> shortestH * Math.pow(longestH / shortestH, i / (POINTS - 1.0)))
            .toArray();
    double[] cost = new double[POINTS];
    for (int i = 0; i < POINTS; i++) {
      cost[i] = curve.perH(hours[i], procedure);
    }
    return new TrialCurve(
        supposed, trial, hours, cost, IntervalSearch.best(curve, procedure, HORIZON_H));
  }

  /** Returns the cycle at an interval, h; empty where it does not repeat itself. */
  public Optional<Tuning.CycleAnswer> at(Machine asInFile, double intervalH) {
    CostCurve curve = new CostCurve(machine, trial.option().equipmentMoneyPerH(asInFile));
    return Tuning.answer(curve, intervalH, trial.procedureOf(machine));
  }
}
