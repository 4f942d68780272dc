package siltwright.transfer;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;
import static org.junit.jupiter.api.Assumptions.assumeTrue;

import java.io.IOException;
import java.nio.charset.Charset;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Clock;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.concurrent.CancellationException;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import siltwright.analysis.Progress;
import siltwright.model.InputException;
import siltwright.model.history.DropReading;
import siltwright.model.history.FleetHistory;
import siltwright.model.history.MeterReading;
import siltwright.model.history.OilSample;
import siltwright.model.history.RecordKind;
import siltwright.store.Store;

/** Tables as people write them come in as what they mean; expectations are by hand. */
class ImportTest {
  private static final Wishes NONE = Wishes.NONE;

  @TempDir Path folder;

  private String where() {
    return folder.resolve("fleet.db").toString();
  }

  private Path file(String name, String text) {
    return file(name, text.getBytes(StandardCharsets.UTF_8));
  }

  private Path file(String name, byte[] bytes) {
    try {
      return Files.write(folder.resolve(name), bytes);
    } catch (IOException e) {
      throw new java.io.UncheckedIOException(e);
    }
  }

  private static ImportOptions options(Wishes wishes) {
    return new ImportOptions(wishes, "ann", true, "", "", Optional.empty());
  }

  private ImportReport bring(Path file, Wishes wishes) {
    return bring(file, options(wishes));
  }

  private ImportReport bring(Path file, ImportOptions options) {
    try (Store store = Store.open(where(), Clock.systemUTC())) {
      return new Importer(file, options).run(store, Progress.NONE);
    }
  }

  private String refused(Path file, Wishes wishes) {
    return assertThrows(InputException.class, () -> bring(file, wishes)).getMessage();
  }

  private List<OilSample> samples(String machine) {
    List<OilSample> all = new ArrayList<>();
    try (FleetHistory history = Store.read(where())) {
      history.samples(machine, all::add);
    }
    return all;
  }

  static Wishes wish(String kind, String dates, String zone, String... columns) {
    return new Wishes(kind, "", "", "", "", dates, zone, "", "auto", "", List.of(columns));
  }

  @Test
  void aPlainTableComesIn() {
    ImportReport report =
        bring(
            file(
                "a.csv",
                "machine,date,sample_no,meter_h,count4_per_mL,code\n"
                    + "EX-1,2024-03-01 06:30,L1,1200.5,5200,19/17/14\n"
                    + "EX-1,2024-04-01,L2,1400,6100,20/17/14\n"),
            NONE);
    assertEquals("sample", report.kind());
    assertEquals(2, report.added());
    List<OilSample> samples = samples("EX-1");
    assertEquals("2024-03-01T06:30:00Z", samples.get(0).moment().at().toString());
    assertFalse(samples.get(0).moment().wholeDay());
    assertEquals("2024-04-01T12:00:00Z", samples.get(1).moment().at().toString());
    assertTrue(samples.get(1).moment().wholeDay());
    assertEquals(1200.5, samples.get(0).moment().meterH());
    assertEquals(5200, samples.get(0).countsPerMl()[0]);
    assertEquals("19/17/14", samples.get(0).code());
  }

  @Test
  void aMessyTableComesInTheSame() {
    // preamble, units row, windows-1252, semicolons, decimal comma, day first, n/a, < and blanks
    String text =
        "Labor Südhang;;;;;;\r\n"
            + "Ölproben 2024;;;;;;\r\n"
            + "\r\n"
            + "Maschine;Probenahme;Proben-Nr.;Betriebsstunden;>4 µm(c);Wasser;Viskosität 40\r\n"
            + ";;;h;/mL;%;cSt\r\n"
            + "EX-1;31.03.2024;L-1;1.200,5;5200;0,02;44,1\r\n"
            + "ex 1;05.04.2024;L-2;1.400;n/a;<0,01;43,9\r\n"
            + ";;;;;;\r\n";
    try (Store store = Store.open(where(), Clock.systemUTC())) {
      store.act("ann", "add", "EX-1", e -> e.set("EX-1", null, null, null, null));
    }
    ImportReport report =
        bring(file("b.csv", text.getBytes(Charset.forName("windows-1252"))), NONE);
    assertEquals(2, report.added(), report.problems().toString());
    assertEquals(0, report.refused());
    List<OilSample> samples = samples("EX-1");
    assertEquals("2024-03-31T12:00:00Z", samples.get(0).moment().at().toString());
    assertEquals(1200.5, samples.get(0).moment().meterH());
    assertEquals(200, samples.get(0).waterPpm(), 1e-9);
    assertEquals(44.1, samples.get(0).viscosity40Mm2PerS());
    assertEquals(1400, samples.get(1).moment().meterH());
    assertTrue(Double.isNaN(samples.get(1).countsPerMl()[0]));
    assertEquals(100, samples.get(1).waterPpm(), 1e-9);
    assertTrue(report.notes().stream().anyMatch(n -> n.contains("below a limit")));
  }

