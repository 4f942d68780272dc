package siltwright.batch;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertNull;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import de.siegmar.fastcsv.reader.CsvReader;
import de.siegmar.fastcsv.reader.NamedCsvRecord;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.concurrent.CancellationException;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import siltwright.analysis.Progress;
import siltwright.analysis.Result;
import siltwright.analysis.Values;
import siltwright.batch.internal.TuneManyAction;
import siltwright.interval.Best;
import siltwright.interval.Tuning;
import siltwright.model.InputException;
import siltwright.model.Machine;
import siltwright.model.json.FleetReader;
import siltwright.transfer.Row;
import siltwright.transfer.Table;

class TuneManyTest {
  private static final Path FLEET = Path.of("../../demo-data/three-pits.json");
  private static final String TABLE =
      """
      machine,like,today/interval_h,costs/downtime_money_per_h,components/pump/life/scale_h
      EX-31,EX-31,,,
      A,WL-21,750,60,12000
      B,WL-21,much,60,12000
      C,WL-99,750,60,12000
      D,WL-21,750,-60,12000
      =E,WL-21,750,60,12000
      F,WL-22,250,,
      """;

  @TempDir Path folder;
  private final TuneManyAction action = new TuneManyAction(null);

  private Result run(String table, String to, Progress progress, String... more)
      throws IOException {
    Path file = folder.resolve("table.csv");
    Files.writeString(file, table);
    Map<String, String> texts = new HashMap<>();
    texts.put("fleet", FLEET.toString());
    texts.put("to", folder.resolve(to).toString());
    texts.put("draws", "5");
    for (int i = 0; i < more.length; i += 2) {
      texts.put(more[i], more[i + 1]);
    }
    return action.run(file.toString(), Values.of(action.description(), texts), progress);
  }

  private List<NamedCsvRecord> read(String name) throws IOException {
    try (CsvReader<NamedCsvRecord> reader =
        CsvReader.builder().ofNamedCsvRecord(folder.resolve(name))) {
      return reader.stream().toList();
    }
  }

  @Test
  void rowsAreWhatTuneGives() throws IOException {
    run(TABLE, "r.csv", Progress.NONE);
    Machine machine = FleetReader.read(FLEET).fleet().machine("EX-31").orElseThrow();
    Tuning tuning = Tuning.of(machine, new Tuning.Settings(4000, 5, 1), Progress.NONE);
    Best.Interval best = tuning.recommended().orElseThrow().best().interval().orElseThrow();
    NamedCsvRecord row = read("r.csv").get(0);
    assertEquals("EX-31", row.getField("machine"));
    assertEquals(String.valueOf(best.hours()), row.getField("interval_h"));
    assertEquals(String.valueOf(best.costPerH()), row.getField("cost_per_h"));
    assertEquals(
        String.valueOf(tuning.spread().orElseThrow().bestH()[1]), row.getField("interval_p50_h"));
    assertEquals(
        String.valueOf(tuning.today().orElseThrow().split().total()),
        row.getField("today_cost_per_h"));
  }

  @Test
  void eachMachineIsARowAndABadOneTellsWhy() throws IOException {
    Result result = run(TABLE, "r.csv", Progress.NONE);
    List<NamedCsvRecord> rows = read("r.csv");
    assertEquals(
        List.of("2", "3", "4", "5", "6", "7", "8"),
        rows.stream().map(r -> r.getField("row")).toList());
    assertTrue(rows.get(2).getField("reason").startsWith("today/interval_h: found "));
    assertTrue(rows.get(3).getField("reason").startsWith("like: found WL-99; expected the id of"));
    assertTrue(rows.get(4).getField("reason").startsWith("costs/downtime_money_per_h: found -60"));
    // no spreadsheet computes it
    assertEquals("'=E", rows.get(5).getField("machine"));
    assertTrue(rows.get(5).getField("reason").startsWith("id: found "));
    assertEquals("750.0", rows.get(1).getField("today_interval_h"));
    assertEquals("", rows.get(6).getField("reason"));
    assertTrue(result.findings().get(0).text().startsWith("4 of 7 machines"));
  }

