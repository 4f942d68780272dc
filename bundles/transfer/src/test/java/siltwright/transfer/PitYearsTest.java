package siltwright.transfer;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Clock;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import siltwright.analysis.Progress;
import siltwright.model.Problem;
import siltwright.model.history.FleetHistory;
import siltwright.model.history.MeterMend;
import siltwright.model.history.OilSample;
import siltwright.model.history.RecordKind;
import siltwright.store.Store;

/** The invented years are in the repository as they were invented, and come in as what they are. */
class PitYearsTest {
  private static final List<String> IDS =
      List.of(
          "EX-11", "EX-12", "EX-13", "EX-31", "WL-21", "WL-22", "WL-32", "HT-14", "HT-15", "HT-33",
          "DR-16", "DR-23");

  @TempDir Path folder;

  @Test
  void theFilesAreWhatThisInvents() throws Exception {
    Map<String, byte[]> files = PitYearsFiles.all();
    if (Boolean.getBoolean("siltwright.write")) { // to make them anew
      Files.createDirectories(PitYearsFiles.FOLDER);
      for (Map.Entry<String, byte[]> f : files.entrySet()) {
        Files.write(PitYearsFiles.FOLDER.resolve(f.getKey()), f.getValue());
      }
    }
    for (Map.Entry<String, byte[]> f : files.entrySet()) {
      assertArrayEquals(
          f.getValue(), Files.readAllBytes(PitYearsFiles.FOLDER.resolve(f.getKey())), f.getKey());
    }
  }

  private ImportReport bring(Bench bench, String name) throws Exception {
    Path file = Files.copy(PitYearsFiles.FOLDER.resolve(name), folder.resolve(name));
    ImportOptions options = new ImportOptions(Wishes.NONE, "ann", false, "", "", Optional.empty());
    try (Store store = Store.open(bench.where(), Clock.systemUTC())) {
      return new Importer(file, options).run(store, Progress.NONE);
    }
  }

  private void check(Bench bench, String name, long added, long known, String... reasons)
      throws Exception {
    ImportReport report = bring(bench, name);
    List<String> told = new ArrayList<>();
    for (Problem p : report.problems()) {
      told.add(p.place() + ": " + p.value());
    }
    assertEquals(List.of(reasons), told, name);
    assertEquals(added, report.added(), name);
    assertTrue(IDS.containsAll(report.touched()), name + report.touched());
    assertEquals(known, report.known(), name);
    assertEquals(added + known + reasons.length, report.rows(), name);
    assertEquals(
        reasons.length > 0,
        Files.exists(folder.resolve(name.replaceFirst("\\.\\w+$", ".refused.csv"))));
  }

  @Test
  void fiveYearsComeInAndWhatIsRefusedIsSaid() throws Exception {
    PitYears truth = new PitYears(2025);
    Bench bench = new Bench(folder);
    bench.bring(PitYears.FLEET);
    check(bench, "machines.csv", 12, 0);
    check(
        bench,
        "dusthollow-meters.csv",
        360,
        12,
        "row 376, column date: 31.02.2022",
        "row 377, column machine: EX 19",
        "row 378, column meter_h: Zähler defekt",
        "row 379, column meter_h: 12.5");
    check(
        bench,
        "frostmarrow-meters.csv",
        180,
        0,
        "row 182, column date: 13/14/2023",
        "row 183, column meter_h: -5 h");
    check(bench, "loamquell-meters.csv", 180, 0, "row 182, column meter_h: nothing");
    check(
        bench,
        "dusthollow-changes.csv",
        205,
        0,
        "row 7, column drop_kPa: 124 bar",
        "row 38, column drop_kPa: 109 bar",
        "row 63, column drop_kPa: 204 bar",
        "row 106, column drop_kPa: 124 bar",
        "row 161, column drop_kPa: 116 bar",
        "row 197, column drop_kPa: 271 bar");
    check(bench, "frostmarrow-changes.csv", 73, 0);
    check(bench, "loamquell-changes.csv", 83, 0);
    check(bench, "drops.csv", 371, 0);
    check(
        bench,
        "laboratory.csv",
        285,
        1,
        "row 293, column machine: nothing",
        "row 294, column machine: SN99999",
        "row 292, column count4_per_mL: 1.0");
    check(bench, "laboratory-2023.csv", 70, 0);
    check(bench, "components.csv", 16, 0);
    check(bench, "telematics.xml", 4, 0);

    try (FleetHistory history = Store.read(bench.where())) {
      List<String> mended = new ArrayList<>();
      for (PitYears.Year y : truth.machines) {
        String id = y.machine().id();
        history.mends(id).forEach(m -> mended.add(id + " " + m.taken()));
        assertEquals(y.samples().size(), history.count(RecordKind.SAMPLE, id), id);
        assertEquals(y.drops().size(), history.count(RecordKind.DROP, id), id);
        assertEquals(y.renewals().size(), history.count(RecordKind.REPLACEMENT, id), id);
        goesOn(history, y);
        counts(history, y);
      }
      assertEquals(
          List.of(
              "EX-13 " + MeterMend.Taken.REPLACED,
              "WL-32 " + MeterMend.Taken.MISREAD,
              "DR-16 " + MeterMend.Taken.MISREAD),
          mended);
    }
  }

  /** The hours of the machine are those that it ran, whatever its meters showed. */
  private static void goesOn(FleetHistory history, PitYears.Year y) {
    List<double[]> seen = new ArrayList<>();
    history.readings(
        y.machine().id(),
        r ->
            seen.add(
                new double[] {
                  (r.moment().at().toEpochMilli() / 86_400_000.0) - PitYears.FIRST.toEpochDay(),
                  r.moment().hoursH()
                }));
    for (double[] at : seen) {
      if (!Double.isNaN(at[1])) {
        // a day; and two weeks in which nobody read EX-13's old meter before it was replaced
        double error = y.machine().id().equals("EX-13") ? 14 * 10 : 22;
        assertEquals(y.firstMeterH() + y.hoursAt((int) at[0]), at[1], error, y.machine().id());
      }
    }
    assertTrue(seen.size() >= 60);
  }

  /** Counts are per mL, whichever laboratory gave them in whichever unit. */
  private static void counts(FleetHistory history, PitYears.Year y) {
    List<OilSample> read = new ArrayList<>();
    history.samples(y.machine().id(), read::add);
    for (int i = 0; i < read.size(); i++) {
      double truth = y.samples().get(i).countsPerMl()[0];
      assertEquals(truth, read.get(i).countsPerMl()[0], 0.06, y.machine().id() + " sample " + i);
    }
  }
}
