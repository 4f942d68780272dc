package siltwright.circuit.view;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Set;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;
import siltwright.circuit.view.Plan.Carried;
import siltwright.circuit.view.Plan.Line;
import siltwright.circuit.view.Plan.Place;
import siltwright.circuit.view.Plan.Symbol;
import siltwright.circuit.view.Plan.Tag;
import siltwright.model.Machine;

/** Laws of the plan, on the demo fleet and on machines that it has not. */
class PlanTest {
  static Stream<Machine> machines() {
    Machine rig = DemoFleet.machine("DR-23");
    Machine truck = DemoFleet.machine("HT-15");
    List<Machine> more =
        List.of(
            DemoFleet.with(truck, List.of(), List.of()),
            DemoFleet.with(rig, List.of(), List.of()),
            DemoFleet.with(rig, List.of("axial piston pump", "cylinder"), List.of()),
            DemoFleet.with(truck, List.of("gear pump", "vane pump", "winch", "motor"), List.of()),
            DemoFleet.with(
                truck,
                List.of("pump", "valve", "cylinder", "cylinder", "motor", "motor", "fan", "valve"),
                List.of()),
            DemoFleet.with(
                rig,
                List.of("valve", "valve", "gear motor"),
                List.of("servo valve", "cylinder", "cylinder", "swivel")),
            DemoFleet.plain(DemoFleet.machine("EX-11")));
    return Stream.concat(DemoFleet.machines().stream(), more.stream());
  }

  @ParameterizedTest
  @MethodSource("machines")
  void nothingOverlaps(Machine machine) {
    Plan plan = Draughtsman.plan(machine);
    List<Place> parts = plan.places().stream().filter(p -> !isTank(p)).toList();
    for (Place a : parts) {
      for (Place b : parts) {
        assertFalse(a != b && a.box().overlaps(b.box()), () -> a + " on " + b);
      }
    }
    for (Tag tag : plan.tags()) {
      for (Tag other : plan.tags()) {
        assertFalse(tag != other && tag.box().overlaps(other.box()), () -> tag + " on " + other);
      }
      for (Place part : plan.places()) {
        boolean own = part.id().equals("tank") && tag.place().equals("tank");
        assertFalse(!own && tag.box().overlaps(part.box()), () -> tag + " on " + part);
      }
    }
  }

  @ParameterizedTest
  @MethodSource("machines")
  void noLineRunsThroughAPartOrATag(Machine machine) {
    Plan plan = Draughtsman.plan(machine);
    for (Line line : plan.lines()) {
      for (int i = 1; i < line.path().size(); i++) {
        Spot a = line.path().get(i - 1);
        Spot b = line.path().get(i);
        assertTrue(a.x() == b.x() || a.y() == b.y(), () -> line + " is oblique");
        for (Tag tag : plan.tags()) {
          assertFalse(tag.box().crossedBy(a, b), () -> line + " through " + tag);
        }
        for (Place part : plan.places()) {
          boolean own =
              line.from().startsWith(part.id() + ".") || line.to().startsWith(part.id() + ".");
          assertFalse(
              !own && !isTank(part) && part.box().crossedBy(a, b), () -> line + " through " + part);
        }
      }
    }
  }

  @ParameterizedTest
  @MethodSource("machines")
  void everyLineEndsAtPortsAndEveryPortHasALine(Machine machine) {
    Plan plan = Draughtsman.plan(machine);
    Set<String> used = new HashSet<>();
    for (Line line : plan.lines()) {
      assertEquals(plan.ports().get(line.from()), line.path().get(0));
      assertEquals(plan.ports().get(line.to()), line.path().get(line.path().size() - 1));
      used.add(line.from());
      used.add(line.to());
    }
    Set<String> alone = new HashSet<>(plan.ports().keySet());
    alone.removeAll(used);
    // the work ports of a valve that drives nothing named are plugged
    alone.removeIf(
        port ->
            plan.place(port.substring(0, Math.max(0, port.indexOf('.'))))
                    .filter(p -> p.symbol() == Symbol.LONE_VALVE)
                    .isPresent()
                && port.matches(".*\\.[ab]"));
    assertEquals(Set.of(), alone);
  }

