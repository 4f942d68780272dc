package siltwright.transfer;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertNull;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.time.Instant;
import java.time.LocalDateTime;
import java.time.ZoneId;
import java.time.ZoneOffset;
import java.util.Random;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import siltwright.model.history.RecordKind;

/** Numbers, dates, units and headings as people write them; by hand where no source is named. */
class TextsTest {
  /** Outside check: {@link Double#parseDouble}. */
  @Test
  void plainNumbersAreThoseOfTheLibrary() {
    Random random = new Random(7);
    NumberText point = new NumberText('.');
    NumberText comma = new NumberText(',');
    for (int i = 0; i < 100_000; i++) {
      String text =
          (random.nextBoolean() ? "-" : "")
              + random.nextInt(1_000_000)
              + (random.nextBoolean() ? "." + random.nextInt(100_000) : "");
      assertEquals(Double.parseDouble(text), point.read(text), text);
      assertEquals(Double.parseDouble(text), comma.read(text.replace('.', ',')), text);
    }
  }

  @ParameterizedTest
  @CsvSource(
      delimiter = '|',
      value = {
        "1,234.5|.|1234.5",
        "1.234,5|,|1234.5",
        "8'120|.|8120",
        "1 234|.|1234",
        "1e3|.|1000",
        "+5|.|5",
        ".5|.|0.5",
        "5.|.|5",
        "123456789012345678|.|123456789012345678",
        "12,34|.|NaN",
        "1,2345|.|NaN",
        "0x10|.|NaN",
        "1e999|.|NaN",
        "-|.|NaN",
        "1.2.3|.|NaN",
        "twelve|.|NaN",
        "NaN|.|NaN",
        "٣|.|NaN"
      })
  void numbersWithGroups(String text, char decimal, double expected) {
    assertEquals(expected, new NumberText(decimal).read(text));
  }

  @ParameterizedTest
  @CsvSource(
      delimiter = '|',
      value = {
        "2024-03-31|YEAR_FIRST|2024-03-31T12:00:00Z",
        "2024-03-31T06:05:04Z|YEAR_FIRST|2024-03-31T06:05:04Z",
        "2024-03-31 06:05:04.250|YEAR_FIRST|2024-03-31T06:05:04Z",
        "2024-03-31T06:05:00+02:00|YEAR_FIRST|2024-03-31T04:05:00Z",
        "31.03.2024|DAY_FIRST|2024-03-31T12:00:00Z",
        "31.3.24 7:30|DAY_FIRST|2024-03-31T07:30:00Z",
        "03/31/2024 7:30 PM|MONTH_FIRST|2024-03-31T19:30:00Z",
        "12/31/99|MONTH_FIRST|1999-12-31T12:00:00Z",
        "31 Mar 2024|YEAR_FIRST|2024-03-31T12:00:00Z",
        "31-Mar-24|YEAR_FIRST|2024-03-31T12:00:00Z",
        "March 31, 2024|YEAR_FIRST|2024-03-31T12:00:00Z",
        "31. März 2024|YEAR_FIRST|2024-03-31T12:00:00Z",
        "2024/03/31|DAY_FIRST|2024-03-31T12:00:00Z"
      })
  void datesAreRead(String text, DateOrder order, String expected) {
    assertEquals(
        Instant.parse(expected).toEpochMilli(), new Dates(order).read(text, ZoneOffset.UTC).atMs());
  }

  @ParameterizedTest
  @CsvSource(
      delimiter = '|',
      value = {
        "2024-02-30",
        "31.04.2024",
        "13/13/2024",
        "2024-03-31 25:00",
        "12",
        "hello world",
        "2024-03",
        "45231",
        "1-2-3-4",
        "2024-03-31T06:05:00+99:00",
        "0 Mar 2024"
      })
  void whatIsNoDateIsNone(String text) {
    for (DateOrder order : DateOrder.values()) {
      assertNull(new Dates(order).read(text, ZoneOffset.UTC), order.word());
    }
  }

  @Test
  void summerTimeIsCounted() {
    ZoneId zone = ZoneId.of("Europe/Berlin");
    Dates dates = new Dates(DateOrder.YEAR_FIRST);
    // clocks went forward on 2024-03-31 at 02:00; source: the time zone database of the JDK
    assertEquals(
        Instant.parse("2024-03-30T11:00:00Z").toEpochMilli(),
        dates.read("2024-03-30 12:00", zone).atMs());
    assertEquals(
        Instant.parse("2024-03-31T10:00:00Z").toEpochMilli(),
        dates.read("2024-03-31 12:00", zone).atMs());
    assertTrue(dates.read(LocalDateTime.of(2024, 3, 31, 0, 0), zone).wholeDay());
  }

  @ParameterizedTest
  @CsvSource(
      delimiter = '|',
      value = {
        "psi|drop_kPa|10|68.94757293168361",
        "bar|drop_kPa|1.5|150",
        "°F|oil_degC|212|100",
        "°F|oil_degC|-40|-40",
        "K|oil_degC|273.15|0",
        "gpm|flow_L_per_min|100|378.5411784"
      })
  void unitsAreConverted(String unit, String field, double given, double expected) {
    assertEquals(
        expected,
        Units.find(RecordKind.DROP.field(field).orElseThrow(), unit).orElseThrow().convert(given),
        1e-9);
  }

  @ParameterizedTest
  @CsvSource(
      delimiter = '|',
      value = {
        ">4 µm(c)|count4_per_mL",
        "≥14µm|count14_per_mL",
        "Particles > 6|count6_per_mL",
        "count 21 [1/mL]|count21_per_mL",
        "ISO Code|code",
        "Fe (ppm)|iron_ppm",
        "Viscosity @40 °C [cSt]|viscosity40_mm2_per_s",
        "SMU|meter_h",
        "Hours|meter_h",
        "Betriebsstunden [h]|meter_h",
        "Lab No.|sample_no",
        "COUNT70_PER_ML|count70_per_mL"
      })
  void headingsOfSamples(String heading, String field) {
    assertEquals(
        field,
        Headings.field(RecordKind.SAMPLE, heading).map(f -> f.name()).orElse("none"),
        Headings.parts(heading).toString());
  }

  @Test
  void textsThatASpreadsheetWouldComputeAreNot() {
    // the characters are those that the usual advice on formula injection names
    for (String text : new String[] {"=1+1", "+1+cmd", "-2+3", "@SUM(A1)", "\tx", "\rx"}) {
      assertEquals("'" + text, CsvText.harmless(text));
    }
    assertEquals("-5.2", CsvText.harmless("-5.2"));
    assertEquals("a=1", CsvText.harmless("a=1"));
    assertEquals("", CsvText.harmless(null));
  }
}