  /** However many threads and however few machines ahead, the bytes are the same. */
  @Test
  void resultsDoNotDependOnThreads() throws IOException {
    run(TABLE, "one.csv", Progress.NONE, "threads", "1", "ahead", "1");
    run(TABLE, "four.csv", Progress.NONE, "threads", "4");
    assertEquals(-1, Files.mismatch(folder.resolve("one.csv"), folder.resolve("four.csv")));
  }

  @Test
  void aRunThatWasBrokenOffIsGoneOnWith() throws IOException {
    run(TABLE, "whole.csv", Progress.NONE);
    Path part = folder.resolve("r.csv.part");
    Progress stop =
        (share, doing) -> !doing.startsWith("3 machines"); // after the third row is written
    assertThrows(
        CancellationException.class, () -> run(TABLE, "r.csv", stop, "ahead", "1", "threads", "1"));
    assertFalse(Files.exists(folder.resolve("r.csv")));
    // as a killed process leaves it
    Files.writeString(part, Files.readString(part) + "5,half a ro");

    InputException again =
        assertThrows(InputException.class, () -> run(TABLE, "r.csv", Progress.NONE));
    assertTrue(again.getMessage().contains("--resume"), again.getMessage());
    assertThrows(
        InputException.class,
        () -> run(TABLE, "r.csv", Progress.NONE, "resume", "true", "draws", "6"));
    assertThrows(
        InputException.class,
        () -> run(TABLE + "G,WL-22,,,\n", "r.csv", Progress.NONE, "resume", "true"));

    run(TABLE, "r.csv", Progress.NONE, "resume", "true");
    assertEquals(-1, Files.mismatch(folder.resolve("whole.csv"), folder.resolve("r.csv")));
    assertFalse(Files.exists(part));
  }

  /** The same rows; that others read such files is tested beside the writer. */
  @Test
  void parquetHoldsTheSame() throws IOException {
    run(TABLE, "r.csv", Progress.NONE);
    run(TABLE, "r.parquet", Progress.NONE);
    try (Table csv = Table.open(folder.resolve("r.csv"), null);
        Table parquet = Table.open(folder.resolve("r.parquet"), null)) {
      for (Row row = csv.next(); row != null; row = csv.next()) {
        Row other = parquet.next();
        for (int i = 0; i < Answer.HEADINGS.size(); i++) {
          boolean number = !Answer.TEXTS.contains(Answer.HEADINGS.get(i)) && row.line() > 1;
          assertEquals(
              number && !row.text(i).isEmpty()
                  ? Double.valueOf(row.text(i)).toString()
                  : PartFile.asGiven(row.text(i)),
              number && !other.text(i).isEmpty()
                  ? Double.valueOf(other.text(i)).toString()
                  : other.text(i));
        }
      }
      assertNull(parquet.next());
    }
    assertThrows(InputException.class, () -> run(TABLE, "r.txt", Progress.NONE));
  }

  @Test
  void headingsAreChecked() {
    for (String table :
        List.of("", "machine\nA\n", "machine,like,like\nA,B,C\n", "machine;type\nA;B\n")) {
      InputException e =
          assertThrows(InputException.class, () -> run(table, "r.csv", Progress.NONE));
      assertTrue(e.getMessage().contains("row 1"), e.getMessage());
      assertFalse(Files.exists(folder.resolve("r.csv.part")));
    }
  }

  @Test
  void aColumnThatIsNoPlaceIsTold() throws IOException {
    run("machine,like,tank/size\nA,WL-21,3\n", "r.csv", Progress.NONE);
    assertTrue(read("r.csv").get(0).getField("reason").startsWith("tank/size: expected a column"));
  }
}
