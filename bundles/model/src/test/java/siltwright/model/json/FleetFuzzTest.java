package siltwright.model.json;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;

import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Optional;
import org.junit.jupiter.api.Test;
import siltwright.model.InputException;
import siltwright.model.Machine;
import siltwright.model.testing.Fuzz;
import siltwright.model.testing.Mutation;

/**
 * Whatever a fleet file holds, it is read or refused; what is read can be edited and is the same.
 */
class FleetFuzzTest {
  private static final Path RESOURCES = Path.of("src/test/resources/siltwright/model/json");

  @Test
  void anyBytesAreReadOrRefused() throws Exception {
    Fuzz.of("fleet", Mutation.TEXT, FleetFuzzTest::read)
        .with(RESOURCES.resolve("full.json"))
        .run(400);
  }

  private static Optional<String> read(Path file) throws Exception {
    FleetFile read;
    try {
      read = FleetReader.read(file);
    } catch (InputException e) {
      return Optional.of(e.getMessage());
    }
    edited(Files.readAllBytes(file), file.toString(), read);
    return read.problems().isEmpty()
        ? Optional.empty()
        : Optional.of(new InputException(read.problems()).getMessage());
  }

  /** The editor writes what it read, and an edit that changes nothing changes nothing. */
  private static void edited(byte[] bytes, String source, FleetFile read) {
    FleetText text = FleetText.of(bytes, source, Extensions.UNASKED);
    assertArrayEquals(bytes, text.bytes());
    assertEquals(plain(read), plain(new FleetFile(text.fleet(), text.problems())));
    text.fields("").forEach(f -> f.value().ifPresent(String::length));
    List<Machine> machines = read.fleet().machines();
    if (!machines.isEmpty()) {
      Machine m = machines.get(machines.size() - 1);
      String at = text.pointer(m.id()).orElseThrow();
      text.fields(at).forEach(f -> f.value().ifPresent(String::length));
      FleetText same =
          text.edited(List.of(Edit.number(at + "/reservoir/volume_L", m.reservoir().volumeL())));
      assertEquals(
          plain(read), plain(FleetReader.read(same.bytes(), source)), "after an edit of nothing");
    }
  }

  /** Some records hold arrays or lambdas, which are equal by address only. */
  private static String plain(FleetFile file) {
    return file.toString().replaceAll("@[0-9a-f]+", "");
  }
}
