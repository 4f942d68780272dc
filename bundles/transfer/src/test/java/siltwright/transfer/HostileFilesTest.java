package siltwright.transfer;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTimeoutPreemptively;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.io.RandomAccessFile;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Clock;
import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.zip.ZipEntry;
import java.util.zip.ZipOutputStream;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import siltwright.model.InputException;
import siltwright.model.history.FleetHistory;
import siltwright.model.history.OilSample;
import siltwright.store.Store;

/** Files that hurt are refused, soon and with little memory, and nothing of them is kept. */
class HostileFilesTest {
  private static final String BOMB =
      "<!DOCTYPE x [<!ENTITY a '0123456789'><!ENTITY b '&a;&a;&a;&a;&a;&a;&a;&a;&a;&a;'>"
          + "<!ENTITY c '&b;&b;&b;&b;&b;&b;&b;&b;&b;&b;'><!ENTITY d '&c;&c;&c;&c;&c;&c;&c;&c;'>]>";

  @TempDir Path folder;
  private Bench bench;

  @BeforeEach
  void begin() {
    bench = new Bench(folder);
  }

  private String refused(Path file) {
    String told =
        assertTimeoutPreemptively(
            Duration.ofSeconds(60),
            () -> assertThrows(InputException.class, () -> bench.bring(file)).getMessage());
    try (Store store = Store.open(bench.where(), Clock.systemUTC())) {
      assertEquals(0, store.journal().last(9).size());
    }
    assertFalse(told.contains("Exception"), told);
    return told;
  }

  @Test
  void entitiesInDocuments() throws IOException {
    Path secret = Files.writeString(folder.resolve("secret"), "SECRET");
    for (String head :
        List.of(
            BOMB,
            "<!DOCTYPE x [<!ENTITY d SYSTEM '" + secret.toUri() + "'>]>",
            "<!DOCTYPE x SYSTEM 'http://127.0.0.1:1/x.dtd'>")) {
      String told =
          refused(
              bench.file(
                  "x.xml",
                  "<?xml version='1.0'?>"
                      + head
                      + "<Fleet><Equipment><EquipmentHeader><PIN>&d;</PIN></EquipmentHeader>"
                      + "</Equipment></Fleet>"));
      assertFalse(told.contains("SECRET"), told);
    }
  }

  @Test
  void entitiesInSpreadsheets() {
    Map<String, String> parts = Bench.sheet("", "<si><t>&d;</t></si>");
    for (String part :
        List.of("xl/sharedStrings.xml", "xl/worksheets/sheet1.xml", "xl/styles.xml")) {
      Map<String, String> bad = new java.util.LinkedHashMap<>(parts);
      bad.put(part, BOMB + parts.get(part));
      assertTrue(refused(bench.zip("e.xlsx", bad)).contains("with declarations"));
    }
  }

  @Test
  void bombsOfZip() throws IOException {
    for (String part : List.of("xl/sharedStrings.xml", "xl/worksheets/sheet1.xml")) {
      Path file = folder.resolve("z.xlsx");
      try (ZipOutputStream zip = new ZipOutputStream(Files.newOutputStream(file))) {
        for (Map.Entry<String, String> e : Bench.sheet("", "").entrySet()) {
          zip.putNextEntry(new ZipEntry(e.getKey()));
          zip.write(e.getValue().getBytes(StandardCharsets.UTF_8));
          if (e.getKey().equals(part)) {
            byte[] blanks = new byte[1 << 20];
            java.util.Arrays.fill(blanks, (byte) ' ');
            for (int i = 0; i < 200; i++) {
              zip.write(blanks);
            }
          }
        }
      }
      assertTrue(Files.size(file) < 1 << 20);
      assertTrue(refused(file).contains("MiB"));
    }
  }

  @Test
  void oneEndlessLine() throws IOException {
    Path file = folder.resolve("line.csv");
    Files.writeString(file, "machine,date,meter_h\nEX-1,2024-01-01,1\nEX-1,");
    // a line of 1 GiB, of which no disk holds anything; the reader stops after 1 MiB of it
    try (RandomAccessFile line = new RandomAccessFile(file.toFile(), "rw")) {
      line.setLength(1L << 30);
    }
    assertTrue(refused(file).contains("characters"));
  }

  @Test
  void aQuoteThatNeverEnds() {
    String text =
        "machine,date,meter_h\nEX-1,2024-01-01,\"1\n" + "EX-1,2024-01-02,2\n".repeat(100_000);
    assertTrue(refused(bench.file("q.csv", text)).contains("quote"));
  }

  @Test
  void manyCells() {
    assertTrue(
        refused(bench.file("w.csv", "machine,date,meter_h\n" + ",".repeat(100_000) + "\n"))
            .contains("cells"));
  }

  @Test
  void deepDocuments() {
    assertTrue(refused(bench.file("d.json", "[".repeat(100_000))).contains("too deep"));
    assertTrue(refused(bench.file("o.json", "{\"a\":".repeat(100_000))).contains("too deep"));
    assertTrue(refused(bench.file("d.xml", "<a>".repeat(100_000))).contains("deep"));
  }

  @Test
  void textsThatAttackComeInAsTheyAre() {
    String evil = "Robert'); DROP TABLE oil_sample;--";
    ImportReport report =
        bench.bring(
            bench.file(
                "t.csv",
                "machine,date,sample_no,note\n\""
                    + evil
                    + "\",2024-01-01,\"a;b\",<script>x</script>\n"
                    + "EX-1,2024-01-01,b,with\0nul\n"));
    assertEquals(1, report.added());
    assertTrue(report.problems().get(0).toString().contains("control character 0"));
    List<OilSample> all = new ArrayList<>();
    try (FleetHistory history = Store.read(bench.where())) {
      history.samples(evil, all::add);
    }
    assertEquals("<script>x</script>", all.get(0).note());
    assertEquals("a;b", all.get(0).sampleNo());
  }

  @Test
  void noiseIsNoTable() {
    byte[] noise = new byte[100_000];
    new java.util.Random(3).nextBytes(noise);
    try {
      Path file = Files.write(folder.resolve("noise.bin"), noise);
      refused(file);
    } catch (IOException e) {
      throw new java.io.UncheckedIOException(e);
    }
  }
}
