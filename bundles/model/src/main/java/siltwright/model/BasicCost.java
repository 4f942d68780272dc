package siltwright.model;

import java.util.Map;

/** The terms of the cost that always count, beside the element itself. */
public enum BasicCost implements CostTerm {
  /** Seals and small parts. */
  SEALS("seals", "seals and small parts"),
  /** Work. */
  LABOUR("labour", "hours of work"),
  /** Standstill. */
  DOWNTIME("downtime", "hours that the machine stands"),
  /** Oil lost. */
  OIL("oil", "oil lost");

  private final String id;
  private final String meaning;

  BasicCost(String id, String meaning) {
    this.id = id;
    this.meaning = meaning;
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
  public double perChangeMoney(Machine machine, ChangeProcedure p, Map<String, Double> numbers) {
    Costs rates = machine.costs();
    return switch (this) {
      case SEALS -> p.sealsMoney();
      case LABOUR -> p.labourH() * rates.labourMoneyPerH();
      case DOWNTIME -> p.downtimeH() * rates.downtimeMoneyPerH();
      case OIL -> p.oilLostL() * rates.oilMoneyPerL();
    };
  }
}
