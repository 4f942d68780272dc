package siltwright.addons;

import java.util.List;
import java.util.Map;
import siltwright.model.ChangeProcedure;
import siltwright.model.CostTerm;
import siltwright.model.Machine;
import siltwright.model.NamedNumber;

/** An add-on's term of the cost, asked when a file is read and not again. */
final class GuardedCostTerm implements CostTerm {
  private final CostTerm term;
  private final Guard.Call call;
  private final String id;
  private final String meaning;
  private final List<NamedNumber> numbers;

  GuardedCostTerm(CostTerm term, Guard.Call call) {
    this.term = term;
    this.call = call;
    this.id = call.of(term::id);
    this.meaning = call.of(term::meaning);
    this.numbers = List.copyOf(call.<List<NamedNumber>>of(term::numbers));
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
  public List<NamedNumber> numbers() {
    return numbers;
  }

  @Override
  public double perChangeMoney(
      Machine machine, ChangeProcedure procedure, Map<String, Double> given) {
    return call.of(() -> term.perChangeMoney(machine, procedure, given));
  }
}
