package siltwright.interval;

import java.util.List;
import siltwright.model.ChangeProcedure;
import siltwright.model.Component;
import siltwright.model.Costs;
import siltwright.model.DutyState;
import siltwright.model.Element;
import siltwright.model.Ingress;
import siltwright.model.Machine;

/**
 * A supposition about a machine: another way to change the element, other things fitted, other
 * prices, dirt and temperature.
 *
 * @param procedure id of the procedure
 * @param option what is fitted
 * @param elementPriceFactor price of the element, times what the machine's file says
 * @param downtimeFactor cost of standstill, times the file's
 * @param failureFactor renewal and consequence cost of every component, times the file's
 * @param ingressFactor dirt that comes in, all sources, times the file's
 * @param oilShiftDegC added to the oil temperature of every duty state, °C
 */
public record Trial(
    String procedure,
    Option option,
    double elementPriceFactor,
    double downtimeFactor,
    double failureFactor,
    double ingressFactor,
    double oilShiftDegC) {
  /** Returns the machine as its file has it, with a procedure. */
  public static Trial asItIs(String procedure) {
    return new Trial(procedure, Option.TODAY, 1, 1, 1, 1, 0);
  }

  /** Returns the machine under the supposition, with the option fitted. */
  public Machine on(Machine machine) {
    Machine m = option.fitted(machine);
    Element element = m.returnFilter().element();
    m = m.withElement(element.withPriceMoney(element.priceMoney() * elementPriceFactor));
    Costs costs = m.costs();
    m = m.withCosts(costs.withDowntimeMoneyPerH(costs.downtimeMoneyPerH() * downtimeFactor));
    m =
        m.withIngress(
            new Ingress(
                Ingress.scaled(m.ingress().reservoir(), ingressFactor),
                Ingress.scaled(m.ingress().returnLine(), ingressFactor)));
    List<Component> components =
        m.components().stream()
            .map(
                c ->
                    c.withCosts(
                        c.renewalMoney() * failureFactor, c.consequenceMoney() * failureFactor))
            .toList();
    List<DutyState> duty =
        m.duty().stream()
            .map(d -> new DutyState(d.id(), d.share(), d.flowLPerMin(), d.oilDegC() + oilShiftDegC))
            .toList();
    return m.withComponents(components).withDuty(duty);
  }

  /** Returns the procedure's record. */
  ChangeProcedure procedureOf(Machine machine) {
    return machine
        .procedure(procedure)
        .orElseThrow(() -> new IllegalArgumentException("no procedure " + procedure));
  }
}
