package siltwright.element.internal;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import org.junit.jupiter.api.Test;
import siltwright.analysis.Cell;
import siltwright.analysis.Context;
import siltwright.analysis.Entry;
import siltwright.analysis.Progress;
import siltwright.analysis.Records;
import siltwright.analysis.Result;
import siltwright.analysis.Values;
import siltwright.exchange.RecordsReader;
import siltwright.model.InputException;

class ElementAnalysisTest {
  private final ElementAnalysis element = new ElementAnalysis();

  private static String log(int rows, double capacity, boolean feed) {
    StringBuilder text = new StringBuilder("time,deltaP_kPa" + (feed ? ",feed" : "") + "\n");
    for (int t = 1; t <= rows; t++) {
      double p = 20 * Math.pow(1 + 0.2 * 0.004 / capacity * 2 * t, 5);
      text.append(String.format(Locale.ROOT, "%d,%.3f%s\n", t, p, feed ? ",2" : ""));
    }
    return text.toString();
  }

  private Result run(String csv, Map<String, String> options, List<String> others) {
    Map<String, String> texts = new HashMap<>(options);
    texts.putIfAbsent("limit-kPa", "100");
    Values values = Values.of(ElementAnalysis.DESCRIPTION, texts);
    List<Records> tables = new ArrayList<>();
    for (String other : others) {
      tables.add(
          RecordsReader.read(other, "run-" + tables.size() + ".csv", element.columns(values)));
    }
    Records records = RecordsReader.read(csv, "run-99.csv", element.columns(values));
    return element.run(
        Context.of(records, Optional.empty(), Map.of(), tables), values, Progress.NONE);
  }

  private static double number(Result r, String name) {
    return ((Cell.Num) value(r, name).cell()).value();
  }

  private static Entry.Value value(Result r, String name) {
    return (Entry.Value)
        r.entries().stream().filter(e -> e.name().equals(name)).findFirst().orElseThrow();
  }

  /** By hand: 100/20 is reached at m = (5^0.2 - 1)/(0.2 k), k = 0.004, feed 2. */
  @Test
  void theFixedWordsHoldTheForecast() {
    Result r = run(log(100, 1, true), Map.of("time-unit", "s"), List.of());
    double truth = (Math.pow(5, 0.2) - 1) / (0.2 * 0.004) / 2 - 100;
    assertEquals(truth, number(r, "remaining"), 0.1 * truth);
    assertEquals("s", value(r, "remaining").unit());
    assertEquals(0.8, number(r, "blockingExponent"), 0.15);
    Cell.Range range = (Cell.Range) value(r, "interval90").cell();
    assertTrue(range.low() < truth && truth < range.high());
  }

  @Test
  void halfTheFeedToComeTakesTwiceTheTime() {
    double now = number(run(log(100, 1, true), Map.of(), List.of()), "remaining");
    double half =
        number(run(log(100, 1, true), Map.of("future-feed", "1"), List.of()), "remaining");
    assertEquals(2 * now, half, 1e-9 * now);
  }

  @Test
  void spreadOfTheDutyWidensTheInterval() {
    Cell.Range sure =
        (Cell.Range) value(run(log(100, 1, false), Map.of(), List.of()), "interval90").cell();
    Cell.Range unsure =
        (Cell.Range)
            value(run(log(100, 1, false), Map.of("future-factor", "2"), List.of()), "interval90")
                .cell();
    assertTrue(unsure.low() < sure.low() && unsure.high() > sure.high());
  }

  @Test
  void earlierLogsMakeItSurer() {
    List<String> others = new ArrayList<>();
    for (int i = 0; i < 12; i++) {
      others.add(log(400, 0.9 + 0.02 * i, true));
    }
    Result alone = run(log(100, 1, true), Map.of(), List.of());
    Result taught = run(log(100, 1, true), Map.of(), others);
    assertEquals(12, number(taught, "earlierRuns"));
    Cell.Range wide = (Cell.Range) value(alone, "interval90").cell();
    Cell.Range narrow = (Cell.Range) value(taught, "interval90").cell();
    assertTrue(narrow.high() - narrow.low() < 0.5 * (wide.high() - wide.low()));
  }

  @Test
  void aReachedLimitLeavesNothing() {
    Result r = run(log(400, 1, true), Map.of(), List.of());
    assertEquals(0, number(r, "remaining"));
    assertTrue(r.findings().get(0).text().contains("limit is reached"));
  }

  @Test
  void rowsAtFaultAreNamed() {
    Result r = run(log(100, 1, false) + "100,50\n,50\n103,\n101,60\n", Map.of(), List.of());
    assertEquals(3, r.rows().orElseThrow().refused());
    assertTrue(
        r.rows().get().refusals().get(0).toString().contains("row 102, column time"),
        r.rows().get().refusals().toString());
    assertThrows(InputException.class, () -> run("time,deltaP_kPa\n1,2\n", Map.of(), List.of()));
  }
}
