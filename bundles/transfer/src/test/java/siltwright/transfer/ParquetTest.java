package siltwright.transfer;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Clock;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import siltwright.model.InputException;
import siltwright.model.history.FleetHistory;
import siltwright.model.history.OilSample;
import siltwright.store.Store;

/**
 * A Parquet file of samples comes in as a text does. It was written by pyarrow 25.0.1 from invented
 * values: resources/laboratory.py.
 */
class ParquetTest {
  private static final Path FILE = Path.of("src/test/resources/laboratory.parquet");

  @TempDir Path folder;
  private Bench bench;

  @BeforeEach
  void begin() {
    bench = new Bench(folder);
  }

  @Test
  void typedColumnsComeIn() throws IOException {
    Path file = Files.copy(FILE, folder.resolve("laboratory.parquet"));
    ImportReport report = bench.bring(file);
    assertEquals("sample", report.kind());
    assertEquals(3, report.added(), report.problems().toString());
    assertEquals(1, report.refused());
    assertTrue(
        report.problems().get(0).toString().contains("row 4, column iron_ppm: found -3.0"),
        report.problems().toString());
    assertTrue(Files.readString(Path.of(report.refusedFile())).contains("\n4,"));
    List<OilSample> all = new ArrayList<>();
    try (FleetHistory history = Store.read(bench.where())) {
      history.samples("EX-1", all::add);
    }
    assertEquals("2024-03-01T06:30:00Z", all.get(0).moment().at().toString());
    assertEquals(1200.5, all.get(0).moment().meterH());
    assertEquals("9007199254740993", all.get(0).sampleNo());
    assertEquals("19/17/14", all.get(0).code());
    assertEquals(12, all.get(0).ironPpm());
    assertTrue(Double.isNaN(all.get(1).ironPpm()));
    assertEquals(3, bench.bring(file).known());
  }

  @Test
  void aDamagedOneLeavesNothing() throws IOException {
    byte[] bytes = Files.readAllBytes(FILE);
    Path cut = Files.write(folder.resolve("cut.parquet"), Arrays.copyOf(bytes, bytes.length / 2));
    String told = assertThrows(InputException.class, () -> bench.bring(cut)).getMessage();
    assertTrue(told.contains("damaged"), told);
    try (Store store = Store.open(bench.where(), Clock.systemUTC())) {
      assertEquals(0, store.journal().last(9).size());
    }
  }
}
