package siltwright.fleet.internal;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.HashMap;
import java.util.List;
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
import siltwright.fleet.ReferenceCases;
import siltwright.model.InputException;

class CompareAnalysisTest {
  private static final String THREE =
      """
      machine,hours,event,entry_hours,cost,site,class,change
      A1,100,1,,10,a,x,150
      A1,200,1,,30,a,x,150
      A1,300,0,,,a,x,150
      A2,250,0,,,a,x,
      B1,150,1,50,20,b,y,
      B1,400,0,50,,b,y,
      B2,120,1,,5,b,y,
      B2,120,1,,5,b,y,
      B2,500,0,,,b,y,
      """;

  private final CompareAnalysis compare = new CompareAnalysis();

  private Result run(String csv, Map<String, String> options) {
    Values values = Values.of(compare.description(), options);
    return compare.run(
        Context.of(RecordsReader.read(csv, "t.csv", compare.columns(values)), Optional.empty()),
        values,
        Progress.NONE);
  }

  private Result selected(String csv, String selections, Map<String, String> options) {
    Map<String, String> all = new HashMap<>(options);
    all.put("selections", "s.csv");
    Values values = Values.of(compare.description(), all);
    Map<String, Records> tables =
        Map.of(
            "selections", RecordsReader.read(selections, "s.csv", Selections.PARAMETER.columns()));
    return compare.run(
        Context.of(
            RecordsReader.read(csv, "t.csv", compare.columns(values)),
            Optional.empty(),
            tables,
            List.of()),
        values,
        Progress.NONE);
  }

  private static Entry entry(Result r, String name) {
    return r.entries().stream().filter(e -> e.name().equals(name)).findFirst().orElseThrow();
  }

  private static double[] series(Result r, String name, String group, String part) {
    return ((Cell.Numbers) part(r, name, group, part)).values();
  }

  private static Cell part(Result r, String name, String group, String part) {
    Entry.Group g = (Entry.Group) entry(r, name);
    Entry.Value v =
        g.values().stream().filter(x -> x.name().equals(group)).findFirst().orElseThrow();
    return ((Cell.Parts) v.cell()).cells().get(part);
  }

  private static double value(Result r, String group, String name) {
    Entry.Group g = (Entry.Group) entry(r, group);
    return ((Cell.Num)
            g.values().stream().filter(v -> v.name().equals(name)).findFirst().orElseThrow().cell())
        .value();
  }

  private static Cell cell(Result r, String table, int row, String column) {
    Entry.Table t = (Entry.Table) entry(r, table);
    for (int c = 0; c < t.columns().size(); c++) {
      if (t.columns().get(c).name().equals(column)) {
        return t.rows().get(row).get(c);
      }
    }
    throw new AssertionError("no column " + column);
  }

  private static double number(Result r, String table, int row, String column) {
    return ((Cell.Num) cell(r, table, row, column)).value();
  }

  private static String answer(Result r) {
    return ((Cell.Text) ((Entry.Value) entry(r, "answer")).cell()).text();
  }

  /** What a reader takes in at once: two sentences and no more than ninety words and numbers. */
  private static void assertOneOrTwoSentences(Result r) {
    String text = answer(r);
    assertTrue(text.split("[.] ").length <= 2 && text.split(" ").length < 90, text);
  }

