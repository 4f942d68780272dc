package siltwright.model.json;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.EnumSet;
import java.util.List;
import java.util.Set;
import java.util.function.Function;
import java.util.stream.Collectors;
import org.junit.jupiter.api.Test;
import siltwright.model.Fleet;
import siltwright.model.Housing;
import siltwright.model.Machine;

/** The demo fleet is a file that a user may copy: it must read as it stands. */
class DemoFleetTest {
  private static final Path FILE = Path.of("..", "..", "demo-data", "three-pits.json");

  private final FleetFile file = FleetReader.read(FILE);
  private final Fleet fleet = file.fleet();

  @Test
  void readsWithoutAProblem() {
    assertEquals(List.of(), file.problems());
    assertEquals(12, fleet.machines().size());
  }

  @Test
  void schemaAcceptsIt() throws IOException {
    assertEquals(Set.of(), FleetSchemas.errors(FleetSamples.tree(Files.readString(FILE))));
  }

  @Test
  void saysThatItIsInvented() {
    assertTrue(fleet.name().contains("(invented)"), fleet.name());
    assertTrue(fleet.note().startsWith("Invented"), fleet.note());
    fleet.sites().forEach(site -> assertTrue(site.name().endsWith("(invented)"), site.name()));
  }

  @Test
  void coversClassesSitesAndHousings() {
    assertEquals(4, distinct(Machine::machineClass).size());
    assertEquals(3, distinct(Machine::site).size());
    assertEquals(EnumSet.allOf(Housing.class), distinct(m -> m.returnFilter().housing()));
  }

  /** A right way, a careful unsealed one and the shortcut, with dirt released in that order. */
  @Test
  void everyMachineHasThreeProceduresToCompare() {
    for (Machine machine : fleet.machines()) {
      List<Double> released =
          machine.procedures().stream().map(procedure -> procedure.backFlushShare()).toList();
      assertEquals(3, released.size(), machine.id());
      assertEquals(released.stream().sorted().toList(), released, machine.id());
      assertEquals("pull-in-place", machine.procedures().get(2).id(), machine.id());
    }
  }

  private <T> Set<T> distinct(Function<Machine, T> part) {
    return fleet.machines().stream().map(part).collect(Collectors.toSet());
  }
}
