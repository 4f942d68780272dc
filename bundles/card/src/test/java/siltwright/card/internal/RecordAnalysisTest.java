package siltwright.card.internal;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.junit.jupiter.api.Test;
import siltwright.analysis.Context;
import siltwright.analysis.Finding;
import siltwright.analysis.Progress;
import siltwright.analysis.Records;
import siltwright.analysis.Result;
import siltwright.analysis.Values;
import siltwright.exchange.RecordsReader;
import siltwright.model.json.FleetReader;

/** The demo table of filled cards, read as users' tables are. */
class RecordAnalysisTest {
  private static final Path DEMO = Path.of("../../demo-data");

  private static Result run(String csv) {
    RecordAnalysis analysis = new RecordAnalysis();
    Values values = Values.of(analysis.description(), Map.of());
    Records records = RecordsReader.read(csv, "cards.csv", analysis.columns(values));
    return analysis.run(
        Context.of(records, Optional.of(FleetReader.read(DEMO.resolve("three-pits.json")).fleet())),
        values,
        Progress.NONE);
  }

  @Test
  void incompleteAndContradictoryRecordsAreFindings() throws Exception {
    Result result = run(Files.readString(DEMO.resolve("filled-cards.csv")));
    assertTrue(result.entries().get(0).toString().contains("1 of 4"), result.entries().toString());
    List<String> warnings =
        result.findings().stream()
            .filter(f -> f.severity() == Finding.Severity.WARNING)
            .map(Finding::text)
            .toList();
    assertTrue(warnings.stream().anyMatch(w -> w.startsWith("Row 4: What was never shut")));
    assertTrue(warnings.stream().anyMatch(w -> w.startsWith("Row 5: The hour meter")));
    assertTrue(warnings.stream().noneMatch(w -> w.startsWith("Row 2")), warnings.toString());
    assertTrue(
        result.findings().stream()
            .anyMatch(
                f -> f.severity() == Finding.Severity.CAUTION && f.text().startsWith("Row 3")));
  }

  @Test
  void aRowThatIsNotReadableIsRefusedAndTold() throws Exception {
    String csv = Files.readString(DEMO.resolve("filled-cards.csv")).replace("4310", "many");
    Result result = run(csv);
    assertEquals(1, result.rows().orElseThrow().refused());
    assertTrue(
        result.rows().orElseThrow().refusals().get(0).toString().contains("meter_h"),
        result.rows().toString());
  }
}