  /** By hand: at risk and increments of four machines, one of which comes late. */
  @Test
  void meansAreThoseByHand() {
    Result r = run(THREE, Map.of("by", "site"));
    assertArrayEquals(new double[] {100, 200}, series(r, "mcf", "a", "hours"));
    assertArrayEquals(new double[] {0.5, 1}, series(r, "mcf", "a", "mean"), 1e-15);
    // each time one of two: (1/2 - 1/4)² + (1/4)² after the first, (1/2)² + (1/2)² after both
    assertArrayEquals(new double[] {0.125, 0.5}, series(r, "mcf", "a", "variance"), 1e-15);
    assertArrayEquals(new double[] {120, 150}, series(r, "mcf", "b", "hours"));
    // B1 is there from 50 h on: both at risk, two events at once, then one
    assertArrayEquals(new double[] {1, 1.5}, series(r, "mcf", "b", "mean"), 1e-15);
    assertArrayEquals(new double[] {5, 15}, series(r, "costMcf", "b", "mean"), 1e-13);
    assertEquals(40.0 / 550, number(r, "costs", 0, "cost_money_per_h"), 1e-15);
    assertEquals(Math.pow(2, 1) * 1000 / 550, number(r, "groups", 0, "rate_per_1000h"), 1e-12);
  }

  /** The reference two-sample case, through the table; source in cases.json. */
  @Test
  void differencesAreThoseOfTheReference() {
    Result r =
        run(
            ReferenceCases.text("sim_two_fleets.csv"),
            Map.of("by", "fleet", "at", "4000", "records", "events"));
    assertEquals(-0.13598936185143273, number(r, "differences", 0, "difference"), 1e-9);
    assertEquals(0.7531275458151182, number(r, "differences", 0, "robustP"), 1e-9);
    assertEquals(0.4323736762713185, number(r, "differences", 0, "robustError"), 1e-9);
    // with few machines a little less sure
    assertEquals(0.76, number(r, "differences", 0, "p"), 0.01);
    assertEquals(1.03694551855454, value(r, "equalRates", "chiSquare"), 1e-6);
    assertEquals(0.219063152738741, -Math.log(number(r, "rateRatios", 0, "ratio")), 1e-7);
    assertTrue(answer(r).startsWith("These data can't tell A from B"), answer(r));
    assertTrue(answer(r).contains("more machine-hours would show it in 8 of 10 cases"), answer(r));
    assertOneOrTwoSentences(r);
  }

  /** Log-rank of the reference (R survdiff): 6-MP against placebo, chi-square 16.793. */
  @Test
  void livesHaveLogRankAndSurvival() {
    String csv = ReferenceCases.text("leukemia_6mp.csv").replaceFirst("time", "hours");
    Result r = run(csv, Map.of("by", "group"));
    assertEquals(16.79294, value(r, "logRank", "chiSquare"), 1e-5);
    assertEquals(1, value(r, "logRank", "degreesOfFreedom"));
    assertEquals(4.168809e-5, value(r, "logRank", "p"), 1e-10);
    // Kaplan-Meier of 6-MP at 6 weeks, the textbook's 0.857
    assertEquals(6, series(r, "survival", "6-MP", "hours")[0]);
    assertEquals(0.8571, series(r, "survival", "6-MP", "survival")[0], 1e-4);
    assertTrue(answer(r).contains("times as long as those of"), answer(r));
    assertOneOrTwoSentences(r);
  }

  @Test
  void eachPairHasItsOwnLogRank() {
    String csv =
        "hours,event,g\n10,1,a\n20,1,a\n30,0,a\n15,1,b\n25,1,b\n40,1,b\n12,1,c\n18,1,c\n50,0,c\n";
    Result all = run(csv, Map.of("by", "g"));
    Result two =
        run(
            csv.lines().filter(l -> !l.endsWith(",c")).reduce("", (a, b) -> a + b + "\n"),
            Map.of("by", "g"));
    assertEquals(
        value(two, "logRank", "chiSquare"),
        number(all, "differences", 0, "logRankChiSquare"),
        1e-12);
    assertEquals(value(two, "logRank", "p"), number(all, "differences", 0, "logRankP"), 1e-12);
    // Holm: three tests, the smallest counts three times
    double least = 1;
    double adjusted = 1;
    for (int i = 0; i < 3; i++) {
      least = Math.min(least, number(all, "differences", i, "logRankP"));
      adjusted = Math.min(adjusted, number(all, "differences", i, "logRankPAdjusted"));
    }
    assertEquals(Math.min(1, 3 * least), adjusted, 1e-12);
  }

