package siltwright.contamination.internal;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Set;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import siltwright.analysis.Cell;
import siltwright.analysis.Context;
import siltwright.analysis.Entry;
import siltwright.analysis.Figure;
import siltwright.analysis.Finding;
import siltwright.analysis.Layer;
import siltwright.analysis.Progress;
import siltwright.analysis.Result;
import siltwright.analysis.Values;
import siltwright.contamination.Simulation;
import siltwright.contamination.TestFleet;
import siltwright.model.InputException;
import siltwright.model.Machine;

class SimulateAnalysisTest {
  private final SimulateAnalysis analysis = new SimulateAnalysis();

  private Result run(String machine, Map<String, String> options) {
    return analysis.run(
        Context.of(TestFleet.fleet(), TestFleet.machine(machine)),
        Values.of(analysis.description(), options),
        Progress.NONE);
  }

  @Test
  void eachCycleHasTheWordsThatScriptsRelyOn() {
    Result result = run("EX-01", Map.of("procedure", "lift-out", "interval", "300", "cycles", "3"));
    Entry.Table cycles = table(result, "cycles");
    assertEquals(3, cycles.rows().size());
    assertTrue(number(cycles, 0, "retained_g") > 0);
    assertEquals(6, ((Cell.Numbers) cell(cycles, 0, "passing")).values().length);
    assertEquals(6, ((Cell.Numbers) cell(cycles, 0, "end_per_mL")).values().length);
    for (String byState : List.of("deltaP_kPa", "bypassShare")) {
      Cell.Named named = (Cell.Named) cell(cycles, 0, byState);
      assertEquals(Set.of("cold", "work"), named.values().keySet());
    }
    Map<String, Double> drop = ((Cell.Named) cell(cycles, 2, "deltaP_kPa")).values();
    Map<String, Double> past = ((Cell.Named) cell(cycles, 2, "bypassShare")).values();
    // b = G (p - p_crack)/Q with G = 300 L/min over 250 - 150 kPa and Q = 200 L/min when cold
    assertEquals(3 * (drop.get("cold") - 150) / 200, past.get("cold"), 1e-9);
    assertTrue(past.get("cold") > past.get("work"));
    assertEquals(Set.of("pump"), ((Cell.Named) cell(cycles, 0, "worn_h")).values().keySet());
    assertEquals(900, number(cycles, 2, "end_h"), 1e-9);
    // 860 kg/m3 and 250 of 300 L/min: the housing adds 10 kPa · (250/300)^2 to the reading.
    double work = ((Cell.Named) cell(cycles, 0, "deltaP_kPa")).values().get("work");
    assertEquals(
        work + 10 * (250.0 / 300) * (250.0 / 300), number(cycles, 0, "indicator_kPa"), 1e-9);
  }

  @Test
  void numbersByBandAreThoseOfTheEngine() {
    Entry.Table cycles = table(run("EX-02", Map.of("cycles", "2")), "cycles");
    Machine machine = TestFleet.machine("EX-02");
    Simulation.ServiceCycle second =
        Simulation.of(machine, machine.procedure("lift-out").orElseThrow())
            .run(400, 2, Progress.NONE)
            .cycles()
            .get(1);
    assertArrayEquals(
        second.passing().toArray(), ((Cell.Numbers) cell(cycles, 1, "passing")).values());
    assertArrayEquals(
        second.endPerMl().toArray(), ((Cell.Numbers) cell(cycles, 1, "end_per_mL")).values());
    assertEquals(second.retainedG(), number(cycles, 1, "retained_g"));
    assertEquals(second.releasedG(), number(cycles, 1, "released_g"));
  }

  @Test
  void leftOutOptionsAreTodaysWays() {
    Result result = run("EX-01", Map.of());
    assertEquals(Cell.of("pull-in-place"), value(result, "procedure"));
    assertEquals(Cell.of(500), value(result, "interval_h"));
    assertEquals(4, table(result, "cycles").rows().size());
  }

