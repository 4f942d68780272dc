package siltwright.model;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import java.util.Optional;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

/** Every number of a machine that can be named, each against all the others. */
class MachineParameterTest {
  private final Machine machine = Samples.machine();

  private static List<MachineParameter> all() {
    return MachineParameter.forms().stream()
        .flatMap(
            form ->
                form.startsWith("components/")
                    ? List.of(form.replace("ID", "pump"), form.replace("ID", "motor")).stream()
                    : form.startsWith("procedures/")
                        ? List.of(form.replace("ID", "lift"), form.replace("ID", "pull")).stream()
                        : List.of(form).stream())
        .map(path -> MachineParameter.parse(path).orElseThrow())
        .toList();
  }

  @ParameterizedTest
  @CsvSource({
    "ingress/reservoir, 20",
    "ingress/returnLine, 84",
    "returnFilter/fieldEfficiency, 0.7",
    "element/capacity_g, 60",
    "element/blockingExponent, 0.65",
    "components/pump/exponent, 0.8",
    "components/pump/life/shape, 2.2",
    "components/motor/life/scale_h, 12000",
    "components/pump/acute/hazardPerParticle, 1e-6",
    "components/pump/renewal_money, 6000",
    "components/motor/consequence_money, 9000",
    "procedures/pull/backFlushShare, 0.22",
    "procedures/lift/handlingDirt_mg, 21",
    "costs/downtime_money_per_h, 110"
  })
  void aPathNamesItsNumber(String path, double value) {
    MachineParameter parameter = MachineParameter.parse(path).orElseThrow();
    assertEquals(value, parameter.get(machine).orElseThrow(), 1e-12 * value);
    assertEquals(path, parameter.toString());
  }

  @Test
  void aNumberThatIsChangedIsTheOnlyOne() {
    List<MachineParameter> all = all();
    assertEquals(22, all.size());
    for (MachineParameter changed : all) {
      double half = 0.5 * changed.get(machine).orElseThrow();
      Machine other = changed.with(machine, half);
      for (MachineParameter p : all) {
        double expected = p.equals(changed) ? half : p.get(machine).orElseThrow();
        assertEquals(expected, p.get(other).orElseThrow(), 1e-12 * expected, changed + " and " + p);
      }
    }
  }

  @Test
  void theNumberThatItHasLeavesAMachineAsItIs() {
    for (MachineParameter p : all()) {
      assertEquals(machine, p.with(machine, p.get(machine).orElseThrow()), p::toString);
    }
  }

  @Test
  void ingressKeepsTheProportionOfItsSources() {
    // 70 and 14 mg/h become 35 and 7
    Machine half = parameter("ingress/returnLine").with(machine, 42);
    assertEquals(
        List.of(35.0, 7.0),
        half.ingress().returnLine().stream().map(IngressSource::rateMgPerH).toList());
    assertEquals("wear", half.ingress().returnLine().get(1).source());
    assertEquals(Samples.DUST, half.ingress().returnLine().get(1).distribution());
  }

  @Test
  void ingressThatIsNothingStaysNothing() {
    Machine none =
        machine.withIngress(
            new Ingress(List.of(new IngressSource("topping up", 0, Samples.DUST)), List.of()));
    Machine still = parameter("ingress/reservoir").with(none, 5);
    assertEquals(none, still);
  }

  @Test
  void sharesStayPossible() {
    MachineParameter field = parameter("returnFilter/fieldEfficiency");
    assertEquals(1, field.get(field.with(machine, 1.2)).orElseThrow());
    MachineParameter share = parameter("procedures/pull/backFlushShare");
    assertEquals(
        MachineParameter.HIGHEST_BACK_FLUSH, share.get(share.with(machine, 1.2)).orElseThrow());
  }

  @Test
  void whatAMachineHasNotIsNothing() {
    assertEquals(Optional.empty(), parameter("components/valve/exponent").get(machine));
    assertEquals(Optional.empty(), parameter("procedures/push/backFlushShare").get(machine));
    assertEquals(machine, parameter("components/valve/exponent").with(machine, 1));
    MachineParameter acute = parameter("components/pump/acute/hazardPerParticle");
    Component pump = machine.components().get(0);
    Machine safe =
        machine.withComponents(
            List.of(
                new Component(
                    pump.id(),
                    pump.kind(),
                    pump.behindPressureFilter(),
                    pump.flowShare(),
                    pump.sensitivity(),
                    pump.exponent(),
                    pump.reference(),
                    pump.minimumRelativeWear(),
                    pump.life(),
                    Optional.empty(),
                    pump.replacement(),
                    pump.renewalMoney(),
                    pump.consequenceMoney())));
    assertEquals(Optional.empty(), acute.get(safe));
    assertEquals(safe, acute.with(safe, 1));
  }

  @Test
  void anAcuteHazardKeepsItsSize() {
    Machine other = parameter("components/motor/acute/hazardPerParticle").with(machine, 3e-6);
    assertEquals(Optional.of(new Acute(70, 3e-6)), other.components().get(1).acute());
  }

  @Test
  void aShapeCountsWhereTheLawOfLifeFollowsIt() {
    MachineParameter shape = parameter("components/pump/life/shape");
    Survival brought = Survival.weibull(9);
    Machine follows = lives(BasicLife.LOGNORMAL.id(), BasicLife.LOGNORMAL.of(2.2));
    Machine own = lives("brought", brought);
    assertEquals(Optional.of(2.2), shape.get(follows));
    assertEquals(
        BasicLife.LOGNORMAL.of(3),
        shape.with(follows, 3).components().get(0).life().survival(),
        "the basic law of the new shape");
    assertEquals(Optional.empty(), shape.get(own));
    assertEquals(
        brought,
        shape.with(own, 3).components().get(0).life().survival(),
        "a law that an add-on brings stays");
  }

  private Machine lives(String law, Survival survival) {
    NamedLife named = new NamedLife(law, Optional.of(survival));
    return machine.withComponents(List.of(Samples.component("pump", Optional.of(named))));
  }

  @ParameterizedTest
  @ValueSource(
      strings = {
        "",
        "ingress",
        "ingress/",
        "ingress/tank",
        "ingressreservoir",
        "costs/labour_money_per_h",
        "components/exponent",
        "components//exponent",
        "components/pump/life",
        "procedures/pull/labour_h",
        "machine/volume_L"
      })
  void otherPathsNameNothing(String path) {
    assertEquals(Optional.empty(), MachineParameter.parse(path));
  }

  @Test
  void eachFormIsTakenByTheParser() {
    List<String> forms = MachineParameter.forms();
    assertEquals(14, forms.size());
    for (String form : forms) {
      assertEquals(form, MachineParameter.parse(form).orElseThrow().toString());
    }
    assertTrue(forms.contains("components/ID/life/scale_h"));
    assertTrue(forms.contains("returnFilter/fieldEfficiency"));
  }

  private static MachineParameter parameter(String path) {
    return MachineParameter.parse(path).orElseThrow();
  }
}
