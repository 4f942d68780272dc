package siltwright.circuit.view;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import siltwright.model.Component;
import siltwright.model.Machine;
import siltwright.model.PressureFilter;
import siltwright.model.ReturnFilter;
import siltwright.workbench.testing.TestDesk;

/** The machines of the demo fleet, and some that it has not. */
final class DemoFleet {
  private DemoFleet() {}

  static List<Machine> machines() {
    return TestDesk.DEMO.machines();
  }

  static Machine machine(String id) {
    return TestDesk.DEMO.machine(id).orElseThrow();
  }

  /** A machine with components of other kinds, as many as named, before or behind its filter. */
  static Machine with(Machine m, List<String> before, List<String> behind) {
    Component pattern = m.components().get(0);
    List<Component> all = new ArrayList<>();
    for (int i = 0; i < before.size(); i++) {
      all.add(component(pattern, "b" + i, before.get(i), false));
    }
    for (int i = 0; i < behind.size(); i++) {
      all.add(component(pattern, "p" + i, behind.get(i), true));
    }
    return m.withComponents(all);
  }

  private static Component component(Component c, String id, String kind, boolean behind) {
    return new Component(
        id,
        kind,
        behind,
        c.flowShare(),
        c.sensitivity(),
        c.exponent(),
        c.reference(),
        c.minimumRelativeWear(),
        c.life(),
        c.acute(),
        c.replacement(),
        c.renewalMoney(),
        c.consequenceMoney());
  }

  /** A machine whose whole return flow is filtered, without an indicator. */
  static Machine plain(Machine m) {
    ReturnFilter f = m.returnFilter();
    ReturnFilter silent =
        new ReturnFilter(
            f.housing(),
            f.element(),
            f.bypassCrackingKPa(),
            f.bypassFullFlowKPa(),
            OptionalDouble.empty(),
            "",
            f.housingDropKPa(),
            f.fieldEfficiency());
    return new Machine(
        m.id(),
        m.name(),
        m.machineClass(),
        m.site(),
        m.reservoir(),
        m.fluid(),
        m.duty(),
        1,
        silent,
        Optional.<PressureFilter>empty(),
        m.offlineFilter(),
        m.ingress(),
        m.settlingPerH(),
        m.oilChange(),
        m.components(),
        m.procedures(),
        m.costs(),
        m.limits(),
        m.today(),
        m.sampling(),
        m.alternatives(),
        m.startAtPerMl(),
        m.uncertainty());
  }
}
