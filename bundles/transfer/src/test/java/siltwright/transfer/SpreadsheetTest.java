package siltwright.transfer;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Clock;
import java.util.ArrayList;
import java.util.List;
import java.util.zip.ZipFile;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import siltwright.analysis.Progress;
import siltwright.model.InputException;
import siltwright.model.history.FleetHistory;
import siltwright.model.history.OilSample;
import siltwright.model.history.RecordKind;
import siltwright.store.Store;

/** Spreadsheets, the ones read written by hand after ECMA-376. */
class SpreadsheetTest {
  private static final String TEXTS =
      "<si><t>Machine</t></si><si><t>Date</t></si><si><t>Hours</t></si><si><t>Fe (ppm)</t></si>"
          + "<si><t>EX-1</t></si><si><t>n/a</t></si>";
  private static final String HEAD =
      "<row r='3'><c r='A3' t='s'><v>0</v></c><c r='B3' t='s'><v>1</v></c>"
          + "<c r='C3' t='s'><v>2</v></c><c r='D3' t='s'><v>3</v></c></row>";

  @TempDir Path folder;
  private Bench bench;

  @BeforeEach
  void begin() {
    bench = new Bench(folder);
  }

  @Test
  void typedCellsComeIn() {
    // 45292 is 2024-01-01 in the date system that begins in 1900 (ECMA-376 part 1, 18.17.4)
    String rows =
        HEAD
            + "<row r='4'><c r='A4' t='s'><v>4</v></c><c r='B4' s='1'><v>45292</v></c>"
            + "<c r='C4'><v>1200.5</v></c><c r='D4'><v>12</v></c></row>"
            + "<row r='6'><c r='A6' t='inlineStr'><is><t>EX-1</t></is></c>"
            + "<c r='B6' s='2'><v>45293.25</v></c><c r='C6'><f>C4+8</f><v>1208.5</v></c>"
            + "<c r='D6' t='s'><v>5</v></c></row>";
    ImportReport report = bench.bring(bench.zip("a.xlsx", Bench.sheet(rows, TEXTS)));
    assertEquals(2, report.added(), report.problems().toString());
    List<OilSample> all = new ArrayList<>();
    try (FleetHistory history = Store.read(bench.where())) {
      history.samples("EX-1", all::add);
    }
    assertEquals("2024-01-01T12:00:00Z", all.get(0).moment().at().toString());
    assertTrue(all.get(0).moment().wholeDay());
    assertEquals("2024-01-02T06:00:00Z", all.get(1).moment().at().toString());
    assertEquals(1208.5, all.get(1).moment().meterH());
    assertEquals(12, all.get(0).ironPpm());
    assertTrue(Double.isNaN(all.get(1).ironPpm()));
  }

  @Test
  void whatIsExportedComesBackTheSame() throws Exception {
    bench.bring(
        bench.file(
            "m.csv",
            "machine,serial,site,zone\nEX-1,S1,pit,Asia/Tokyo\n=EX-2,S2,pit,Asia/Tokyo\n"));
    bench.bring(
        bench.file(
            "s.csv",
            "machine,date,sample_no,meter_h,count4_per_mL,code,note\n"
                + "EX-1,2024-03-01 06:30,L1,1200.5,5200,19/17/14,\"two\nlines, \"\"quoted\"\"\"\n"
                + "EX-1,2024-04-01,=1+1,1300,6100,20/17/14,@x\n"
                + "'=EX-2,2024-04-01,L3,10,,,<script>alert(1)</script>\n"
                // a time that is no day
                + "EX-1,2024-03-05 00:00,L4,,100,,\n"));
    for (String form : List.of("csv", "xlsx", "json", "parquet")) {
      Path to = folder.resolve("out." + form);
      try (FleetHistory history = Store.read(bench.where())) {
        Exporter exporter = new Exporter(history, List.of(RecordKind.SAMPLE), "", Progress.NONE);
        switch (form) {
          case "csv" -> exporter.csv(RecordKind.SAMPLE, to);
          case "xlsx" -> exporter.xlsx(to);
          case "parquet" -> exporter.parquet(RecordKind.SAMPLE, to);
          default -> exporter.json(to);
        }
        assertEquals(4, exporter.written().get(RecordKind.SAMPLE));
      }
    }
    String csv = Files.readString(folder.resolve("out.csv"));
    assertTrue(csv.contains("2024-03-01T06:30:00+09:00"), csv);
    assertTrue(csv.contains(",'=1+1,") && csv.contains("'=EX-2,"), csv);
    assertTrue(csv.contains("\"two\nlines, \"\"quoted\"\"\""), csv);
    assertTrue(csv.startsWith("machine,date,meter_h,hours_h,sample_no,") && csv.contains("\r\n"));
    // numbers and dates are numbers, texts are texts: read from the file's own XML
    try (ZipFile zip = new ZipFile(folder.resolve("out.xlsx").toFile())) {
      String sheet =
          new String(zip.getInputStream(zip.getEntry("xl/worksheets/sheet1.xml")).readAllBytes());
      assertTrue(sheet.contains("<v>5200"), sheet);
      assertTrue(sheet.contains("=1+1</t>") && !sheet.contains("<f>"), sheet);
      assertTrue(sheet.contains("&lt;script"), sheet);
    }
    for (String form : List.of("csv", "xlsx", "parquet")) {
      ImportReport back = bench.bring(folder.resolve("out." + form));
      assertEquals(4, back.known(), form + back.problems());
      assertEquals(0, back.added() + back.refused(), form + back.problems());
    }
    String json = Files.readString(folder.resolve("out.json"));
    assertTrue(json.contains("\"note\" : \"two\\nlines"), json);
  }

  private String refused(Path file) {
    return assertThrows(InputException.class, () -> bench.bring(file)).getMessage();
  }

  @Test
  void damagedOnesAreRefused() throws Exception {
    Path file = bench.zip("a.xlsx", Bench.sheet(HEAD, TEXTS));
    byte[] bytes = Files.readAllBytes(file);
    Path cut = Files.write(folder.resolve("cut.xlsx"), java.util.Arrays.copyOf(bytes, 700));
    assertTrue(refused(cut).contains("damaged zip"));
    Path other = bench.zip("o.xlsx", java.util.Map.of("a.txt", "hello"));
    assertTrue(refused(other).contains("a zip of another kind"));
    Path bad = bench.zip("b.xlsx", Bench.sheet("<row r='1'><c r='A1'><v>1</v></row>", TEXTS));
    assertTrue(refused(bad).contains("damaged spreadsheet"));
    try (Store store = Store.open(bench.where(), Clock.systemUTC())) {
      assertEquals(0, store.journal().last(9).size());
    }
  }
}
