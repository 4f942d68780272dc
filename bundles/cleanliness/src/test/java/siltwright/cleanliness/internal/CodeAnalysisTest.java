package siltwright.cleanliness.internal;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import siltwright.analysis.Cell;
import siltwright.analysis.Context;
import siltwright.analysis.Entry;
import siltwright.analysis.Progress;
import siltwright.analysis.Result;
import siltwright.analysis.Values;
import siltwright.model.InputException;

class CodeAnalysisTest {
  private final CodeAnalysis analysis = new CodeAnalysis();

  @Test
  void threeCountsGiveTheCodeAndTheRangeOfEachNumber() {
    Result result = run(Map.of("counts", "4=1950,6=420,14=61"));
    assertEquals(Cell.of("18/16/13"), value(result, "iso4406"));
    // ISO 4406, table of scale numbers, by the lubricant maker's reprint that iso4406.csv names:
    // 18 is more than 1300 up to 2500 per mL, 16 more than 320 up to 640, 13 more than 40 up to 80.
    assertEquals(
        List.of(
            List.of(num(4), num(1950), Cell.of("18"), num(1300), num(2500)),
            List.of(num(6), num(420), Cell.of("16"), num(320), num(640)),
            List.of(num(14), num(61), Cell.of("13"), num(40), num(80))),
        table(result).rows());
    assertEquals(new Cell.None(), value(result, "nas1638"));
    assertEquals(new Cell.None(), value(result, "mass_mg_per_L"));
    assertEquals(2, result.findings().size());
  }

  @Test
  void aCodeGivesTheSameRanges() {
    Result result = run(Map.of("code", "18/16/13"));
    assertEquals(Cell.of("18/16/13"), value(result, "iso4406"));
    assertEquals(List.of(num(14), Cell.of("13"), num(40), num(80)), table(result).rows().get(2));
  }

  @Test
  void allSizesGiveClassesAndMass() {
    Result result = run(Map.of("counts", "4=1800,6=430,14=52,21=9,38=1.5,70=0.2"));
    // By the limits of nas1638.csv per 100 mL: 6-14: 37800 is class 8 (up to 64000), the worst.
    assertEquals(Cell.of("8"), value(result, "nas1638"));
    assertTrue(value(result, "mass_mg_per_L") instanceof Cell.Num n && n.value() > 0);
    assertTrue(result.findings().isEmpty());
  }

  @Test
  void fewParticlesAreMarked() {
    // Worked example of the standard's reprints: 14/12/>=7 when the last place has under 20.
    Result result = run(Map.of("counts", "4=100,6=30,14=1", "counted-volume-mL", "10"));
    assertEquals(Cell.of("14/12/>=7"), value(result, "iso4406"));
    assertFalse(result.findings().isEmpty());
  }

  @ParameterizedTest
  @CsvSource(
      delimiter = ';',
      value = {
        "4=100,6=200; do not rise",
        "4=-1; SIZE=COUNT",
        "5=100; out of 4, 6, 14",
        "4=1,4=1; each size once",
        "4; SIZE=COUNT",
        "4=1,; SIZE=COUNT",
        "4=NaN; SIZE=COUNT",
        "4=1e999; is a number",
        "''; SIZE=COUNT"
      })
  void badCountsAreRefusedInOneLine(String counts, String expected) {
    String message =
        assertThrows(InputException.class, () -> run(Map.of("counts", counts))).getMessage();
    assertTrue(message.startsWith("option --counts"), message);
    assertTrue(message.contains(expected), message);
    assertEquals(1, message.lines().count());
  }

  @Test
  void exactlyOneOfCountsAndCode() {
    assertThrows(InputException.class, () -> run(Map.of()));
    assertThrows(InputException.class, () -> run(Map.of("counts", "4=1", "code", "1/1/1")));
    assertThrows(
        InputException.class, () -> run(Map.of("code", "1/1/1", "counted-volume-mL", "1")));
    assertThrows(InputException.class, () -> run(Map.of("code", "13/16/18")));
    assertThrows(InputException.class, () -> run(Map.of("code", "29/16/13")));
  }

  private Result run(Map<String, String> texts) {
    return analysis.run(Context.NONE, Values.of(analysis.description(), texts), Progress.NONE);
  }

  private static Cell num(double value) {
    return Cell.of(value);
  }

  private static Cell value(Result result, String name) {
    return result.entries().stream()
        .filter(e -> e.name().equals(name))
        .map(e -> ((Entry.Value) e).cell())
        .findFirst()
        .orElseThrow();
  }

  private static Entry.Table table(Result result) {
    return result.entries().stream()
        .filter(Entry.Table.class::isInstance)
        .map(Entry.Table.class::cast)
        .findFirst()
        .orElseThrow();
  }
}
