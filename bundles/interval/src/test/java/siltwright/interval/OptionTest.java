package siltwright.interval;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import java.util.Optional;
import org.junit.jupiter.api.Test;
import siltwright.model.Alternatives;
import siltwright.model.BetaPoint;
import siltwright.model.Breather;
import siltwright.model.Element;
import siltwright.model.Ingress;
import siltwright.model.Machine;
import siltwright.model.OfflineFilter;

/** What can be fitted, and what it costs and does, counted by hand. */
class OptionTest {
  private static final Machine SMALL = Machines.small();
  private static final Element BIG = Machines.holding(SMALL, 90).returnFilter().element();
  private static final Breather BREATHER = new Breather("b", "B", 0.4, 0.05);
  private static final OfflineFilter OFFLINE =
      new OfflineFilter("o", "O", 8, List.of(new BetaPoint(5, 100)), 0.8, 0.3);

  private static Option option(Element e, Breather b, OfflineFilter o) {
    return new Option(Optional.ofNullable(e), Optional.ofNullable(b), Optional.ofNullable(o));
  }

  @Test
  void everyCombinationIsAnOptionAndTodaysIsFirst() {
    Alternatives others = new Alternatives(List.of(BIG, BIG), List.of(BREATHER), List.of(OFFLINE));
    Machine m = Machines.choosing(SMALL, others);
    List<Option> options = Option.of(m);
    assertEquals((1 + 2) * (1 + 1) * (1 + 1), options.size());
    assertEquals(Option.TODAY, options.get(0));
    assertTrue(options.contains(option(BIG, BREATHER, OFFLINE)));
  }

  @Test
  void whatIsFittedCostsWhatItsPartsCost() {
    Machine with = SMALL.withOfflineFilter(Optional.of(OFFLINE));
    assertEquals(0, Option.TODAY.equipmentMoneyPerH(SMALL));
    assertEquals(0.3, Option.TODAY.equipmentMoneyPerH(with), 1e-15);
    assertEquals(0.35, option(null, BREATHER, OFFLINE).equipmentMoneyPerH(SMALL), 1e-15);
    assertEquals(0.05, option(BIG, BREATHER, null).equipmentMoneyPerH(SMALL), 1e-15);
  }

  @Test
  void whatIsFittedTakesItsPlace() {
    Machine m = option(BIG, BREATHER, OFFLINE).fitted(SMALL);
    assertEquals(BIG, m.returnFilter().element());
    assertEquals(Optional.of(OFFLINE), m.offlineFilter());
    assertEquals(0.4 * 10, Ingress.rateMgPerH(m.ingress().reservoir()), 1e-12);
    assertEquals(30, Ingress.rateMgPerH(m.ingress().returnLine()), 1e-12);
    assertEquals(SMALL, Option.TODAY.fitted(SMALL));
  }

  @Test
  void aBreatherScalesWhatComesThroughItOnly() {
    Machine other =
        SMALL.withIngress(new Ingress(SMALL.ingress().returnLine(), SMALL.ingress().returnLine()));
    assertEquals(other, option(null, BREATHER, null).fitted(other));
  }

  @Test
  void anElementIsCalledByItsId() {
    Element other = Machines.demo().machines().get(0).returnFilter().element();
    assertEquals("e", Option.TODAY.elementId(SMALL));
    assertEquals(other.id(), option(other, null, null).elementId(SMALL));
  }
}
