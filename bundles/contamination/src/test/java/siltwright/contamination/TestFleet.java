package siltwright.contamination;

import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import siltwright.model.Fleet;
import siltwright.model.Machine;
import siltwright.model.json.FleetReader;

/**
 * Three invented machines: one with what a simulation meets, one with nothing extra, one with every
 * filter there is.
 */
public final class TestFleet {
  private TestFleet() {}

  /** Returns the fleet. */
  public static Fleet fleet() {
    try (InputStream in = TestFleet.class.getResourceAsStream("fleet.json")) {
      return FleetReader.read(in.readAllBytes(), "fleet.json").fleet();
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  /** Returns a machine of it. */
  public static Machine machine(String id) {
    return fleet().machines().stream().filter(m -> m.id().equals(id)).findFirst().orElseThrow();
  }
}
