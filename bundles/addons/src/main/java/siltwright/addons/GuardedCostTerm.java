package siltwright.addons;

import java.util.Map;
import siltwright.model.ChangeProcedure;
import siltwright.model.CostTerm;
import siltwright.model.Machine;

/** An add-on's term of the cost, asked when a file is read and not again. */
final class GuardedCostTerm extends GuardedKind implements CostTerm {
  private final CostTerm term;
  private final Guard.Call call;

  GuardedCostTerm(CostTerm term, Guard.Call call) {
    super(call, term::id, term::meaning, term::numbers);
    this.term = term;
    this.call = call;
  }

  @Override
  public double perChangeMoney(
      Machine machine, ChangeProcedure procedure, Map<String, Double> given) {
    return call.of(() -> term.perChangeMoney(machine, procedure, given));
  }
}
