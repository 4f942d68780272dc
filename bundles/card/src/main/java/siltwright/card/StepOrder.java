package siltwright.card;

import static siltwright.card.Operation.CAP_PORTS;
import static siltwright.card.Operation.CLOSE_HOUSING;
import static siltwright.card.Operation.FIT_ELEMENT;
import static siltwright.card.Operation.LEAK_CHECK;
import static siltwright.card.Operation.LIFT_OUT;
import static siltwright.card.Operation.LOCK_OUT;
import static siltwright.card.Operation.OPEN_CANISTER;
import static siltwright.card.Operation.OPEN_HOUSING;
import static siltwright.card.Operation.PARK;
import static siltwright.card.Operation.RELEASE_ENERGY;
import static siltwright.card.Operation.RELEASE_TANK;
import static siltwright.card.Operation.RESTART;
import static siltwright.card.Operation.SHUT_CANISTER;
import static siltwright.card.Operation.UNCAP_PORTS;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import siltwright.model.Housing;

/**
 * What must come before what, and why. A template in another order is refused.
 *
 * <p>Source: common practice, no source. Whether a machine needs more is its maker's to say.
 *
 * @param first what comes first
 * @param then what comes after it
 * @param why what goes wrong otherwise
 */
public record StepOrder(Operation first, Operation then, String why) {
  private static final List<StepOrder> ALWAYS =
      List.of(
          new StepOrder(PARK, LOCK_OUT, "what is raised must be down before the engine is locked"),
          new StepOrder(LOCK_OUT, RELEASE_ENERGY, "nobody may start the machine meanwhile"),
          new StepOrder(RELEASE_ENERGY, RELEASE_TANK, "shut-in oil would come back into the tank"),
          new StepOrder(RELEASE_TANK, OPEN_HOUSING, "a cover under pressure flies off"),
          new StepOrder(OPEN_HOUSING, LIFT_OUT, "the element is under the cover"),
          new StepOrder(LIFT_OUT, FIT_ELEMENT, "the old element comes out first"),
          new StepOrder(
              FIT_ELEMENT, CLOSE_HOUSING, "a housing without its element filters nothing"),
          new StepOrder(CLOSE_HOUSING, RESTART, "oil would leave by the open housing"),
          new StepOrder(RESTART, LEAK_CHECK, "a leak shows only under flow"));
  private static final List<StepOrder> CANISTER =
      List.of(
          new StepOrder(
              SHUT_CANISTER, LIFT_OUT, "what the element caught would fall into the clean side"),
          new StepOrder(FIT_ELEMENT, OPEN_CANISTER, "the element goes in on the bench"),
          new StepOrder(OPEN_CANISTER, RESTART, "a shut canister blocks the return line"));
  private static final List<StepOrder> OPEN_BOWL =
      List.of(
          new StepOrder(
              CAP_PORTS, LIFT_OUT, "what the element caught would fall into the clean side"),
          new StepOrder(CAP_PORTS, UNCAP_PORTS, "caps go in before they come out"),
          new StepOrder(UNCAP_PORTS, CLOSE_HOUSING, "a cap left behind blocks the return line"));

  /** Returns what holds for a housing. */
  public static List<StepOrder> of(Housing housing) {
    List<StepOrder> orders = new ArrayList<>(ALWAYS);
    orders.addAll(housing == Housing.SEALING_CANISTER ? CANISTER : OPEN_BOWL);
    return orders;
  }

  /**
   * Returns what is wrong with an order of steps.
   *
   * @param operations what the steps do, in order
   * @return what was expected instead; empty where it is kept
   */
  public Optional<String> broken(List<Operation> operations) {
    if (!operations.contains(first)) {
      return Optional.of(
          "a step that does " + first.word() + ", before " + then.word() + ": " + why);
    }
    if (!operations.contains(then)) {
      return Optional.of(
          "a step that does " + then.word() + ", after " + first.word() + ": " + why);
    }
    return operations.lastIndexOf(first) > operations.indexOf(then)
        ? Optional.of(first.word() + " before " + then.word() + ": " + why)
        : Optional.empty();
  }
}
