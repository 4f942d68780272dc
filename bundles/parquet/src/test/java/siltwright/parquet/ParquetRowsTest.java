package siltwright.parquet;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertNull;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.file.Path;
import java.time.Instant;
import java.time.LocalDate;
import java.time.LocalDateTime;
import java.time.LocalTime;
import java.util.ArrayList;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;
import siltwright.model.InputException;

/** Files of another writer, pyarrow 25.0.1 (resources/make.py has the values), and our own. */
class ParquetRowsTest {
  private static final Path FILES = Path.of("src/test/resources");

  @TempDir Path folder;

  static List<Object[]> all(Path file) throws IOException {
    List<Object[]> rows = new ArrayList<>();
    try (ParquetRows from = ParquetRows.open(file)) {
      for (Object[] row; (row = from.next()) != null; ) {
        rows.add(row);
      }
      assertEquals(from.count(), rows.size());
    }
    return rows;
  }

  private static Object[][] expected(boolean zones) {
    LocalDateTime first = LocalDateTime.of(2024, 3, 1, 6, 30);
    LocalDateTime second = LocalDateTime.parse("1969-12-31T23:59:59.500");
    Object utc = zones ? Instant.parse("2024-03-01T06:30:00Z") : first;
    Object before = zones ? Instant.parse("1969-12-31T23:59:59.500Z") : second;
    LocalDate leap = LocalDate.of(2024, 2, 29);
    LocalDate moon = LocalDate.of(1969, 7, 20);
    LocalTime clock = LocalTime.of(6, 30);
    return new Object[][] {
      {
        "EX-11",
        first,
        utc,
        leap,
        clock,
        1200.5,
        0.1,
        12.0,
        "9007199254740993",
        4294967295.0,
        12.34,
        true,
        "rod"
      },
      {"Bagger Süd", second, before, null, null, null, null, -7.0, 41.0, 0.0, -0.01, false, "rod"},
      {
        null,
        null,
        null,
        moon,
        LocalTime.of(23, 59, 59),
        null,
        -2.5,
        null,
        null,
        null,
        null,
        null,
        "head"
      }
    };
  }

  @ParameterizedTest
  @ValueSource(strings = {"none", "snappy", "gzip", "zstd", "lz4", "second-pages", "int96"})
  void filesOfAnotherWriterAreRead(String name) throws IOException {
    Path file = FILES.resolve(name + ".parquet");
    List<Object[]> rows = all(file);
    // the old form of times knows no zones
    Object[][] expected = expected(!name.equals("int96"));
    assertEquals(expected.length, rows.size());
    for (int i = 0; i < expected.length; i++) {
      assertArrayEquals(expected[i], rows.get(i), "row " + i);
    }
    try (ParquetRows from = ParquetRows.open(file)) {
      assertEquals("machine", from.columns().get(0));
      assertEquals("place", from.columns().get(12));
    }
  }

  @ParameterizedTest
  @CsvSource({
    "brotli,columns packed by BROTLI",
    "prefixes,values encoded as DELTA_BYTE_ARRAY",
    "lists,'the column a, which has columns in it'",
    "nested,'the column a, which has columns in it'"
  })
  void whatIsNotReadIsNamed(String name, String told) {
    String message =
        assertThrows(InputException.class, () -> all(FILES.resolve(name + ".parquet")))
            .getMessage();
    assertTrue(message.contains(told), message);
  }

  @Test
  void whatIsWrittenComesBack() throws IOException {
    Path file = folder.resolve("own.parquet");
    List<ParquetWriter.Column> columns =
        List.of(
            new ParquetWriter.Column("machine", ParquetWriter.Kind.TEXT),
            new ParquetWriter.Column("meter_h", ParquetWriter.Kind.NUMBER),
            new ParquetWriter.Column("at_utc", ParquetWriter.Kind.INSTANT));
    int rows = 250_000; // more than one part
    try (ParquetWriter to = ParquetWriter.create(file, columns)) {
      for (int i = 0; i < rows; i++) {
        to.row(
            new Object[] {
              i % 3 == 0 ? null : "EX-" + i,
              i % 5 == 0 ? null : i / 7.0,
              i % 2 == 0 ? null : Instant.ofEpochMilli(-i)
            });
      }
      to.finish();
    }
    List<Object[]> back = all(file);
    assertEquals(rows, back.size());
    for (int i = 0; i < rows; i += 997) {
      Object[] row = back.get(i);
      assertEquals(i % 3 == 0 ? null : "EX-" + i, row[0]);
      assertEquals(i % 5 == 0 ? null : (Object) (i / 7.0), row[1]);
      assertEquals(i % 2 == 0 ? null : Instant.ofEpochMilli(-i), row[2]);
    }
  }

  @Test
  void aTableWithoutRowsIsOne() throws IOException {
    Path file = folder.resolve("none.parquet");
    try (ParquetWriter to =
        ParquetWriter.create(
            file, List.of(new ParquetWriter.Column("machine", ParquetWriter.Kind.TEXT)))) {
      to.finish();
    }
    try (ParquetRows back = ParquetRows.open(file)) {
      assertEquals(List.of("machine"), back.columns());
      assertNull(back.next());
    }
  }
}
