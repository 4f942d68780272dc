package siltwright.plan.internal;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.file.Path;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.stream.Collectors;
import org.junit.jupiter.api.Test;
import siltwright.analysis.Context;
import siltwright.analysis.Entry;
import siltwright.analysis.Finding;
import siltwright.analysis.Progress;
import siltwright.analysis.Records;
import siltwright.analysis.RecordsParameter;
import siltwright.analysis.Result;
import siltwright.analysis.Values;
import siltwright.exchange.RecordsReader;
import siltwright.model.Fleet;
import siltwright.model.InputException;
import siltwright.model.json.FleetReader;
import siltwright.plan.FleetPlan;
import siltwright.plan.PlanRequest;

class PlanAnalysisTest {
  private static final Path DEMO = Path.of("..", "..", "demo-data");
  private static final PlanAnalysis ANALYSIS = new PlanAnalysis();
  private static final Fleet FLEET = FleetReader.read(DEMO.resolve("three-pits.json")).fleet();

  private static Records table(RecordsParameter of, String text) {
    return RecordsReader.read(text, of.name() + ".csv", of.columns());
  }

  private static Values values(String... pairs) {
    Map<String, String> texts = new HashMap<>();
    for (int i = 0; i < pairs.length; i += 2) {
      texts.put(pairs[i], pairs[i + 1]);
    }
    return Values.of(ANALYSIS.description(), texts);
  }

  private static Context demo() {
    return Context.of(
        FLEET,
        Map.of(
            "meters",
            RecordsReader.read(DEMO.resolve("pit-meters.csv"), PlanRequest.METERS.columns()),
            "sites",
            RecordsReader.read(DEMO.resolve("pit-sites.csv"), PlanRequest.SITES.columns()),
            "stock",
            RecordsReader.read(DEMO.resolve("pit-elements.csv"), PlanRequest.STOCK.columns())));
  }

  private static String intervals() {
    return FLEET.machines().stream()
        .map(m -> m.id() + ",600,400,900,,2\n")
        .collect(Collectors.joining("", "machine,best_h,low_h,high_h,limit_h,costPerHour\n", ""));
  }

  private static Context with(RecordsParameter of, String text) {
    Map<String, Records> tables = new HashMap<>();
    tables.put("intervals", table(PlanRequest.INTERVALS, intervals()));
    tables.put(of.name(), table(of, text));
    return Context.of(FLEET, tables);
  }

  @Test
  void demoFleet() {
    Result result = ANALYSIS.run(demo(), values(), Progress.NONE);
    List<String> findings = result.findings().stream().map(Finding::text).toList();
    // Each put into the demo's readings on purpose.
    assertTrue(findings.stream().anyMatch(f -> f.contains("shows less than before")));
    assertTrue(findings.stream().anyMatch(f -> f.contains("24 hours a day")));
    assertTrue(findings.stream().anyMatch(f -> f.contains("frostmarrow ±3")));
    assertEquals(4, result.figures().size());
    Entry.Table due = (Entry.Table) entry(result, "due");
    assertEquals(12, due.rows().size());
  }

  private static Entry entry(Result result, String name) {
    return result.entries().stream().filter(e -> e.name().equals(name)).findFirst().orElseThrow();
  }

  /** Technicians' days hold the plan's changes, each once, and the driving that it is charged. */
  @Test
  void rosterIsThePlan() {
    FleetPlan plan = FleetPlan.of(demo(), values(), Progress.NONE);
    assertEquals(
        plan.answer().plan().changes(),
        plan.visits().stream().mapToInt(v -> v.members().size()).sum());
    assertEquals(
        plan.answer().plan().drivenH(),
        plan.visits().stream().mapToDouble(FleetPlan.Visit::driveH).sum(),
        1e-9);
    assertTrue(plan.answer().plan().money() < plan.answer().dueDates().money());
    assertEquals(
        plan.answer().plan().changes(),
        plan.parts().stream().mapToInt(FleetPlan.Part::planned).sum());
  }

