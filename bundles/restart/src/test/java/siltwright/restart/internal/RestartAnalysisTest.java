package siltwright.restart.internal;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.file.Path;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.junit.jupiter.api.Test;
import siltwright.analysis.Analysis;
import siltwright.analysis.Cell;
import siltwright.analysis.Context;
import siltwright.analysis.Entry;
import siltwright.analysis.Progress;
import siltwright.analysis.Result;
import siltwright.analysis.Values;
import siltwright.exchange.RecordsReader;
import siltwright.model.Fleet;
import siltwright.model.InputException;
import siltwright.model.json.FleetReader;

class RestartAnalysisTest {
  private static final Path DEMO = Path.of("../../demo-data");

  private static Result run(Analysis analysis, String table, Map<String, String> texts) {
    Fleet fleet = FleetReader.read(DEMO.resolve("three-pits.json")).fleet();
    Values values = Values.of(analysis.description(), texts);
    return analysis.run(
        Context.of(
            RecordsReader.read(DEMO.resolve(table), analysis.columns(values)), Optional.of(fleet)),
        values,
        Progress.NONE);
  }

  private static Entry.Table table(Result r, String name) {
    return (Entry.Table)
        r.entries().stream().filter(e -> e.name().equals(name)).findFirst().orElseThrow();
  }

  /** What was invented is found: crew D2 sheds 2.5 times what its way does, nobody else more. */
  @Test
  void theCrewThatShedsIsFoundAndNoOther() {
    Result r = run(new RestartAnalysis(), "pit-samples.csv", Map.of());
    List<String> above =
        table(r, "by_crew").rows().stream()
            .filter(row -> row.get(5).equals(Cell.of("above the rest")))
            .map(row -> ((Cell.Text) row.get(0)).text())
            .toList();
    assertEquals(List.of("D2"), above);
    assertTrue(
        table(r, "by_crew").rows().stream()
            .filter(row -> ((Cell.Num) row.get(1)).value() < 5)
            .allMatch(
                row ->
                    row.get(5).equals(Cell.of("too few to say"))
                        && row.get(2) instanceof Cell.None));
  }

  @Test
  void theInventedSeriesIsReadBack() {
    Result r =
        run(new CounterAnalysis(), "pit-counter.csv", Map.of("of", "EX-12", "coincidence-nL", "3"));
    Entry.Value interval =
        (Entry.Value)
            r.entries().stream()
                .filter(e -> e.name().equals("interval90_g"))
                .findFirst()
                .orElseThrow();
    Cell.Range range = (Cell.Range) interval.cell();
    assertTrue(range.low() < 6 && 6 < range.high(), range.toString());
  }

  /** Savings are part of the cost, and years of the sums. */
  @Test
  void sumsAddUp() {
    Result r = run(new ShedCostAnalysis(), "pit-samples.csv", Map.of("draws", "400"));
    Entry.Table by = table(r, "byDepotAndYear");
    Entry.Table each = table(r, "changes");
    double changes = by.rows().stream().mapToDouble(row -> ((Cell.Num) row.get(2)).value()).sum();
    assertEquals(each.rows().size(), changes);
    // A procedure that sheds more costs more.
    List<String> dearest =
        table(r, "by_procedure").rows().stream()
            .map(row -> ((Cell.Text) row.get(0)).text())
            .toList();
    assertTrue(
        dearest.indexOf("pull-in-place") < dearest.indexOf("canister-whole"), dearest.toString());
    by.rows()
        .forEach(
            row -> assertTrue(((Cell.Num) row.get(6)).value() <= ((Cell.Num) row.get(4)).value()));
  }

  @Test
  void withoutAFleetItSaysSo() {
    RestartAnalysis analysis = new RestartAnalysis();
    Values values = Values.of(analysis.description(), Map.of());
    InputException e =
        assertThrows(
            InputException.class,
            () ->
                analysis.run(
                    Context.of(
                        RecordsReader.read(
                            DEMO.resolve("pit-samples.csv"), analysis.columns(values)),
                        Optional.empty()),
                    values,
                    Progress.NONE));
    assertTrue(e.problems().get(0).toString().contains("--fleet"));
  }
}
