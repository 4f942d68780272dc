package siltwright.model;

import java.util.List;
import java.util.Map;

/**
 * What a change is paid with.
 *
 * @param labourMoneyPerH an hour of work
 * @param downtimeMoneyPerH an hour of standstill
 * @param oilMoneyPerL a litre of oil
 * @param added what terms of other bundles add that the file names, for each procedure
 */
public record Costs(
    double labourMoneyPerH, double downtimeMoneyPerH, double oilMoneyPerL, List<AddedCost> added) {
  private static final BasicCost[] BASIC = BasicCost.values();

  public Costs {
    added = List.copyOf(added);
  }

  /** Makes the costs of a file that names no other terms. */
  public Costs(double labourMoneyPerH, double downtimeMoneyPerH, double oilMoneyPerL) {
    this(labourMoneyPerH, downtimeMoneyPerH, oilMoneyPerL, List.of());
  }

  /** Returns the same with another price of an hour of standstill. */
  public Costs withDowntimeMoneyPerH(double money) {
    return new Costs(labourMoneyPerH, money, oilMoneyPerL, added);
  }

  /** Returns the same with terms of other bundles. */
  public Costs withAdded(List<AddedCost> terms) {
    return new Costs(labourMoneyPerH, downtimeMoneyPerH, oilMoneyPerL, terms);
  }

  /**
   * Returns what a change of a machine costs without the element: all {@link BasicCost}s and what
   * the file's terms add.
   *
   * @param machine the machine with these costs
   * @param procedure one of its procedures
   * @throws IllegalStateException if the file names terms and was read without them
   */
  static double serviceMoney(Machine machine, ChangeProcedure procedure) {
    double sum = 0;
    for (BasicCost term : BASIC) {
      sum += term.perChangeMoney(machine, procedure, Map.of());
    }
    for (AddedCost term : machine.costs().added) {
      if (term.procedure().equals(procedure.id())) {
        sum += term.perChangeMoney();
      }
    }
    if (Double.isNaN(sum)) {
      throw new IllegalStateException("read without the terms of its cost");
    }
    return sum;
  }
}
