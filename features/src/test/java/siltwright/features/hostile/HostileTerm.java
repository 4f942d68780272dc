package siltwright.features.hostile;

import java.util.Map;
import siltwright.model.ChangeProcedure;
import siltwright.model.CostTerm;
import siltwright.model.Machine;

/** Terms of the cost that do what a term must not; the trip is for comparison. */
public abstract class HostileTerm implements CostTerm {
  @Override
  public String id() {
    return getClass().getSimpleName();
  }

  @Override
  public String meaning() {
    return "does what it must not";
  }

  /** Does nothing wrong. */
  public static final class Trip extends HostileTerm {
    @Override
    public double perChangeMoney(
        Machine machine, ChangeProcedure procedure, Map<String, Double> numbers) {
      return 1000;
    }
  }

  /** Fails when it is asked. */
  public static final class ThrowingTerm extends HostileTerm {
    @Override
    public double perChangeMoney(
        Machine machine, ChangeProcedure procedure, Map<String, Double> numbers) {
      throw new IllegalStateException("asked to fail");
    }
  }
}
