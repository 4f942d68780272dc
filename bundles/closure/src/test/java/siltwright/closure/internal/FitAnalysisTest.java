package siltwright.closure.internal;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Map;
import java.util.Optional;
import org.junit.jupiter.api.Test;
import siltwright.analysis.Context;
import siltwright.analysis.Progress;
import siltwright.analysis.Records;
import siltwright.analysis.Result;
import siltwright.analysis.Values;
import siltwright.exchange.RecordsReader;
import siltwright.model.Distribution;
import siltwright.model.Fleet;
import siltwright.model.InputException;
import siltwright.model.Machine;
import siltwright.model.Uncertainty;
import siltwright.model.json.FleetReader;
import siltwright.model.json.FleetRevision;

class FitAnalysisTest {
  private static final Path DEMO = Path.of("../../demo-data");
  private static final Path FLEET = DEMO.resolve("three-pits.json");

  private final FitAnalysis fit = new FitAnalysis();

  private Result run(String text, Map<String, String> texts) {
    Values values = Values.of(fit.description(), texts);
    Records records = RecordsReader.read(text, "records.csv", fit.columns(values));
    Optional<Fleet> fleet =
        texts.isEmpty() ? Optional.empty() : Optional.of(FleetReader.read(FLEET).fleet());
    return fit.run(Context.of(records, fleet), values, Progress.NONE);
  }

  private static String two() throws IOException {
    StringBuilder text = new StringBuilder();
    for (String line : Files.readAllLines(DEMO.resolve("pit-samples.csv"))) {
      if (line.startsWith("machine,") || line.startsWith("WL-")) {
        text.append(line).append('\n');
      }
    }
    return text.toString();
  }

  /** What is written is read back as what was found, jointly. */
  @Test
  void theFleetFileTakesTheDistributions() throws IOException {
    Result r = run(two(), Map.of("into", FLEET.toString()));
    assertEquals(2, r.revisions().size());
    byte[] now = FleetRevision.revised(Files.readAllBytes(FLEET), FLEET.toString(), r.revisions());
    Machine m = FleetReader.read(now, "f").fleet().machine("WL-22").orElseThrow();
    r.revisions().stream()
        .filter(v -> v.machine().equals("WL-22"))
        .flatMap(v -> v.numbers().stream())
        .forEach(
            v -> assertEquals(v.value(), v.parameter().get(m).orElseThrow(), 1e-6 * v.value()));
    Uncertainty joint =
        m.uncertainty().stream()
            .filter(u -> u.distribution() instanceof Distribution.JointLogNormal)
            .findFirst()
            .orElseThrow();
    assertEquals(3, joint.parameters().size());
  }

  @Test
  void onlyIntoRevises() throws IOException {
    Result r = run(two(), Map.of("fleet", FLEET.toString()));
    assertTrue(r.revisions().isEmpty());
    assertTrue(
        r.findings().stream().anyMatch(f -> f.text().contains("works as β10")),
        r.findings().toString());
  }

  @Test
  void machinesThatNobodyKnowsAreNamed() throws IOException {
    Result r = run(two() + "ZZ-1,10,,,,500,90,5,,,,,,,,,,,\n", Map.of("fleet", FLEET.toString()));
    assertTrue(r.findings().stream().anyMatch(f -> f.text().contains("ZZ-1")));
    assertThrows(
        InputException.class,
        () -> run("machine,hours,count4_per_mL\nZZ-1,10,500\n", Map.of("fleet", "f")));
    assertThrows(InputException.class, () -> run(two(), Map.of()));
  }
}