  @Test
  void unsoundRowsAreRefusedAndToldOneByOne() {
    String csv =
        """
        machine,hours,event,entry_hours,site
        A,100,1,,a
        A,200,0,,a
        A,250,1,,a
        B,abc,1,,b
        B,100,2,,b
        B,50,1,60,b
        B,300,0,10,b
        C,,1,,a
        C,120,1,,c
        C,150,0,,a
        ,100,1,,a
        D,100,0,,
        E,100,0,,b
        E,200,0,50,b
        """;
    Result r = run(csv, Map.of("by", "site"));
    List<String> told = r.rows().orElseThrow().refusals().stream().map(Object::toString).toList();
    assertEquals(9, r.rows().get().refused(), told.toString());
    for (String expected :
        List.of(
            "row 4, column hours: found 250; expected an hour while the machine was watched, 0 to"
                + " 200 h",
            "row 5, column hours: found abc",
            "row 6, column event: found 2; expected 1 (an event) or 0 (the end of watching)",
            "row 7, column entry_hours: found 60; expected less than hours, 50",
            "row 9, column hours: found nothing",
            "row 10, column site: found c; expected a as in the machine's other rows",
            "row 12, column machine: found nothing",
            "row 13, column site: found nothing",
            "row 15, column hours: found 200; expected a window that does not overlap")) {
      assertTrue(told.stream().anyMatch(t -> t.contains(expected)), expected + " in " + told);
    }
  }

  @Test
  void watchingWithoutAnEndStopsAtTheLastEvent() {
    String csv = "machine,hours,event,s\nA,10,1,a\nA,40,1,a\nB,20,1,b\nB,50,1,b\nB,70,0,b\n";
    Result r = run(csv, Map.of("by", "s"));
    assertEquals(40, number(r, "groups", 0, "watched_h"));
    assertTrue(
        r.findings().stream()
            .anyMatch(f -> f.text().contains("1 machine has no row with event 0")));
    assertEquals(Cell.of("event"), part(r, "powerLaw", "a", "truncation"));
    // by hand: beta = n/sum ln(T/t) = 2/ln 4
    assertEquals(2 / Math.log(4), ((Cell.Num) part(r, "powerLaw", "a", "shape")).value(), 1e-9);
  }

  @Test
  void optionsThatDoNotFitAreRefused() {
    for (Map<String, String> options :
        List.of(
            Map.of("by", "site", "reference", "z"),
            Map.of("by", "hours"),
            Map.of("by", "site", "adjust", "site"),
            Map.of("by", "site", "target", "18/16/13"),
            Map.of("by", "site", "records", "samples"),
            Map.of("by", "site", "weight", "1"),
            Map.of("by", "site", "event-cost", "5"),
            Map.of("by", "site", "cut", "5"),
            Map.of("by", "site", "currency", "euro"),
            Map.of("by", "site", "intervention", "2026-01-31"),
            Map.of("by", "site", "records", "lives", "at", "5"))) {
      assertThrows(InputException.class, () -> run(THREE, options), options.toString());
    }
  }

  @Test
  void groupsThatDoNotOverlapAreWarnedOf() {
    Result r = run(THREE, Map.of("by", "site", "adjust", "class"));
    assertTrue(
        r.findings().stream().anyMatch(f -> f.text().contains("hardly overlap in class")),
        r.findings().toString());
    assertEquals(0, number(r, "overlap", 0, "share_pct"));
  }

