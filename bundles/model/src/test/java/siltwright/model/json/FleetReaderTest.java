package siltwright.model.json;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.Set;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import siltwright.model.Acute;
import siltwright.model.Alternatives;
import siltwright.model.Bands;
import siltwright.model.BetaPoint;
import siltwright.model.Breather;
import siltwright.model.ChangeProcedure;
import siltwright.model.CleanlinessCode;
import siltwright.model.Component;
import siltwright.model.ComponentLife;
import siltwright.model.Costs;
import siltwright.model.Distribution;
import siltwright.model.DutyState;
import siltwright.model.Element;
import siltwright.model.Fleet;
import siltwright.model.Fluid;
import siltwright.model.Housing;
import siltwright.model.Ingress;
import siltwright.model.IngressSource;
import siltwright.model.Limits;
import siltwright.model.LoadingPoint;
import siltwright.model.Machine;
import siltwright.model.OfflineFilter;
import siltwright.model.OilChange;
import siltwright.model.PressureFilter;
import siltwright.model.Replacement;
import siltwright.model.Reservoir;
import siltwright.model.ReturnFilter;
import siltwright.model.Sampling;
import siltwright.model.Site;
import siltwright.model.SizeDistribution;
import siltwright.model.Today;
import siltwright.model.Uncertainty;

class FleetReaderTest {
  private static final SizeDistribution DUST =
      new SizeDistribution("dust", Bands.of(0.05, 0.25, 0.2, 0.3, 0.15, 0.05));
  private static final Element COARSE =
      new Element(
          "coarse",
          "Coarse paper",
          List.of(new BetaPoint(20, 2)),
          15,
          300,
          150,
          300,
          32,
          1,
          List.of(),
          0,
          40);
  private static final ChangeProcedure LIFT_OUT =
      new ChangeProcedure(
          "lift-out",
          "Lift the canister out whole",
          0.01,
          20,
          DUST,
          0.8,
          1,
          0.5,
          4,
          Set.of(Housing.SEALING_CANISTER, Housing.OPEN_BOWL));

  private final Fleet fleet = read(FleetSamples.full()).fleet();
  private final Machine full = fleet.machine("EX-01").orElseThrow();
  private final Machine least = fleet.machine("EX-02").orElseThrow();

  private static FleetFile read(String json) {
    return FleetReader.read(json.getBytes(StandardCharsets.UTF_8), "fleet.json");
  }

  @Test
  void headIsRead() {
    assertEquals(List.of(), read(FleetSamples.full()).problems());
    assertEquals("Test fleet", fleet.name());
    assertTrue(fleet.note().startsWith("Invented"));
    assertEquals("EUR", fleet.currency());
    assertEquals(List.of(new Site("quarry", "Quarry (invented)")), fleet.sites());
    assertEquals(List.of(full, least), fleet.machines());
  }

  @Test
  void machineWithEveryKeyIsRead() {
    assertEquals("Excavator 1", full.name());
    assertEquals("excavator 30 t", full.machineClass());
    assertEquals("quarry", full.site());
    assertEquals(new Reservoir(350, true), full.reservoir());
    assertEquals(new Fluid("oil-46", "ISO VG 46", 40, 46, 100, 6.8, 870), full.fluid());
    assertEquals(
        List.of(
            new DutyState("cold", 0.1, 150, 10),
            new DutyState("idle", 0.3, 120, 60),
            new DutyState("work", 0.6, 280, 60)),
        full.duty());
    assertEquals(0.95, full.filteredShare());
    Element fine =
        new Element(
            "fine",
            "Fine glass fibre",
            List.of(new BetaPoint(5, 10), new BetaPoint(10, 200), new BetaPoint(20, 2000)),
            30,
            500,
            120,
            300,
            32,
            0.9,
            List.of(new LoadingPoint(0, 1), new LoadingPoint(0.5, 3), new LoadingPoint(1, 16.7)),
            0.1,
            90);
    assertEquals(
        new ReturnFilter(
            Housing.OPEN_BOWL, fine, 150, 250, OptionalDouble.of(120), "idle", 10, 0.8),
        full.returnFilter());
    assertEquals(
        Optional.of(new PressureFilter(List.of(new BetaPoint(10, 75)), 0.9)),
        full.pressureFilter());
    assertEquals(
        Optional.of(
            new OfflineFilter("loop", "Loop filter", 10, List.of(new BetaPoint(5, 200)), 1, 0.4)),
        full.offlineFilter());
    assertEquals(Bands.of(0, 0, 0, 0.001, 0.01, 0.05), full.settlingPerH());
    assertEquals(
        Optional.of(new OilChange(4000, 0.9, new CleanlinessCode(19, 17, 14))), full.oilChange());
    assertEquals(new Costs(60, 110, 4.5), full.costs());
    assertEquals(
        new Limits(OptionalDouble.of(1000), Optional.of(new CleanlinessCode(20, 18, 15))),
        full.limits());
    assertEquals(new Today(500, "pull-in-place"), full.today());
    assertEquals(
        Optional.of(new Sampling(250, new CleanlinessCode(21, 19, 16), 25)), full.sampling());
    assertEquals(
        new Alternatives(
            List.of(COARSE),
            List.of(new Breather("dry", "Desiccant breather", 0.3, 0.05)),
            List.of(
                new OfflineFilter(
                    "big-loop", "Big loop filter", 30, List.of(new BetaPoint(4, 200)), 1, 0.9))),
        full.alternatives());
  }

