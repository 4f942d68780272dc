package siltwright.checks;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.file.Path;
import org.junit.jupiter.api.Test;
import siltwright.cleanliness.ViscosityLine;
import siltwright.contamination.Circuit;
import siltwright.model.DutyState;
import siltwright.model.Fleet;
import siltwright.model.Machine;
import siltwright.model.json.FleetReader;

class DropReadingTest {
  private static final Fleet DEMO =
      FleetReader.read(Path.of("..", "..", "demo-data", "three-pits.json")).fleet();

  /** Cross-check: the balance's own reading of a known mass leads back to that mass. */
  @Test
  void theBalancesReadingLeadsBackToItsMass() {
    int looked = 0;
    for (Machine machine : DEMO.machines()) {
      Circuit circuit = Circuit.of(machine);
      double capacity = machine.returnFilter().element().capacityG();
      for (int k = 0; k < circuit.states(); k++) {
        DutyState state = machine.duty().get(k);
        for (double share = 0.1; share < 1.2; share += 0.2) {
          double reading = circuit.readingKPa(k, share * capacity);
          DropReading d = DropReading.of(machine, reading, state.flowLPerMin(), state.oilDegC());
          if (Double.isFinite(reading) && d.massShare().isPresent()) {
            assertEquals(share, d.massShare().get(), 1e-6, machine.id() + " " + state.id());
            assertEquals(circuit.bypassShare(k, share * capacity), d.bypassShare(), 1e-9);
            looked++;
          }
        }
      }
    }
    assertTrue(looked > 200, "readings looked at: " + looked);
  }

  @Test
  void aCleanElementReadsClean() {
    for (Machine machine : DEMO.machines()) {
      for (DutyState state : machine.duty()) {
        double reading = DropReading.cleanReadingKPa(machine, state.flowLPerMin(), state.oilDegC());
        DropReading d = DropReading.of(machine, reading, state.flowLPerMin(), state.oilDegC());
        assertEquals(1, d.ratio(), 1e-9, machine.id() + " " + state.id());
        assertEquals(0, d.massShare().orElseThrow(), 1e-9);
      }
    }
  }

  /** By hand, EX-11: 26 kPa at 280 L/min and 32 mm²/s, so half the flow at 32 mm²/s makes 13. */
  @Test
  void elementIsLaminar() {
    Machine machine = DEMO.machines().get(0);
    double at32 = ViscosityLine.of(machine.fluid()).degC(32);
    assertEquals(13, DropReading.of(machine, 100, 140, at32).cleanKPa(), 1e-6);
  }
}