  @Test
  void dialectsOfOneTableGiveOneStore() {
    String[] heads = {"Unit", "Date", "Meter (h)", "Δp (bar)", "Oil temp (°F)"};
    String[][] rows = {
      {"DR-16", "2023-11-30", "5310.5", "1.25", "122"},
      {"DR-16", "2023-12-13", "5400", "2", "131"}
    };
    List<List<Double>> results = new ArrayList<>();
    int n = 0;
    for (String encoding : List.of("UTF-8", "UTF-16LE")) {
      for (String delimiter : List.of(",", ";", "\t", "|")) {
        for (boolean comma : new boolean[] {false, true}) {
          for (DateOrder order : DateOrder.values()) {
            StringBuilder text = new StringBuilder(encoding.equals("UTF-8") ? "" : "\uFEFF");
            text.append(String.join(delimiter, heads)).append("\r\n");
            for (String[] row : rows) {
              for (int c = 0; c < row.length; c++) {
                String cell = row[c];
                if (c == 1) {
                  String[] d = cell.split("-");
                  cell =
                      switch (order) {
                        case YEAR_FIRST -> cell;
                        case DAY_FIRST -> d[2] + "." + d[1] + "." + d[0];
                        case MONTH_FIRST -> d[1] + "/" + d[2] + "/" + d[0];
                      };
                } else if (comma && c > 1) {
                  cell = cell.replace('.', ',');
                }
                text.append(c == 0 ? "" : delimiter)
                    .append(cell.contains(delimiter) ? '"' + cell + '"' : cell);
              }
              text.append("\r\n");
            }
            Path file = file("d" + n + ".csv", text.toString().getBytes(Charset.forName(encoding)));
            String store = folder.resolve("d" + n++ + ".db").toString();
            try (Store s = Store.open(store, Clock.systemUTC())) {
              ImportReport r = new Importer(file, options(NONE)).run(s, Progress.NONE);
              assertEquals("drop", r.kind());
              assertEquals(2, r.added(), text + r.problems().toString());
            }
            List<Double> numbers = new ArrayList<>();
            try (FleetHistory history = Store.read(store)) {
              history.drops(
                  "DR-16",
                  (DropReading d) -> {
                    numbers.add((double) d.moment().at().toEpochMilli());
                    numbers.add(d.moment().meterH());
                    numbers.add(d.dropKPa());
                    numbers.add((double) Math.round(d.oilDegC() * 1e9) / 1e9);
                  });
            }
            results.add(numbers);
          }
        }
      }
    }
    assertEquals(48, results.size());
    for (List<Double> r : results) {
      assertEquals(results.get(0), r);
    }
    assertEquals(List.of(5310.5, 125.0, 50.0), results.get(0).subList(1, 4));
  }

  @Test
  void twiceBroughtInNothingIsDoubled() {
    Path file = file("m.csv", "machine,date,meter_h\nEX-1,2024-01-01,10\nEX-1,2024-01-02,20\n");
    assertEquals(2, bring(file, NONE).added());
    ImportReport again = bring(file, NONE);
    assertEquals(0, again.added());
    assertEquals(2, again.known());
    assertEquals(0, again.refused());
  }