  @ParameterizedTest
  @CsvSource({"EX-02, pull-in-place, sealing-canister", "EX-01, by-magic, open-bowl"})
  void aProcedureThatIsNotThereOrNotAllowedIsOneClearError(
      String machine, String procedure, String housing) {
    String message =
        assertThrows(InputException.class, () -> run(machine, Map.of("procedure", procedure)))
            .getMessage();
    assertEquals(1, message.lines().count());
    assertTrue(message.startsWith("option --procedure: found " + procedure), message);
    assertTrue(message.contains(housing) && message.contains("lift-out"), message);
  }

  @ParameterizedTest
  @CsvSource({"interval, 0", "interval, NaN", "interval, 1e308", "cycles, 0", "cycles, 100000"})
  void optionsOutOfRangeAreRefused(String option, String value) {
    String message =
        assertThrows(InputException.class, () -> run("EX-01", Map.of(option, value))).getMessage();
    assertTrue(message.startsWith("option --" + option), message);
  }

  @Test
  void findingsSayWhatHappensToTheElement() {
    List<String> texts =
        run("EX-01", Map.of("interval", "700")).findings().stream().map(Finding::text).toList();
    assertTrue(texts.stream().anyMatch(t -> t.contains("cold") && t.contains("clean element")));
    assertTrue(texts.stream().anyMatch(t -> t.contains("work the bypass opens")), texts::toString);
    assertTrue(texts.stream().anyMatch(t -> t.contains("trips") && t.contains(" h after")));
    assertTrue(texts.stream().anyMatch(t -> t.contains("dirtier than the target 11/10/7")));
    assertTrue(texts.stream().anyMatch(t -> t.contains("4 to 100 µm(c)")));
  }

  @Test
  void aQuietMachineHasOnlyTheNoteOnMass() {
    List<Finding> findings = run("EX-02", Map.of()).findings();
    assertEquals(1, findings.size());
    assertEquals(Finding.Severity.NOTE, findings.get(0).severity());
  }

  @Test
  void seriesAndFiguresHaveTheSameMoments() {
    Result result = run("EX-01", Map.of("cycles", "2"));
    Entry.Table series = table(result, "series");
    assertEquals(Entry.Use.DATA, series.use());
    Figure course = result.figures().get(0);
    assertEquals(2, course.panels().size());
    for (int p = 0; p < 2; p++) {
      for (Layer layer : course.panels().get(p).layers()) {
        if (layer instanceof Layer.Line line) {
          assertEquals(series.rows().size(), line.xs().length);
          assertEquals(line.xs().length, line.ys().length);
        }
      }
    }
    // 4, 6 and 14 µm(c) are the first three cumulative counts
    double[] counts = ((Cell.Numbers) cell(series, 0, "atOrAbove_per_mL")).values();
    Layer.Line second = (Layer.Line) course.panels().get(0).layers().get(1);
    assertEquals(1200, counts[1], 1e-9);
    assertEquals(counts[1], second.ys()[0]);
    assertEquals("min", result.figures().get(1).x().unit());
  }

  @Test
  void everyNumberThatHasAUnitNamesIt() {
    List<String> names = new ArrayList<>();
    for (Entry entry : run("EX-01", Map.of()).entries()) {
      if (entry instanceof Entry.Table t) {
        t.columns().stream()
            .filter(c -> !c.unit().isEmpty() && !c.unit().equals("1"))
            .forEach(
                c -> {
                  names.add(c.name());
                  String suffix = c.unit().equals("1/mL") ? "_per_mL" : "_" + c.unit();
                  assertTrue(c.name().endsWith(suffix), c.name());
                });
      }
    }
    assertTrue(names.size() > 10);
  }

  private static Entry.Table table(Result result, String name) {
    return result.entries().stream()
        .filter(e -> e.name().equals(name))
        .map(Entry.Table.class::cast)
        .findFirst()
        .orElseThrow();
  }

  private static Cell value(Result result, String name) {
    return result.entries().stream()
        .filter(e -> e.name().equals(name))
        .map(e -> ((Entry.Value) e).cell())
        .findFirst()
        .orElseThrow();
  }

  private static Cell cell(Entry.Table table, int row, String column) {
    for (int i = 0; i < table.columns().size(); i++) {
      if (table.columns().get(i).name().equals(column)) {
        return table.rows().get(row).get(i);
      }
    }
    throw new AssertionError(column);
  }

  private static double number(Entry.Table table, int row, String column) {
    return ((Cell.Num) cell(table, row, column)).value();
  }
}