  @Test
  void withoutReadingsItSaysSo() {
    Context context =
        Context.of(FLEET, Map.of("intervals", table(PlanRequest.INTERVALS, intervals())));
    Result result = ANALYSIS.run(context, values("from", "2026-03-02"), Progress.NONE);
    assertTrue(
        result.findings().stream().anyMatch(f -> f.text().startsWith("Without readings: EX-11")));
  }

  @Test
  void firstElementAndUnknownAge() {
    FleetPlan plan =
        FleetPlan.of(
            with(
                PlanRequest.METERS,
                "machine,date,meter_h\nEX-11,2026-03-01,150\nEX-12,2026-03-01,5000\n"),
            values(),
            Progress.NONE);
    assertEquals(FleetPlan.AgeKnown.FIRST_ELEMENT, plan.members().get(0).ageKnown());
    assertEquals(150, plan.members().get(0).task().start().ageH());
    assertEquals(FleetPlan.AgeKnown.UNKNOWN, plan.members().get(1).ageKnown());
  }

  @Test
  void badTablesAreRefusedByRowAndColumn() {
    refused(PlanRequest.METERS, "machine,date,meter_h\nEX-11,1.3.2026,10\n", "row 2, column date");
    refused(PlanRequest.METERS, "machine,date,meter_h\nEX-11,2026-02-30,10\n", "column date");
    refused(PlanRequest.METERS, "machine,date,meter_h\nEX-11,2026-02-03,\n", "column meter_h");
    refused(PlanRequest.METERS, "machine,date,meter_h\nEX-11,2026-02-03,-4\n", "column meter_h");
    refused(
        PlanRequest.METERS, "machine,date,meter_h,event\nEX-11,2026-02-03,4,oil\n", "column event");
    refused(PlanRequest.SITES, "site,travel_h\ndusthollow,7.5\n", "column travel_h");
    refused(PlanRequest.SITES, "site,travel_h\ndusthollow,1\ndusthollow,2\n", "row 3, column site");
    refused(
        PlanRequest.SITES,
        "site,travel_h,area,shared_h\ndusthollow,2,east,1\nloamquell,2,east,1.5\n",
        "row 3, column shared_h");
    refused(PlanRequest.SITES, "site,travel_h,shared_h\ndusthollow,2,1\n", "column shared_h");
    refused(PlanRequest.STOCK, "element,on_hand\nmat-m,1.5\n", "column on_hand");
    refused(
        PlanRequest.INTERVALS,
        "machine,best_h,low_h,high_h,costPerHour\nEX-11,500,600,700,2\n",
        "column low_h");
  }

  private static void refused(RecordsParameter of, String text, String place) {
    InputException e =
        assertThrows(
            InputException.class,
            () -> ANALYSIS.run(with(of, text), values("from", "2026-03-02"), Progress.NONE));
    assertTrue(e.getMessage().contains(place), e.getMessage());
    assertTrue(e.getMessage().startsWith(of.name() + ".csv row "), e.getMessage());
  }

  @Test
  void badOptions() {
    for (String[] bad :
        List.of(
            new String[] {"from", "soon"},
            new String[] {"closed", "xmas"},
            new String[] {"from", "2026-01-01"})) {
      InputException e =
          assertThrows(
              InputException.class, () -> ANALYSIS.run(demo(), values(bad), Progress.NONE));
      assertTrue(e.getMessage().contains("--" + bad[0]), e.getMessage());
    }
    InputException none =
        assertThrows(
            InputException.class, () -> ANALYSIS.run(Context.of(FLEET), values(), Progress.NONE));
    assertTrue(none.getMessage().contains("--from"));
    assertThrows(
        InputException.class, () -> ANALYSIS.run(demo(), values("travel", "7.5"), Progress.NONE));
    assertThrows(
        InputException.class,
        () ->
            ANALYSIS.run(
                Context.of(FLEET), values("from", "2026-03-07", "days", "2"), Progress.NONE));
  }
}