  @Test
  void refusedRowsGoToAFileWithTheReasonAndTheRestIsIn() throws Exception {
    ImportReport report =
        bring(
            file(
                "r.csv",
                "machine,date,drop_kPa\n"
                    + "EX-1,2024-01-01,120\n"
                    + "EX-1,yesterday,120\n"
                    + "EX-1,2024-01-03,many\n"
                    + "EX-1,2024-01-04,-5\n"
                    + ",2024-01-05,5\n"
                    + "EX-1,2024-01-06,\n"
                    + "EX-1,2024-01-01,121\n"
                    + "\"=HYPERLINK(1)\",2024-13-07,4\n"),
            NONE);
    assertEquals(1, report.added());
    assertEquals(7, report.refused());
    String text = Files.readString(Path.of(report.refusedFile()));
    assertEquals(8, text.lines().count());
    assertTrue(text.contains("date: found yesterday; expected a date from 1950 to 2199"), text);
    assertTrue(text.contains("drop_kPa: found many; expected a number"), text);
    assertTrue(text.contains("found -5 kPa; expected from 0.0 to 10000.0 kPa"), text);
    assertTrue(text.contains("120.0, as in drop record 1"), text);
    assertTrue(text.contains("'=HYPERLINK(1)"), text);
    assertTrue(report.problems().get(0).toString().contains("row 3, column date"));
  }

  @Test
  void machinesAreFoundBySerialIdOrRule() {
    bring(
        file(
            "machines.csv",
            "machine,serial,class,site,zone\nEX-07,SN-900,excavator,pit,Asia/Tokyo\n"),
        NONE);
    ImportOptions strict = new ImportOptions(NONE, "ann", false, "", "", Optional.empty());
    Path file =
        file(
            "m.csv",
            "unit,date,hours\nEX-07,2024-01-01 09:00,10\nSN-900,2024-01-02 09:00,20\n"
                + "ex 7,2024-01-03 09:00,30\nDigger 7,2024-01-04 09:00,40\n");
    ImportReport first = bring(file, strict);
    assertEquals(3, first.added());
    assertTrue(first.problems().get(0).toString().contains("--add-machines"));
    Wishes rule =
        new Wishes("", "", "", "", "", "", "", "", "auto", "Digger (\\d+)=>EX-0$1", List.of());
    ImportReport second =
        bring(file, new ImportOptions(rule, "ann", false, "", "", Optional.empty()));
    assertEquals(1, second.added());
    assertEquals(3, second.known());
    List<String> at = new ArrayList<>();
    try (FleetHistory history = Store.read(where())) {
      history.readings("EX-07", (MeterReading r) -> at.add(r.moment().at().toString()));
    }
    assertEquals("2024-01-01T00:00:00Z", at.get(0), "Tokyo is nine hours ahead");
  }

  @Test
  void datesThatCanBeReadTwoWaysAreAskedFor() {
    Path file = file("d.csv", "machine,date,meter_h\nEX-1,03/04/2024,10\nEX-1,05/06/2024,20\n");
    String told = refused(file, NONE);
    assertTrue(told.contains("can be read two ways"), told);
    assertTrue(told.contains("--dates dmy"), told);
    assertEquals(2, bring(file, wish("", "dmy", "Europe/Lisbon")).added());
    try (FleetHistory history = Store.read(where())) {
      history.readings(
          "EX-1", r -> assertTrue(r.moment().at().toString().matches("2024-0[46]-0[35]T11.*")));
    }
  }

  @Test
  void aMappingIsKeptAndUsedAgain() {
    Path file = file("k.csv", "Kiste;wann;Stand\nEX-1;01.02.2024;1,5\n");
    Wishes wishes = wish("meter", "dmy", "", "Kiste=machine", "wann=date", "Stand=meter_h [d]");
    bring(file, new ImportOptions(wishes, "ann", true, "", "clerk", Optional.empty()));
    Path next = file("l.csv", "x;Stand;wann;Kiste\n0;2,5;03.02.2024;EX-1\n");
    ImportReport report =
        bring(next, new ImportOptions(NONE, "ann", true, "clerk", "", Optional.empty()));
    assertEquals(1, report.added(), report.problems().toString());
    List<Double> hours = new ArrayList<>();
    try (FleetHistory history = Store.read(where())) {
      history.readings("EX-1", r -> hours.add(r.moment().meterH()));
    }
    assertEquals(List.of(36.0, 60.0), hours);
  }