  /** The groups of a selection are those that a column with the same words gives. */
  @Test
  void aSavedSelectionIsAColumn() {
    String selections = "machine,selection\nA1,trial\nA2,trial\nB1,rest\nB2,rest\nB2,rest\n";
    Result chosen = selected(THREE, selections, Map.of("by", "selection"));
    String column =
        THREE.replace("site", "selection").replace(",a,", ",trial,").replace(",b,", ",rest,");
    Result same = run(column, Map.of("by", "selection"));
    assertEquals(answer(same), answer(chosen));
    for (String table : List.of("groups", "costs", "differences", "rateRatios", "trends")) {
      assertEquals(entry(same, table), entry(chosen, table));
    }
    assertEquals(List.of(), told(chosen, "selected"));
    // a column of the records of that name does not count
    assertEquals(
        answer(same),
        answer(
            selected(THREE.replace("site", "selection"), selections, Map.of("by", "selection"))));
    Result few =
        selected(THREE, "machine,selection\nA1,x\nB2,y\nC9,y\n", Map.of("by", "selection"));
    assertEquals(1, number(few, "groups", 0, "machines"));
    assertTrue(told(few, "has no record here").get(0).contains(": C9."), few.findings().toString());
    assertTrue(
        told(few, "in no selection")
            .get(0)
            .contains("2 machines are in no selection and left out, with 3 rows: A2 and B1."),
        few.findings().toString());
  }

  @Test
  void aSelectionOfLivesAndOfSamples() {
    String lives =
        "machine,hours,event,g\nP1,10,1,a\nP2,20,1,a\nP3,30,0,a\nP4,15,1,b\nP5,25,1,b\nP6,40,1,b\n";
    String by = "machine,selection\nP1,a\nP2,a\nP3,a\nP4,b\nP5,b\nP6,b\n";
    assertEquals(
        value(run(lives, Map.of("by", "g")), "logRank", "chiSquare"),
        value(selected(lives, by, Map.of("by", "selection")), "logRank", "chiSquare"));
    String oil = "machine,hours,code\nA,0,17/15/12\nA,100,18/16/13\nB,0,16/14/11\nB,50,19/17/14\n";
    Result r =
        selected(
            oil,
            "machine,selection\nA,one\nB,two\n",
            Map.of("by", "selection", "target", "18/16/13", "clean-column", "code"));
    assertEquals(100, number(r, "groups", 0, "within_pct"), 1e-12);
    assertEquals(50, number(r, "groups", 1, "within_pct"), 1e-12);
  }

  @Test
  void selectionsThatCannotBeAreRefused() {
    Map<String, String> by = Map.of("by", "selection");
    for (String[] wrong :
        new String[][] {
          {
            "machine,selection\nA1,x\nB1,y\nA1,y\n",
            "s.csv row 4, column selection: found y; expected x, as machine A1 has in row 2: a"
                + " machine belongs to one selection"
          },
          {"machine,selection\nA1,x\n,y\n", "row 3, column machine: found nothing"},
          {"machine,selection\nA1,x\nB1,\n", "row 3, column selection: found nothing"},
          {"machine,selection\nZ1,x\nZ2,y\n", "column machine: found Z1 and Z2; expected machines"},
          {"machine,selection\nA1,x\nA2,x\n", "column selection: found only x"},
        }) {
      InputException e =
          assertThrows(InputException.class, () -> selected(THREE, wrong[0], by), wrong[1]);
      assertTrue(e.getMessage().contains(wrong[1]), e.getMessage());
    }
    InputException unused =
        assertThrows(
            InputException.class,
            () -> selected(THREE, "machine,selection\nA1,x\n", Map.of("by", "site")));
    assertTrue(
        unused.getMessage().contains("--selections: found s.csv; expected --by selection with it"),
        unused.getMessage());
    assertThrows(
        InputException.class,
        () -> selected("hours,event\n10,1\n20,1\n", "machine,selection\nA1,x\n", by));
  }

  private static List<String> told(Result r, String words) {
    return r.findings().stream().map(f -> f.text()).filter(t -> t.contains(words)).toList();
  }

