package siltwright.model;

import java.util.Map;
import java.util.function.ToDoubleBiFunction;

/** The terms of the cost that always count, beside the element itself. */
public enum BasicCost implements CostTerm {
  /** Seals and small parts. */
  SEALS("seals", "seals and small parts", (costs, p) -> p.sealsMoney()),
  /** Work. */
  LABOUR("labour", "hours of work", (costs, p) -> p.labourH() * costs.labourMoneyPerH()),
  /** Standstill. */
  DOWNTIME(
      "downtime", "hours that the machine stands", (c, p) -> p.downtimeH() * c.downtimeMoneyPerH()),
  /** Oil lost. */
  OIL("oil", "oil lost", (costs, p) -> p.oilLostL() * costs.oilMoneyPerL());

  private final String id;
  private final String meaning;
  private final ToDoubleBiFunction<Costs, ChangeProcedure> money;

  BasicCost(String id, String meaning, ToDoubleBiFunction<Costs, ChangeProcedure> money) {
    this.id = id;
    this.meaning = meaning;
    this.money = money;
  }

  @Override
  public String id() {
    return id;
  }

  @Override
  public String meaning() {
    return meaning;
  }

  @Override
  public double perChangeMoney(
      Machine machine, ChangeProcedure procedure, Map<String, Double> numbers) {
    return money.applyAsDouble(machine.costs(), procedure);
  }
}