  @Test
  void aPreviewChangesNothing() {
    Path file = file("p.csv", "Unit;Date;dp\nEX-1;31.01.2024;1,5\nEX-1;x;2\n");
    Preview preview = new Importer(file, options(NONE)).preview(where());
    assertFalse(Files.exists(Path.of(where())));
    assertEquals("drop", preview.mapping().kind());
    assertEquals(";", preview.mapping().delimiter());
    assertEquals(List.of("machine", "at", "meter_h", "drop_kPa"), preview.columns());
    assertEquals(List.of("EX-1", "2024-01-31", "", "1.5"), preview.rows().get(0).cells());
    assertTrue(preview.rows().get(1).refused().contains("date: found x"));
    assertTrue(preview.notes().get(0).contains("states no unit: taken as kPa"));

    ImportOptions named = new ImportOptions(NONE, "ann", true, "lab", "", Optional.empty());
    String nowhere = folder.resolve("none.db").toString();
    String told =
        assertThrows(InputException.class, () -> new Importer(file, named).preview(nowhere))
            .getMessage();
    assertTrue(told.contains("--mapping: found lab"), told);
  }

  @Test
  void whatIsCancelledIsNotIn() {
    StringBuilder text = new StringBuilder("machine,date,meter_h\n");
    for (int i = 0; i < 5000; i++) {
      text.append("EX-1,2024-01-01T").append(String.format("%02d:%02d:00Z", i / 60 % 24, i % 60));
      text.append(",").append(i).append('\n');
    }
    Path file = file("c.csv", text.toString());
    try (Store store = Store.open(where(), Clock.systemUTC())) {
      assertThrows(
          CancellationException.class,
          () -> new Importer(file, options(NONE)).run(store, (share, doing) -> false));
      assertEquals(0, store.journal().last(5).size());
    }
  }

  @Test
  void demoFleetComesIn() {
    ImportReport report = bring(Path.of("../../demo-data/three-pits.json"), NONE);
    assertEquals(12, report.machines());
    try (FleetHistory history = Store.read(where())) {
      assertTrue(
          history.machines().stream()
              .anyMatch(m -> m.id().equals("EX-11") && m.site().equals("dusthollow")));
      assertEquals(0, history.count(RecordKind.SAMPLE, ""));
    }
  }

  @Test
  void whatHeadingsDoNotSayIsAskedFor() {
    assertTrue(refused(file("x.csv", "a,b\n1,2\n"), NONE).contains("headings such as machine"));
    String told = refused(file("y.csv", "machine,date,note\nEX-1,2024-01-01,x\n"), NONE);
    assertTrue(told.contains("no column for meter_h"), told);
    assertTrue(
        refused(file("z.csv", "machine,date,drop [furlong]\nEX-1,2024-01-01,1\n"), NONE)
            .contains("the unit furlong"));
    assertTrue(refused(file("e.csv", ""), NONE).contains("nothing in it"));
  }

  /** A folder in which nobody, not even the superuser, can make a file. */
  @Test
  void whereRefusedRowsCannotBeWrittenNothingIsSaved() {
    Path nowhere = Path.of("/proc/self");
    assumeTrue(Files.isDirectory(nowhere));
    Bench bench = new Bench(folder);
    Path file = bench.file("m.csv", "machine,date,meter_h\nA,2024-01-01,1\nA,someday,2\n");
    Optional<Path> to = Optional.of(nowhere.resolve("refused.csv"));
    ImportOptions options = new ImportOptions(Wishes.NONE, "ann", true, "", "", to);
    try (Store store = Store.open(bench.where(), Clock.systemUTC())) {
      Importer importer = new Importer(file, options);
      String told =
          assertThrows(InputException.class, () -> importer.run(store, Progress.NONE)).getMessage();
      assertTrue(told.contains("a place that can be written to, for refused rows"), told);
      assertEquals(0, store.journal().last(9).size());
    }
  }
}