  @Test
  void numbersAreCutIntoGroups() {
    String csv = "machine,hours,event,age\nA,10,1,3\nA,40,0,3\nB,20,1,7\nB,70,0,7\nC,30,0,5\n";
    Result r = run(csv, Map.of("by", "age", "cut", "5"));
    assertEquals(Cell.of("below 5"), cell(r, "groups", 0, "group"));
    assertEquals(Cell.of("from 5"), cell(r, "groups", 1, "group"));
    assertEquals(2, number(r, "groups", 1, "machines"));
  }

  /** By hand: 0 to 100 within, 100 to 300 changes, 300 to 400 not: 200 of 400 h. */
  @Test
  void hoursBetweenSamplesBelongHalfToEach() {
    String csv =
        "machine,hours,code,pit\nA,0,17/15/12,a\nA,100,18/16/13,a\nA,300,18/16/14,a\n"
            + "A,400,19/17/14,a\nB,0,16/14/11,b\nB,50,16/14/11,b\n";
    Result r = run(csv, Map.of("by", "pit", "target", "18/16/13", "clean-column", "code"));
    assertEquals(50, number(r, "groups", 0, "within_pct"), 1e-12);
    assertEquals(new Cell.Range(25, 75), cell(r, "groups", 0, "whatever_pct"));
    assertEquals(100, number(r, "groups", 1, "within_pct"), 1e-12);
  }

  @Test
  void otherPairsAreCountedInTheAnswer() {
    assertEquals("", Answer.others(1, 1));
    assertEquals("", Answer.others(6, 0));
    assertEquals(" The other pair these data can't tell apart.", Answer.others(2, 1));
    assertEquals(" The other pair differs too.", Answer.others(2, 2));
    assertEquals(" The other 5 pairs these data can't tell apart.", Answer.others(6, 1));
    assertEquals(" Of the other 5 pairs 1 differs too.", Answer.others(6, 2));
    assertEquals(" Of the other 5 pairs 3 differ too.", Answer.others(6, 4));
    assertEquals(" The other 5 pairs differ too.", Answer.others(6, 6));
  }

  @Test
  void theTruthBehindTheDemoRecordsIsWithinTheIntervals() {
    Result r =
        run(
            PitRecords.events(),
            Map.of(
                "by", "pit",
                "adjust", "class,duty",
                "reference", "Frostmarrow",
                "intervention", "breather_hours",
                "currency", "EUR"));
    Cell.Range ratio = (Cell.Range) cell(r, "rateRatios", 0, "interval");
    assertTrue(ratio.low() < PitRecords.WORSE && ratio.high() > PitRecords.WORSE);
    Cell.Range step = (Cell.Range) cell(r, "intervention", 0, "interval");
    assertTrue(step.low() < PitRecords.BREATHER && step.high() > PitRecords.BREATHER);
    Cell.Range shape = (Cell.Range) part(r, "powerLaw", "Frostmarrow", "shapeMachineInterval");
    assertTrue(shape.low() < PitRecords.SHAPE && shape.high() > PitRecords.SHAPE);
    assertTrue(answer(r).contains("EUR a year"), answer(r));
    assertOneOrTwoSentences(r);
    Entry.Group detail = (Entry.Group) entry(r, "inDetail");
    assertEquals(
        List.of("Intervention", "Dusthollow, Frostmarrow", "Loamquell, Frostmarrow"),
        detail.values().stream().map(Entry.Value::label).toList());
  }

  @Test
  void aHiddenDateGivesTheHourOfTheIntervention() {
    String csv =
        """
        machine,hours,event,date,s
        A,100,1,2024-01-11,a
        A,300,1,2024-01-31,a
        A,400,0,2024-02-10,a
        B,100,1,2024-01-11,b
        B,200,1,2024-01-21,b
        B,400,0,2024-02-10,b
        """;
    // Ten hours a day: 2024-01-21 is hour 200.
    Result r = run(csv, Map.of("by", "s", "intervention", "2024-01-21"));
    Entry.Table t = (Entry.Table) entry(r, "intervention");
    assertTrue(t.label().contains("3 events in 400 h before, 1 in 400 h after"), t.label());
  }
}
