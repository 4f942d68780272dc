package siltwright.transfer;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertNull;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Instant;
import java.time.LocalDateTime;
import java.time.ZoneId;
import java.time.ZoneOffset;
import java.util.ArrayList;
import java.util.List;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import siltwright.analysis.Progress;
import siltwright.model.history.FleetHistory;
import siltwright.model.history.RecordKind;
import siltwright.store.Store;

/**
 * Times where clocks are changed, and days that come every fourth year or never. When which zone
 * changes is the time zone database's (IANA), of which Java has a copy.
 */
class TimesTest {
  @TempDir Path folder;
  private Bench bench;

  @BeforeEach
  void begin() {
    bench = new Bench(folder);
  }

  private List<Instant> instants() {
    List<Instant> all = new ArrayList<>();
    try (FleetHistory history = Store.read(bench.where())) {
      history.readings("A", r -> all.add(r.moment().at()));
    }
    return all;
  }

  /**
   * A day and a half of readings round a change of clocks: an hour that comes twice, one that never
   * comes, a change by half an hour, a day that was left out, and a zone off by quarters.
   */
  @ParameterizedTest
  @CsvSource({
    "Europe/Berlin, 2024-10-26T20:00:00Z",
    "Europe/Berlin, 2024-03-30T20:00:00Z",
    "America/New_York, 2024-11-03T00:00:00Z",
    "America/New_York, 2024-03-10T00:00:00Z",
    "Australia/Lord_Howe, 2024-04-06T08:00:00Z",
    "Australia/Lord_Howe, 2024-10-05T08:00:00Z",
    "Pacific/Apia, 2011-12-29T20:00:00Z",
    "Asia/Kathmandu, 2024-02-28T12:00:00Z"
  })
  void whatIsWrittenRoundAChangeOfClocksIsReadTheSame(String zone, String begin) throws Exception {
    bench.bring(bench.file("m.csv", "machine,site,zone\nA,pit," + zone + "\n"));
    StringBuilder text = new StringBuilder("machine,date,meter_h\n");
    List<Instant> expected = new ArrayList<>();
    for (int i = 0; i < 140; i++) {
      Instant at = Instant.parse(begin).plusSeconds(900L * i);
      expected.add(at);
      text.append("A,").append(at).append(',').append(100 + 0.25 * i).append('\n');
    }
    assertEquals(140, bench.bring(bench.file("r.csv", text.toString())).added());
    assertEquals(expected, instants());
    for (String form : List.of("csv", "xlsx", "parquet")) {
      Path to = folder.resolve("out." + form);
      try (FleetHistory history = Store.read(bench.where())) {
        Exporter exporter = new Exporter(history, List.of(RecordKind.METER), "", Progress.NONE);
        switch (form) {
          case "csv" -> exporter.csv(RecordKind.METER, to);
          case "xlsx" -> exporter.xlsx(to);
          default -> exporter.parquet(RecordKind.METER, to);
        }
      }
      ImportReport back = bench.bring(to);
      assertEquals(140, back.known(), form + back.problems());
      assertEquals(0, back.added() + back.refused(), form);
      Files.delete(to);
    }
  }

  /** Of a local time that comes twice the first is taken; one that never comes is put after. */
  @Test
  void localTimesThatAreNoneOrTwo() {
    ZoneId zone = ZoneId.of("Europe/Berlin");
    Dates dates = new Dates(DateOrder.YEAR_FIRST);
    assertEquals(
        Instant.parse("2024-10-27T00:30:00Z"),
        Instant.ofEpochMilli(dates.read("2024-10-27 02:30", zone).atMs()));
    assertEquals(
        Instant.parse("2024-03-31T01:30:00Z"),
        Instant.ofEpochMilli(dates.read("2024-03-31 02:30", zone).atMs()));
  }

  /** Gregorian calendar: every fourth year but not 2100; a leap second is none of Java's. */
  @Test
  void leapDays() {
    Dates dates = new Dates(DateOrder.DAY_FIRST);
    for (String day : List.of("2024-02-29", "29.02.2024", "2000-02-29", "29 Feb 2028")) {
      Dates.When when = dates.read(day, ZoneOffset.UTC);
      LocalDateTime local =
          LocalDateTime.ofInstant(Instant.ofEpochMilli(when.atMs()), ZoneOffset.UTC);
      assertTrue(when.wholeDay() && local.getDayOfMonth() == 29, day);
    }
    for (String day :
        List.of("2023-02-29", "2100-02-29", "30.02.2024", "2024-06-31", "2016-12-31 23:59:60")) {
      assertNull(dates.read(day, ZoneOffset.UTC), day);
    }
  }

  @Test
  void readingsOnALeapDayKeepTheirHours() {
    bench.bring(
        bench.file(
            "r.csv",
            "machine,date,meter_h\nA,2024-02-28,100\nA,2024-02-29,110\nA,2024-03-01,120\n"));
    assertEquals(
        List.of("2024-02-28T12:00:00Z", "2024-02-29T12:00:00Z", "2024-03-01T12:00:00Z"),
        instants().stream().map(Instant::toString).toList());
  }
}
