package siltwright.model;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertSame;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.Set;
import org.junit.jupiter.api.Test;

/** What is changed changes and nothing else does: every other part is compared. */
class MachineTest {
  private final Machine machine = Samples.machine();

  @Test
  void aMachineWithOnePartChangedKeepsTheOthers() {
    ReturnFilter filter = machine.returnFilter().with(Samples.element(), 0.3);
    Ingress ingress = new Ingress(List.of(), List.of());
    Costs costs = new Costs(1, 2, 3);
    Limits limits = new Limits(OptionalDouble.empty(), Optional.empty());
    List<Component> components = List.of();
    List<ChangeProcedure> procedures = List.of();
    List<DutyState> duty = List.of(new DutyState("all", 1, 100, 50));
    assertChanged("returnFilter", filter, machine.withReturnFilter(filter));
    assertChanged("offlineFilter", Optional.empty(), machine.withOfflineFilter(Optional.empty()));
    assertChanged("ingress", ingress, machine.withIngress(ingress));
    assertChanged("components", components, machine.withComponents(components));
    assertChanged("procedures", procedures, machine.withProcedures(procedures));
    assertChanged("costs", costs, machine.withCosts(costs));
    assertChanged("limits", limits, machine.withLimits(limits));
    assertChanged("duty", duty, machine.withDuty(duty));
  }

  private void assertChanged(String part, Object wanted, Machine changed) {
    assertEquals(Set.of(part), Samples.differences(machine, changed));
    Object got =
        switch (part) {
          case "returnFilter" -> changed.returnFilter();
          case "offlineFilter" -> changed.offlineFilter();
          case "ingress" -> changed.ingress();
          case "components" -> changed.components();
          case "procedures" -> changed.procedures();
          case "costs" -> changed.costs();
          case "limits" -> changed.limits();
          default -> changed.duty();
        };
    assertEquals(wanted, got);
  }

  @Test
  void elementAndFieldEfficiencyAreThoseOfTheReturnFilter() {
    ReturnFilter before = machine.returnFilter();
    Element coarse = Samples.element().withCapacityG(200);
    Machine other = machine.withElement(coarse);
    assertEquals(Set.of("returnFilter"), Samples.differences(machine, other));
    assertEquals(Set.of("element"), Samples.differences(before, other.returnFilter()));
    assertEquals(coarse, other.returnFilter().element());
    Machine worse = machine.withFieldEfficiency(0.4);
    assertEquals(Set.of("returnFilter"), Samples.differences(machine, worse));
    assertEquals(Set.of("fieldEfficiency"), Samples.differences(before, worse.returnFilter()));
    assertEquals(0.4, worse.returnFilter().fieldEfficiency());
  }

  @Test
  void anElementWithOneNumberChangedKeepsTheOthers() {
    Element e = Samples.element();
    assertEquals(Set.of("priceMoney"), Samples.differences(e, e.withPriceMoney(1)));
    assertEquals(1, e.withPriceMoney(1).priceMoney());
    assertEquals(Set.of("capacityG"), Samples.differences(e, e.withCapacityG(2)));
    assertEquals(2, e.withCapacityG(2).capacityG());
    assertEquals(Set.of("blockingExponent"), Samples.differences(e, e.withBlockingExponent(2)));
    assertEquals(2, e.withBlockingExponent(2).blockingExponent());
    assertEquals(Set.of("loadingCurve"), Samples.differences(e, e.withoutCurve()));
    assertEquals(List.of(), e.withoutCurve().loadingCurve());
  }

  @Test
  void aLawThatTheFileNamesComesBeforeCurveAndExponent() {
    Element e = Samples.element();
    Loading straight = Loading.blocking(0, 5);
    Element named = e.withLoading(new NamedLoading("straight", Optional.of(straight)));
    assertEquals(Set.of("namedLoading"), Samples.differences(e, named));
    assertSame(straight, named.loading());
    assertEquals(12, e.loading().dropRatio(1), 1e-12, "the curve's");
    assertEquals(500.0 / 30, e.withoutCurve().loading().dropRatio(1), 1e-12, "the exponent's");
    Element unread = e.withLoading(new NamedLoading("straight", Optional.empty()));
    assertTrue(
        assertThrows(IllegalStateException.class, unread::loading)
            .getMessage()
            .contains("straight"));
  }