  @Test
  void componentsAreRead() {
    assertEquals(
        List.of(
            new Component(
                "pump",
                "axial piston pump",
                false,
                1,
                Bands.of(0.1, 1, 2, 2, 1, 0.5),
                0.8,
                new CleanlinessCode(18, 16, 13),
                0.2,
                new ComponentLife(2.2, 12000),
                Optional.of(new Acute(38, 1e-12)),
                new Replacement(true, OptionalDouble.of(9000), 4000),
                6000,
                9000),
            new Component(
                "valve",
                "servo valve",
                true,
                0.5,
                Bands.of(1, 1, 1, 0, 0, 0),
                1,
                new CleanlinessCode(16, 14, 11),
                0,
                new ComponentLife(1.5, 15000),
                Optional.empty(),
                Replacement.AT_FAILURE,
                1500,
                800)),
        full.components());
  }

  @Test
  void uncertaintyIsRead() {
    List<Uncertainty> all = full.uncertainty();
    assertEquals(new Distribution.LogNormal(2), all.get(0).distribution());
    assertEquals(new Distribution.Triangular(0.1, 0.4), all.get(1).distribution());
    assertEquals(new Distribution.Uniform(80, 150), all.get(2).distribution());
    assertArrayEquals(
        new double[][] {{0.04, -0.01}, {-0.01, 0.09}},
        ((Distribution.JointLogNormal) all.get(3).distribution()).logCovariance());
    assertEquals(
        List.of("components/pump/life/shape", "components/pump/life/scale_h"),
        all.get(3).parameters().stream().map(Object::toString).toList());
  }

  @Test
  void whatIsLeftOutHasItsStandard() {
    assertEquals(COARSE, least.returnFilter().element());
    assertEquals(OptionalDouble.empty(), least.returnFilter().indicatorKPa());
    assertEquals(Optional.empty(), least.pressureFilter());
    assertEquals(Optional.empty(), least.offlineFilter());
    assertEquals(
        new Ingress(List.of(), List.of(new IngressSource("rod seals", 30, DUST))), least.ingress());
    assertEquals(Bands.ZERO, least.settlingPerH());
    assertEquals(Optional.empty(), least.oilChange());
    assertEquals(new Limits(OptionalDouble.empty(), Optional.empty()), least.limits());
    assertEquals(Optional.empty(), least.sampling());
    assertEquals(Alternatives.NONE, least.alternatives());
    assertEquals(Bands.ZERO, least.startAtPerMl());
    assertEquals(List.of(), least.uncertainty());
  }

  @Test
  void machineHasTheProceduresThatItsHousingAllows() {
    assertEquals(List.of(LIFT_OUT), least.procedures());
    assertEquals(2, full.procedures().size());
  }

  @Test
  void indicatorIsReadInTheWarmestStateOfMostFlow() {
    assertEquals("heavy", least.returnFilter().indicatorState());
    Machine standard =
        read(FleetSamples.full().replace(", \"readIn\": \"idle\"", ""))
            .fleet()
            .machine("EX-01")
            .orElseThrow();
    assertEquals("work", standard.returnFilter().indicatorState());
  }

  /** 5000, 1200, 100 at or above 4, 6, 14 µm(c): 3800 in 4–6, 1100 in 6–14, 100 in 14–21. */
  @Test
  void startCountsBecomeBandCounts() {
    assertEquals(Bands.of(3800, 1100, 100, 0, 0, 0), full.startAtPerMl());
  }

  /**
   * Mass of a sphere goes with d³, d² the product of the edges, so the shares are as count times
   * (edge product)^1.5: 600·24^1.5 : 340·84^1.5 : 45·294^1.5 : 13·798^1.5 : 2·2660^1.5.
   */
  @Test
  void countsBecomeMassShares() {
    double[] mass = {
      600 * Math.pow(24, 1.5),
      340 * Math.pow(84, 1.5),
      45 * Math.pow(294, 1.5),
      13 * Math.pow(798, 1.5),
      2 * Math.pow(2660, 1.5),
      0
    };
    double sum = mass[0] + mass[1] + mass[2] + mass[3] + mass[4];
    double[] share = full.ingress().returnLine().get(1).distribution().massShare().toArray();
    for (int j = 0; j < mass.length; j++) {
      assertEquals(mass[j] / sum, share[j], 1e-12);
    }
  }

  @Test
  void fileWithByteOrderMarkIsRead(@TempDir Path folder) throws IOException {
    Path file = folder.resolve("fleet.json");
    Files.writeString(file, "\uFEFF" + FleetSamples.full());
    assertEquals(2, FleetReader.read(file).fleet().machines().size());
  }

  @Test
  void schemaAcceptsTheFullFile() {
    assertEquals(Set.of(), FleetSchemas.errors(FleetSamples.tree(FleetSamples.full())));
  }
}
