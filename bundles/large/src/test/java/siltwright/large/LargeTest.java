package siltwright.large;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import siltwright.analysis.Action;
import siltwright.analysis.Cell;
import siltwright.analysis.Entry;
import siltwright.analysis.Progress;
import siltwright.analysis.Result;
import siltwright.analysis.Values;
import siltwright.fleet.EventData;
import siltwright.fleet.MeanCumulative;
import siltwright.fleet.RateModel;
import siltwright.large.internal.CompareManyAction;
import siltwright.large.internal.LifeManyAction;
import siltwright.large.internal.SamplesManyAction;
import siltwright.life.Covariate;
import siltwright.life.LifeData;
import siltwright.life.LifeFamily;
import siltwright.life.LifeFit;
import siltwright.life.LifeFitting;
import siltwright.life.LogRank;
import siltwright.model.InputException;

/** The commands on parts against the engines that have all in one place. */
class LargeTest {
  private static final double ROUNDING = 1e-9;

  @TempDir Path folder;

  private static Result run(Action action, Path file, String... options) {
    Map<String, String> texts = new HashMap<>();
    for (int i = 0; i < options.length; i += 2) {
      texts.put(options[i], options[i + 1]);
    }
    return action.run(file.toString(), Values.of(action.description(), texts), Progress.NONE);
  }

  private static double number(Result result, String table, int row, String column) {
    Entry.Table of =
        (Entry.Table)
            result.entries().stream().filter(e -> e.name().equals(table)).findFirst().orElseThrow();
    int at = of.columns().stream().map(Entry.Column::name).toList().indexOf(column);
    return ((Cell.Num) of.rows().get(row).get(at)).value();
  }

  private static double number(Result result, String value) {
    return result.entries().stream()
        .filter(e -> e.name().equals(value))
        .map(e -> ((Cell.Num) ((Entry.Value) e).cell()).value())
        .findFirst()
        .orElseThrow();
  }

  private static String site(Object[] row) {
    return (String) row[row.length - 1];
  }

  private static LifeData lives(List<Object[]> rows) {
    LifeData.Builder data = LifeData.builder();
    for (Object[] row : rows) {
      if ((double) row[1] == 1) {
        data.failedAt((double) row[0]);
      } else {
        data.runningAt((double) row[0]);
      }
      if (row[2] != null) {
        data.enteredAt((double) row[2]);
      }
    }
    return data.build();
  }

  @Test
  void livesInPartsAreThoseInOnePlace() throws Exception {
    ManyRecords records = ManyRecords.lives(4000);
    // two files, cut elsewhere than the parts
    Files.createDirectory(folder.resolve("lives"));
    records.write(folder.resolve("lives/1.parquet"), 0, 1700);
    records.write(folder.resolve("lives/2.parquet"), 1700, 4000);
    Result result =
        run(
            new LifeManyAction(),
            folder.resolve("lives"),
            "by",
            "site",
            "law",
            "all",
            "part-rows",
            "300");
    assertEquals(4000, result.rows().orElseThrow().kept());
    int row = 0;
    for (String site : List.of("", "site-a", "site-b", "site-c")) {
      LifeData data =
          lives(records.rows.stream().filter(r -> site.isEmpty() || site(r).equals(site)).toList());
      for (LifeFamily law : LifeFamily.values()) {
        LifeFit fit = LifeFitting.fit(data, law).get();
        assertEquals(fit.scaleH(), number(result, "fits", row, "scale_h"), ROUNDING * fit.scaleH());
        assertEquals(fit.aic(), number(result, "fits", row, "aic"), ROUNDING * fit.aic());
        assertEquals(fit.failures(), number(result, "fits", row, "failures"));
        row++;
      }
    }
    LogRank whole =
        LogRank.of(
            lives(records.rows)
                .withCovariate(
                    "site", records.rows.stream().map(LargeTest::site).toArray(String[]::new)),
            "site",
            0,
            null);
    assertEquals(whole.test().chiSquare(), number(result, "alike", 3, "chiSquare"), 1e-8);
    assertTrue(number(result, "passes") <= 8, "passes " + number(result, "passes"));
  }