  @Test
  void aComponentWithOneNumberChangedKeepsTheOthers() {
    Component c = Samples.component("pump", Optional.empty());
    ComponentLife life = new ComponentLife(1.5, 900);
    Acute acute = new Acute(38, 2e-7);
    assertEquals(Set.of("life"), Samples.differences(c, c.withLife(life)));
    assertEquals(life, c.withLife(life).life());
    assertEquals(Set.of("exponent"), Samples.differences(c, c.withExponent(3)));
    assertEquals(3, c.withExponent(3).exponent());
    assertEquals(Set.of("acute"), Samples.differences(c, c.withAcute(acute)));
    assertEquals(Optional.of(acute), c.withAcute(acute).acute());
    Component dear = c.withCosts(1, 2);
    assertEquals(Set.of("renewalMoney", "consequenceMoney"), Samples.differences(c, dear));
    assertEquals(1, dear.renewalMoney());
    assertEquals(2, dear.consequenceMoney());
  }

  @Test
  void aProcedureWithAnotherReleaseKeepsTheRest() {
    ChangeProcedure p = Samples.procedure("lift", 0.01, 21);
    ChangeProcedure other = p.withRelease(0.5, 7);
    assertEquals(Set.of("backFlushShare", "handlingDirtMg"), Samples.differences(p, other));
    assertEquals(0.5, other.backFlushShare());
    assertEquals(7, other.handlingDirtMg());
  }

  @Test
  void theCleanestProcedureShedsLeastThenLetsLeastIn() {
    List<ChangeProcedure> ways =
        new ArrayList<>(
            List.of(
                Samples.procedure("c", 0.2, 1),
                Samples.procedure("b", 0.01, 30),
                Samples.procedure("a", 0.01, 20)));
    ways.sort(ChangeProcedure.CLEANEST_FIRST);
    assertEquals(List.of("a", "b", "c"), ways.stream().map(ChangeProcedure::id).toList());
  }

  @Test
  void partsAreFoundByTheirNames() {
    assertEquals("pull", machine.procedure("pull").orElseThrow().id());
    assertEquals(Optional.empty(), machine.procedure("push"));
    assertEquals(1, machine.indicatorStateIndex());
    List<DutyState> others = List.of(new DutyState("idle", 1, 90, 40));
    assertEquals(-1, machine.withDuty(others).indicatorStateIndex());
    Machine second = machine.withLimits(new Limits(OptionalDouble.empty(), Optional.empty()));
    Fleet fleet = new Fleet("f", "", "EUR", List.of(), List.of(machine, second));
    assertSame(machine, fleet.machine("EX-01").orElseThrow());
    assertEquals(Optional.empty(), fleet.machine("EX-99"));
  }

  @Test
  void aChangeCostsSealsWorkStandstillOilAndWhatTheFileAdds() {
    // lift: 4 + 0.8 h · 61 + 1.1 h · 110 + 0.5 L · 4.5 + 7; pull has no added term
    assertEquals(183.05, machine.serviceMoney(Samples.procedure("lift", 0, 0)), 1e-9);
    assertEquals(176.05, machine.serviceMoney(Samples.procedure("pull", 0, 0)), 1e-9);
    Costs costs = machine.costs();
    assertEquals(
        Set.of("downtimeMoneyPerH"), Samples.differences(costs, costs.withDowntimeMoneyPerH(1)));
    // an hour of standstill less dear by 100
    assertEquals(
        176.05 - 110,
        machine
            .withCosts(costs.withDowntimeMoneyPerH(10))
            .serviceMoney(Samples.procedure("pull", 0, 0)),
        1e-9);
  }

  @Test
  void aChangeWhoseTermsWereNotReadHasNoPrice() {
    Costs costs = machine.costs();
    Costs unread = costs.withAdded(List.of(new AddedCost("waste", "pull", Double.NaN)));
    assertEquals(Set.of("added"), Samples.differences(costs, unread));
    Machine m = machine.withCosts(unread);
    assertThrows(
        IllegalStateException.class, () -> m.serviceMoney(Samples.procedure("pull", 0, 0)));
    assertEquals(176.05, m.serviceMoney(Samples.procedure("lift", 0, 0)), 1e-9);
  }

  @Test
  void aHousingHasTheWordOfTheFiles() {
    // docs/file-format.md
    assertEquals("sealing-canister", Housing.SEALING_CANISTER.word());
    assertEquals("open-bowl", Housing.OPEN_BOWL.word());
  }

  @Test
  void aJointUncertaintyIsACopy() {
    double[][] given = {{1, 0.5}, {0.5, 2}};
    Distribution.JointLogNormal joint = new Distribution.JointLogNormal(given);
    given[0][1] = 9;
    assertEquals(0.5, joint.logCovariance()[0][1]);
    assertEquals(2, joint.logCovariance().length);
  }
}
