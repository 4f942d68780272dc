package siltwright.model;

import java.lang.reflect.RecordComponent;
import java.util.Arrays;
import java.util.List;
import java.util.Objects;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.Set;
import java.util.stream.Collectors;

/** Invented parts of a machine in which no two numbers are alike, so that none is mistaken. */
final class Samples {
  static final SizeDistribution DUST =
      new SizeDistribution("dust", Bands.of(0.05, 0.25, 0.2, 0.3, 0.15, 0.05));

  private Samples() {}

  static Element element() {
    return new Element(
        "fine",
        "Fine element",
        List.of(new BetaPoint(5, 3), new BetaPoint(10, 75)),
        30,
        500,
        60,
        300,
        32,
        0.65,
        List.of(new LoadingPoint(0, 1), new LoadingPoint(1, 12)),
        0.07,
        90);
  }

  static Component component(String id, Optional<NamedLife> law) {
    return new Component(
        id,
        "axial piston pump",
        true,
        0.9,
        Bands.of(0.1, 1, 2, 2.5, 1.5, 0.5),
        0.8,
        new CleanlinessCode(18, 16, 13),
        0.2,
        new ComponentLife(2.2, 12_000, law),
        Optional.of(new Acute(70, 1e-6)),
        Replacement.AT_FAILURE,
        6000,
        9000);
  }

  static ChangeProcedure procedure(String id, double backFlush, double handlingMg) {
    return new ChangeProcedure(
        id, "Way " + id, backFlush, handlingMg, DUST, 0.8, 1.1, 0.5, 4, Set.of(Housing.OPEN_BOWL));
  }

  /** A machine with one of everything and two of what has a name. */
  static Machine machine() {
    return new Machine(
        "EX-01",
        "Excavator 1",
        "excavator 30 t",
        "yard",
        new Reservoir(310, true),
        new Fluid("oil", "ISO VG 46", 40, 46, 100, 6.8, 870),
        List.of(new DutyState("cold", 0.1, 200, 10), new DutyState("work", 0.9, 250, 60)),
        0.95,
        new ReturnFilter(
            Housing.OPEN_BOWL, element(), 150, 260, OptionalDouble.of(120), "work", 11, 0.7),
        Optional.of(new PressureFilter(List.of(new BetaPoint(10, 2)), 0.6)),
        Optional.of(new OfflineFilter("loop", "Loop", 8, List.of(new BetaPoint(3, 200)), 0.5, 0.3)),
        new Ingress(
            List.of(new IngressSource(IngressSource.BREATHER, 20, DUST)),
            List.of(new IngressSource("rod seals", 70, DUST), new IngressSource("wear", 14, DUST))),
        Bands.of(1e-4, 2e-4, 3e-4, 4e-4, 5e-4, 6e-4),
        Optional.of(new OilChange(2000, 0.85, new CleanlinessCode(19, 17, 14))),
        List.of(component("pump", Optional.empty()), component("motor", Optional.empty())),
        List.of(procedure("lift", 0.01, 21), procedure("pull", 0.22, 100)),
        new Costs(61, 110, 4.5, List.of(new AddedCost("waste", "lift", 7))),
        new Limits(OptionalDouble.of(1500), Optional.of(new CleanlinessCode(17, 15, 12))),
        new Today(510, "pull"),
        Optional.of(new Sampling(250, new CleanlinessCode(20, 18, 15), 35)),
        Alternatives.NONE,
        Bands.of(3800, 1100, 60, 30, 8, 2),
        List.of());
  }

  /** Returns the names of the components in which two records of a kind differ. */
  static Set<String> differences(Record one, Record other) {
    return Arrays.stream(one.getClass().getRecordComponents())
        .filter(c -> !Objects.equals(of(one, c), of(other, c)))
        .map(RecordComponent::getName)
        .collect(Collectors.toSet());
  }

  private static Object of(Record record, RecordComponent component) {
    try {
      return component.getAccessor().invoke(record);
    } catch (ReflectiveOperationException e) {
      throw new IllegalStateException(e);
    }
  }
}
