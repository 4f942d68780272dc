package siltwright.card;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.time.LocalDate;
import java.util.Arrays;
import java.util.EnumSet;
import java.util.HashSet;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.Set;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.Arguments;
import org.junit.jupiter.params.provider.MethodSource;
import siltwright.analysis.Progress;
import siltwright.model.ChangeProcedure;
import siltwright.model.Housing;
import siltwright.model.Ingress;
import siltwright.model.Machine;
import siltwright.restart.SamplingPlan;

/** Every card of the demo fleet, in both languages. */
class CardTest {
  static Stream<Arguments> cards() {
    return TemplateReader.LANGUAGES.stream()
        .flatMap(l -> DemoFleet.machines().stream().map(m -> Arguments.of(m.id(), l)));
  }

  @ParameterizedTest
  @MethodSource("cards")
  void aCautionPrecedesEveryStepThatCanHurt(String id, String language) {
    Card card = DemoFleet.card(DemoFleet.machine(id), language);
    Set<Hazard> told = EnumSet.noneOf(Hazard.class);
    for (Card.Step step : card.steps()) {
      Set<Hazard> before = EnumSet.noneOf(Hazard.class);
      for (Card.Caution c : step.cautions()) {
        before.add(c.hazard());
        assertEquals(told.add(c.hazard()), c.first(), step.text());
        assertFalse(c.name().isBlank());
        assertFalse(c.text().isBlank());
      }
      assertTrue(before.containsAll(step.does().hazards()), step.text());
    }
    assertEquals(EnumSet.allOf(Hazard.class), told, "every hazard is told on every card");
  }

  @ParameterizedTest
  @MethodSource("cards")
  void nothingIsOpenedBeforeItIsLockedOutAndSlack(String id, String language) {
    Machine m = DemoFleet.machine(id);
    List<Operation> does =
        DemoFleet.card(m, language).steps().stream().map(Card.Step::does).toList();
    for (StepOrder order : StepOrder.of(m.returnFilter().housing())) {
      assertEquals(Optional.empty(), order.broken(does));
    }
    Operation seal =
        m.returnFilter().housing() == Housing.SEALING_CANISTER
            ? Operation.SHUT_CANISTER
            : Operation.CAP_PORTS;
    assertTrue(does.indexOf(Operation.LOCK_OUT) < does.indexOf(Operation.OPEN_HOUSING));
    assertTrue(does.indexOf(Operation.RELEASE_TANK) < does.indexOf(Operation.OPEN_HOUSING));
    assertTrue(does.indexOf(seal) < does.indexOf(Operation.LIFT_OUT));
  }

  @ParameterizedTest
  @MethodSource("cards")
  void everyTextIsFilled(String id, String language) {
    Card card = DemoFleet.card(DemoFleet.machine(id), language);
    for (Card.Step s : card.steps()) {
      assertFalse(s.text().contains("{") || s.why().toString().contains("{"), s.text());
      assertFalse(s.why().isEmpty(), s.text());
    }
    assertFalse(card.otherWay().isEmpty());
    assertTrue(card.notice().size() >= 2);
  }

  /**
   * By hand: where only the return filter takes dirt out, the long run puts all that comes in and
   * all that handling lets in into the element, M = (R T + H)/(1 - φ), of which a change releases φ
   * M + H. Masses are those of 4 to 100 µm(c).
   */
  @Test
  void gramsAreThoseOfTheBalanceByHand() {
    int checked = 0;
    for (Machine m : DemoFleet.machines()) {
      if (m.offlineFilter().isPresent()
          || m.pressureFilter().isPresent()
          || m.oilChange().isPresent()) {
        continue;
      }
      Facts f = DemoFleet.facts(m);
      assertEquals(byHandG(m, f.way(), f.intervalH()), f.right().get().releasedG(), 1e-3);
      Facts.Other other = f.other().get();
      // Where the other way overloads the element there is no cycle to compare.
      other
          .cycle()
          .ifPresent(
              c ->
                  assertEquals(
                      byHandG(m, other.procedure(), f.intervalH()),
                      c.releasedG(),
                      1e-3 * c.releasedG()));
      checked++;
    }
    assertTrue(checked >= 5, checked + " machines");
  }

  private static double byHandG(Machine m, ChangeProcedure p, double intervalH) {
    double inG =
        (Ingress.rateMgPerH(m.ingress().reservoir()) + Ingress.rateMgPerH(m.ingress().returnLine()))
            * intervalH
            / 1000;
    double handlingG = p.handlingDirtMg() / 1000;
    return p.backFlushShare() * (inG + handlingG) / (1 - p.backFlushShare()) + handlingG;
  }

  /** By hand: 1/(1 - E (1 - φ)) with the E that φ = 0 gives, for both ways. */
  @Test
  void theOtherWayHasTheSmallerRatio() {
    for (Machine m : DemoFleet.machines()) {
      Facts f = DemoFleet.facts(m);
      double e = (1 - 1 / f.rightRatio()) / (1 - f.way().backFlushShare());
      double phi = f.other().get().procedure().backFlushShare();
      assertEquals(1 / (1 - e * (1 - phi)), f.other().get().ratio(), 1e-9, m.id());
    }
  }

  /** Those of the sampling planner, in whole minutes. */
  @Test
  void samplesAreTakenWhenThePlannerSays() {
    for (Machine m : DemoFleet.machines()) {
      Facts f = DemoFleet.facts(m);
      double[] planned = SamplingPlan.minutes(m);
      assertEquals(3, planned.length, m.id());
      assertEquals(Arrays.stream(planned).boxed().toList(), f.samplesMin());
      assertTrue(planned[0] >= 4 && planned[2] < 600, m.id() + " " + Arrays.toString(planned));
    }
  }

  @Test
  void theNextChangeIsProjected() {
    Machine m = DemoFleet.machine("EX-11");
    Facts f =
        Facts.of(
            DemoFleet.FLEET,
            m,
            Facts.cleanest(m),
            new Facts.Hours(
                false,
                OptionalDouble.of(4310),
                OptionalDouble.of(50),
                Optional.of(LocalDate.of(2026, 3, 2))),
            Progress.NONE);
    assertEquals(500, f.intervalH());
    assertEquals(4810, f.next().meterH().getAsDouble());
    assertEquals(10, f.next().weeks().getAsDouble());
    assertEquals(LocalDate.of(2026, 5, 11), f.next().date().get());
  }

  @Test
  void cardsThatDifferHaveDifferentIds() {
    Set<String> ids = new HashSet<>();
    cards()
        .forEach(
            a ->
                assertTrue(
                    ids.add(
                        DemoFleet.card(
                                DemoFleet.machine(a.get()[0].toString()), a.get()[1].toString())
                            .id()
                            .toString())));
    Card card = DemoFleet.card(DemoFleet.machine("EX-11"), "en");
    assertEquals(card.id(), DemoFleet.card(DemoFleet.machine("EX-11"), "en").id());
    assertEquals(card.id(), Card.Id.of(card.id().toString()));
  }

  @Test
  void germanCardsHaveDecimalCommas() {
    Card card = DemoFleet.card(DemoFleet.machine("EX-12"), "de");
    assertTrue(card.values().get("labour_h").contains("0,8"), card.values().toString());
  }
}