  @ParameterizedTest
  @MethodSource("machines")
  void theOilGetsFromTheTankToEveryPartAndBack(Machine machine) {
    Plan plan = Draughtsman.plan(machine);
    Set<String> reached = flood(plan, false);
    Set<String> returns = flood(plan, true);
    for (Line line : plan.lines()) {
      if (line.carried() != Carried.RESERVOIR_DIRT && line.carried() != Carried.RETURN_DIRT) {
        assertTrue(reached.contains(line.from()), () -> line + " has no oil");
        assertTrue(returns.contains(line.to()), () -> line + " leads nowhere");
      }
    }
  }

  /** Ports that oil reaches from the tank, through parts; or from which it gets back to it. */
  private static Set<String> flood(Plan plan, boolean back) {
    Set<String> wet = new HashSet<>();
    plan.ports().keySet().stream().filter(p -> p.startsWith("tank.")).forEach(wet::add);
    boolean more = true;
    while (more) {
      more = false;
      for (Line line : plan.lines()) {
        String from = back ? line.to() : line.from();
        String to = back ? line.from() : line.to();
        if (wet.contains(from)) {
          more |= wet.add(to);
          if (to.contains(".") && !to.startsWith("tank.")) {
            String part = to.substring(0, to.indexOf('.') + 1);
            for (String port : plan.ports().keySet()) {
              if (port.startsWith(part)) {
                more |= wet.add(port);
              }
            }
          }
        }
      }
    }
    return wet;
  }

  @ParameterizedTest
  @MethodSource("machines")
  void everythingStandsOnThePlanAndBears(Machine machine) {
    Plan plan = Draughtsman.plan(machine);
    Box whole = new Box(0, 0, plan.width(), plan.height());
    List<Box> boxes = new ArrayList<>();
    plan.places().forEach(p -> boxes.add(p.box()));
    plan.tags().forEach(t -> boxes.add(t.box()));
    for (Box b : boxes) {
      assertTrue(
          b.x() >= 0 && b.y() >= 0 && b.right() <= whole.w() && b.bottom() <= whole.h(),
          b::toString);
    }
    for (int i = 0; i < machine.components().size(); i++) {
      int number = i;
      List<Place> own =
          plan.places().stream()
              .filter(p -> p.component().orElse(-1) == number && p.symbol() != Symbol.DRIVE)
              .toList();
      assertEquals(1, own.size(), () -> machine.components().get(number).id());
      assertEquals("components/" + machine.components().get(i).id(), own.get(0).path());
      assertTrue(plan.tags().stream().anyMatch(t -> t.place().equals(own.get(0).id())));
    }
    assertEquals(machine.pressureFilter().isPresent(), plan.place("pressureFilter").isPresent());
    assertEquals(machine.offlineFilter().isPresent(), plan.place("offlineFilter").isPresent());
    assertEquals(
        machine.returnFilter().indicatorKPa().isPresent(), plan.place("indicator").isPresent());
    assertEquals(machine.filteredShare() < 1, plan.ports().containsKey("tank.past"));
  }

  @ParameterizedTest
  @MethodSource("machines")
  void whatStandsBehindThePressureFilterGetsItsOil(Machine machine) {
    Plan plan = Draughtsman.plan(machine);
    for (Place part : plan.places()) {
      if (part.symbol() == Symbol.VALVE || part.symbol() == Symbol.LONE_VALVE) {
        Line feed =
            plan.lines().stream()
                .filter(l -> l.to().equals(part.id() + ".p"))
                .findFirst()
                .orElseThrow();
        boolean behind =
            machine.components().get(part.component().orElseThrow()).behindPressureFilter();
        assertEquals(behind ? Carried.BEHIND_PRESSURE_FILTER : Carried.TANK_OIL, feed.carried());
      }
    }
  }

  @Test
  void pointsOfALineLieOnIt() {
    Line line =
        new Line(
            Carried.TANK_OIL,
            "a",
            "b",
            List.of(new Spot(0, 0), new Spot(10, 0), new Spot(10, 20)),
            1);
    assertEquals(30, line.length());
    assertEquals(new Spot(4, 0), line.at(4, 0));
    assertEquals(new Spot(10, 5), line.at(15, 0));
    assertEquals(new Spot(4, 2), line.at(4, 2), "to the right of the flow");
    assertEquals(new Spot(8, 5), line.at(15, 2));
  }

  private static boolean isTank(Place part) {
    return part.id().equals("tank");
  }
}