  @Test
  void eventsInPartsAreThoseInOnePlace() throws Exception {
    ManyRecords records = ManyRecords.events(300);
    Path file = records.write(folder.resolve("events.parquet"));
    Result result =
        run(new CompareManyAction(), file, "by", "site", "at", "1500", "part-rows", "37");
    List<String> machines = new ArrayList<>();
    List<Integer> group = new ArrayList<>();
    List<double[]> windows = new ArrayList<>();
    List<double[]> events = new ArrayList<>();
    for (Object[] row : records.rows) {
      if (!machines.contains((String) row[0])) {
        machines.add((String) row[0]);
        group.add(site(row).charAt(5) - 'a');
      }
      double m = machines.size() - 1;
      if ((double) row[2] == 1) {
        events.add(new double[] {m, (double) row[1]});
      } else {
        windows.add(new double[] {m, row[3] == null ? 0 : (double) row[3], (double) row[1]});
      }
    }
    EventData data =
        EventData.of(
            machines,
            windows.stream().mapToInt(w -> (int) w[0]).toArray(),
            windows.stream().mapToDouble(w -> w[1]).toArray(),
            windows.stream().mapToDouble(w -> w[2]).toArray(),
            events.stream().mapToInt(e -> (int) e[0]).toArray(),
            events.stream().mapToDouble(e -> e[1]).toArray(),
            null);
    for (int g = 0; g < 3; g++) {
      int of = g;
      EventData one = data.where(m -> group.get(m) == of);
      MeanCumulative mean = MeanCumulative.of(one);
      assertEquals(one.events(), number(result, "groups", g, "events"));
      assertEquals(one.hoursH(), number(result, "groups", g, "hours_h"), ROUNDING);
      assertEquals(mean.meanAt(1500), number(result, "groups", g, "mean"), ROUNDING);
      assertEquals(
          Math.sqrt(mean.varianceAt(1500)), number(result, "groups", g, "meanError"), ROUNDING);
    }
    assertEquals(
        RateModel.compare(
                data,
                new Covariate.Categorical(
                    List.of("a", "b", "c"), group.stream().mapToInt(i -> i).toArray()),
                null)
            .chiSquare(),
        number(result, "alikeChiSquare"),
        1e-7);
  }

  /** Whoever works, and on however many parts at once: the same to the last bit. */
  @Test
  void answersDoNotDependOnThreads() throws Exception {
    Path lives = ManyRecords.lives(2000).write(folder.resolve("lives.parquet"));
    Path events = ManyRecords.events(100).write(folder.resolve("events.parquet"));
    Path samples = ManyRecords.samples(2000).write(folder.resolve("samples.parquet"));
    for (int i = 0; i < 3; i++) {
      List<String> told = new ArrayList<>();
      for (String threads : List.of("1", "4")) {
        Result result =
            switch (i) {
              case 0 ->
                  run(
                      new LifeManyAction(),
                      lives,
                      "by",
                      "site",
                      "threads",
                      threads,
                      "part-rows",
                      "99");
              case 1 ->
                  run(
                      new CompareManyAction(),
                      events,
                      "by",
                      "site",
                      "threads",
                      threads,
                      "part-rows",
                      "99");
              default ->
                  run(
                      new SamplesManyAction(),
                      samples,
                      "target",
                      "18/16/13",
                      "threads",
                      threads,
                      "part-rows",
                      "99");
            };
        told.add(result.entries().toString());
      }
      assertEquals(told.get(0), told.get(1));
    }
  }

  @Test
  void samplesAreSummedUp() throws Exception {
    ManyRecords records = ManyRecords.samples(1200);
    Path file = records.write(folder.resolve("samples.parquet"));
    Result result =
        run(new SamplesManyAction(), file, "by", "site", "target", "18/16/13", "part-rows", "100");
    double logs = 0;
    int n = 0;
    for (Object[] row : records.rows) {
      if (site(row).equals("site-b")) {
        // the sizes that a code names, at the middle of their numbers: 1300 to 2500 per mL is 18
        logs += Math.log(row[2] == null ? Math.sqrt(1300.0 * 2500) : (double) row[2]);
        n++;
      }
    }
    assertEquals(n, number(result, "counts", 3, "samples"));
    assertEquals(Math.exp(logs / n), number(result, "counts", 3, "mean_per_mL"), 1e-6 * 1e3);
    assertTrue(number(result, "within", 1, "within_pct") > 10);
  }

  @Test
  void rowsAtFaultAreNamedAndLeftOut() throws Exception {
    ManyRecords records = ManyRecords.lives(100);
    records.rows.get(57)[0] = -5.0;
    records.rows.get(58)[1] = 2.0;
    Path file = records.write(folder.resolve("lives.parquet"));
    Result result = run(new LifeManyAction(), file, "part-rows", "10");
    assertEquals(2, result.rows().orElseThrow().refused());
    String line = result.rows().orElseThrow().refusals().get(0).toString();
    assertTrue(line.contains("row 58, column hours: found -5.0; expected a number above 0"), line);
  }

  @Test
  void whatIsNoSuchTableIsRefused() throws Exception {
    Path lives = ManyRecords.lives(10).write(folder.resolve("lives.parquet"));
    refused(() -> run(new LifeManyAction(), lives, "by", "pit"), "no column pit");
    refused(() -> run(new LifeManyAction(), folder.resolve("no")), "no such file");
    refused(() -> run(new CompareManyAction(), lives, "by", "site"), "no column machine");
    refused(() -> run(new SamplesManyAction(), lives, "target", "a"), "--target");
    refused(() -> run(new LifeManyAction(), lives, "on", "elsewhere"), "--on");
    refused(() -> run(new LifeManyAction(), lives, "on", "spark://127.0.0.1:7077"), "option --kit");
    ManyRecords events = ManyRecords.events(5);
    events.rows.add(new Object[] {"M0", 9000.0, 0.0, 8000.0, null, "site-a"});
    Path apart = events.write(folder.resolve("events.parquet"));
    refused(() -> run(new CompareManyAction(), apart, "by", "site"), "whose rows are apart");
  }

  private static void refused(org.junit.jupiter.api.function.Executable run, String told) {
    String message = assertThrows(InputException.class, run).getMessage();
    assertTrue(message.contains(told), message);
  }
}
