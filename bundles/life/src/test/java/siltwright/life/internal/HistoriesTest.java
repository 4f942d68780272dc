package siltwright.life.internal;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.file.Path;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import siltwright.analysis.Cell;
import siltwright.analysis.Context;
import siltwright.analysis.Entry;
import siltwright.analysis.Progress;
import siltwright.analysis.Records;
import siltwright.analysis.Result;
import siltwright.analysis.Values;
import siltwright.exchange.RecordsReader;
import siltwright.life.ExposureClock;
import siltwright.model.Fleet;
import siltwright.model.InputException;
import siltwright.model.json.FleetReader;

class HistoriesTest {
  private static final Path FLEET =
      Path.of("../model/src/test/resources/siltwright/model/json/full.json");
  private static final String PUMP = "axial piston pump";
  private static final String HEAD =
      "component,from_hours,to_hours,kappa,machine,code,procedure,interval_hours\n";
  private static final String LIVES =
      "component,hours,event,entry_hours\n"
          + "a,1500,1,\nb,4000,0,1000\nc,900,1,\na,2600,1,\nb,3100,1,\n";

  private final LifeAnalysis life = new LifeAnalysis();

  private static Histories histories(String rows) {
    Optional<Fleet> fleet = Optional.of(FleetReader.read(FLEET).fleet());
    Records table = RecordsReader.read(HEAD + rows, "h.csv", Histories.COLUMNS);
    return Histories.of(table, fleet, Optional.of(PUMP));
  }

  /** By hand: 1000 h at 1 and 2000 h at 2; half of it is at the reference of 18/16/13. */
  @Test
  void piecesInAnyOrderMakeAClock() {
    ExposureClock clock =
        histories("a,1000,3000,2,,,,\na,0,1000,,EX-01,18/16/13,,\n").clocks().get("a");
    assertEquals(1000, clock.exposureH(1000), 1e-9);
    assertEquals(2000, clock.exposureH(1500), 1e-9);
    assertEquals(5000, clock.exposureH(3000), 1e-9);
  }

  /**
   * By hand: two codes dirtier are counts times 4, rounded in the standard; the exponent is 0.8.
   */
  @Test
  void dirtierOilCountsMore() {
    ExposureClock clock = histories("a,0,1000,,EX-01,20/18/15,,\n").clocks().get("a");
    assertEquals(1000 * Math.pow(4, 0.8), clock.exposureH(1000), 30);
  }

  @Test
  void aCarelessProcedureWearsMoreAndFollowsTheMachineModel() {
    Histories h =
        histories(
            "a,0,1000,,EX-01,,pull-in-place,500\na,1000,2000,,EX-01,,lift-out,500\n"
                + "b,0,1000,,EX-01,,pull-in-place,250\n");
    double pulled = h.clocks().get("a").exposureH(1000);
    double lifted = h.clocks().get("a").exposureH(2000) - pulled;
    assertTrue(pulled > 1.001 * lifted, pulled + " " + lifted);
    assertTrue(h.clocks().get("b").exposureH(1000) > pulled, "more changes, more releases");
    assertEquals(1, h.references().size());
  }

  @ParameterizedTest
  @CsvSource(
      delimiter = '|',
      value = {
        "a,0,1000,,,,,|row 2: expected one of kappa, code with machine, or procedure and",
        "a,0,1000,1,EX-01,18/16/13,,|row 2: expected one of kappa, code with machine, or",
        "a,100,1000,1,,,,|row 2, column from_hours: found 100; expected 0: the history begins",
        "a,0,1000,-1,,,,|row 2, column kappa: found -1; expected a number from",
        "a,1000,1000,1,,,,|row 2, column to_hours: found 1000; expected more than from_hours, 1000",
        ",0,1000,1,,,,|row 2, column component: found nothing; expected a value",
        "a,0,1000,,EX-77,18/16/13,,|row 2, column machine: found EX-77; expected one of EX-01",
        "a,0,1000,,EX-02,18/16/13,,|column machine: found EX-02; expected a machine with one",
        "a,0,1000,,EX-01,18,,|row 2, column code: found 18; expected a cleanliness code such as",
        "a,0,1000,,EX-01,,shake,500|row 2, column procedure: found shake; expected one of",
        "a,0,1000,,EX-01,,lift-out,|row 2, column interval_hours: found nothing; expected a value"
      })
  void everyFaultIsNamed(String row, String message) {
    InputException e = assertThrows(InputException.class, () -> histories(row + "\n"));
    assertTrue(e.getMessage().contains(message), e.getMessage());
    assertTrue(e.getMessage().startsWith("h.csv "), e.getMessage());
  }

  @Test
  void gapsAreNamed() {
    InputException e =
        assertThrows(InputException.class, () -> histories("a,0,1000,1,,,,\na,1200,2000,1,,,,\n"));
    assertEquals(
        "h.csv row 3, column from_hours: found 1200; expected 1000, where the piece before it ends",
        e.getMessage());
  }

  /** Law: at κ = 2 throughout, hours of exposure are hours times two, and so is the scale. */
  @Test
  void theFitIsOnTheExposureClock() {
    String history = "component,from_hours,to_hours,kappa\na,0,5000,2\nb,0,5000,2\nc,0,1e4,2\n";
    Map<String, String> options = Map.of("distribution", "weibull");
    Entry.Table onHours = fits(run(LIVES, options, ""));
    Entry.Table onExposure = fits(run(LIVES, options, history));
    Cell.Parts hours = (Cell.Parts) onHours.rows().get(0).get(1);
    Cell.Parts exposure = (Cell.Parts) onExposure.rows().get(0).get(1);
    assertEquals(number(hours, "shape"), number(exposure, "shape"), 1e-7);
    assertEquals(2 * number(hours, "scale"), number(exposure, "scale"), 1e-3);
  }

  @Test
  void recordsWithoutTheirHistoryAreRefused() {
    Result r =
        run(
            LIVES,
            Map.of("distribution", "weibull"),
            "component,from_hours,to_hours,kappa\na,0,2000,1\nb,0,5000,1\n");
    assertEquals(
        List.of(
            "t.csv row 4, column component: found c; expected a component of the table --history",
            "t.csv row 5, column hours: found 2600; expected at most 2000, where its history ends"),
        r.rows().orElseThrow().refusals().stream().map(Object::toString).toList());
  }

  @Test
  void cleanlinessIsNotToldTwice() {
    Map<String, String> options = new HashMap<>(Map.of("clean-column", "hours"));
    options.put("history", "h.csv");
    assertThrows(InputException.class, () -> life.columns(Values.of(life.description(), options)));
  }

  private Result run(String csv, Map<String, String> options, String history) {
    Map<String, String> all = new HashMap<>(options);
    Map<String, Records> tables = new HashMap<>();
    if (!history.isEmpty()) {
      all.put("history", "h.csv");
      tables.put("history", RecordsReader.read(history, "h.csv", Histories.COLUMNS));
    }
    Values values = Values.of(life.description(), all);
    Records records = RecordsReader.read(csv, "t.csv", life.columns(values));
    return life.run(
        Context.of(records, Optional.empty(), tables, List.of()), values, Progress.NONE);
  }

  private static Entry.Table fits(Result r) {
    return (Entry.Table)
        r.entries().stream().filter(e -> e.name().equals("fits")).findFirst().orElseThrow();
  }

  private static double number(Cell.Parts parts, String name) {
    return ((Cell.Num) parts.cells().get(name)).value();
  }
}
