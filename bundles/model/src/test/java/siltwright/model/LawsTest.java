package siltwright.model;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertSame;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;

/** The laws and terms that are always there, and the lives of components by them. */
class LawsTest {
  private final Component pump = Samples.component("pump", Optional.empty());

  @ParameterizedTest
  @EnumSource
  void aLifeOfTheProductGoesByTheComponentsShape(BasicLife law) {
    assertEquals(law.of(2.2), law.life(pump, Map.of()));
    assertEquals(Optional.of(law), BasicLife.named(law.id()));
    assertFalse(law.meaning().isEmpty());
    assertEquals(List.of(), law.numbers());
  }

  @Test
  void noOtherNameIsALifeOfTheProduct() {
    assertEquals(Optional.empty(), BasicLife.named("gompertz"));
    assertEquals("weibull", BasicLife.WEIBULL.id());
    assertEquals("lognormal", BasicLife.LOGNORMAL.id());
  }

  @Test
  void weibullHoldsWhereAFileNamesNoLaw() {
    ComponentLife life = new ComponentLife(2.2, 900);
    assertEquals(Survival.weibull(2.2), life.survival());
    assertTrue(life.followsShape());
    assertEquals(Survival.weibull(3), life.withShape(3).survival());
    assertEquals(Set.of("shape"), Samples.differences(life, life.withShape(3)));
    assertEquals(Set.of("scaleH"), Samples.differences(life, life.withScaleH(3)));
    assertEquals(3, life.withScaleH(3).scaleH());
  }

  @Test
  void aLifeFollowsTheLawThatItsFileNames() {
    Survival brought = Survival.sampled(u -> u);
    NamedLife own = new NamedLife("brought", Optional.of(brought));
    ComponentLife life = new ComponentLife(2.2, 900).withLaw(own);
    assertEquals(Optional.of(own), life.law());
    assertEquals(2.2, life.shape());
    assertEquals(900, life.scaleH());
    assertSame(brought, life.survival());
    assertFalse(life.followsShape());
    assertEquals(life, new ComponentLife(2.2, 900, Optional.of(own)));
    ComponentLife basic = life.withLaw(new NamedLife("lognormal", Optional.empty()));
    assertTrue(basic.followsShape());
    assertTrue(
        assertThrows(IllegalStateException.class, basic::survival)
            .getMessage()
            .contains("lognormal"),
        "read without laws");
  }

  @ParameterizedTest
  @EnumSource
  void aLoadingOfTheProductIsThatOfTheElement(BasicLaw law) {
    Element e = Samples.element();
    Loading loading = law.loading(e, Map.of());
    // the curve ends at (1, 12); the exponent reaches 500/30 there
    double atCapacity = law == BasicLaw.MEASURED ? 12 : 500.0 / 30;
    assertEquals(atCapacity, loading.dropRatio(1), 1e-12);
    assertFalse(law.meaning().isEmpty());
    assertEquals(List.of(), law.numbers());
  }

  @Test
  void theCurveGoesBeforeTheExponent() {
    assertEquals("measured", BasicLaw.of(Samples.element()).id());
    assertEquals("blocking", BasicLaw.of(Samples.element().withoutCurve()).id());
  }

  @Test
  void eachTermOfTheCostByHand() {
    // 0.8 h at 61, 1.1 h at 110, 0.5 L at 4.5
    Machine machine = Samples.machine();
    ChangeProcedure lift = machine.procedure("lift").orElseThrow();
    Map<BasicCost, Double> money =
        Map.of(
            BasicCost.SEALS, 4.0,
            BasicCost.LABOUR, 48.8,
            BasicCost.DOWNTIME, 121.0,
            BasicCost.OIL, 2.25);
    for (BasicCost term : BasicCost.values()) {
      assertEquals(money.get(term), term.perChangeMoney(machine, lift, Map.of()), 1e-9);
      assertEquals(term.name().toLowerCase(Locale.ROOT), term.id());
      assertFalse(term.meaning().isEmpty());
      assertEquals(List.of(), term.numbers());
    }
  }
}
