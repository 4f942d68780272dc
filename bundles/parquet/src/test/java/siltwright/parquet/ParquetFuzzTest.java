package siltwright.parquet;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertNotNull;
import static org.junit.jupiter.api.Assertions.assertNull;

import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.junit.jupiter.api.Test;
import siltwright.model.InputException;
import siltwright.model.testing.Fuzz;
import siltwright.model.testing.Mutation;

/** Whatever a Parquet file holds, it is read or refused; what is read is written the same. */
class ParquetFuzzTest {
  private static final Path FILES = Path.of("src/test/resources");

  @Test
  void anyBytesAreReadOrRefused() throws Exception {
    Fuzz fuzz = Fuzz.of("parquet", Mutation.BYTES, ParquetFuzzTest::read);
    for (String name :
        List.of("gzip", "zstd", "lz4", "int96", "prefixes", "second-pages", "none", "nested")) {
      fuzz.with(FILES.resolve(name + ".parquet"));
    }
    fuzz.run(1500);
  }

  private static Optional<String> read(Path file) throws Exception {
    List<Object[]> rows = new ArrayList<>();
    List<String> names;
    try (ParquetRows from = ParquetRows.open(file)) {
      names = from.columns();
      for (Object[] row; (row = from.next()) != null; ) {
        rows.add(row.clone());
      }
      assertEquals(from.count(), rows.size());
    } catch (InputException e) {
      return Optional.of(e.getMessage());
    }
    written(names, rows);
    return Optional.empty();
  }

  /** What we write of it, we read: numbers and instants as such, the rest as texts. */
  private static void written(List<String> names, List<Object[]> rows) throws Exception {
    List<ParquetWriter.Column> columns = new ArrayList<>();
    for (int c = 0; c < names.size(); c++) {
      ParquetWriter.Kind kind = ParquetWriter.Kind.TEXT;
      int at = c;
      if (rows.stream().allMatch(r -> r[at] == null || r[at] instanceof Double)) {
        kind = ParquetWriter.Kind.NUMBER;
      } else if (rows.stream().allMatch(r -> r[at] == null || r[at] instanceof Instant)) {
        kind = ParquetWriter.Kind.INSTANT;
      }
      columns.add(new ParquetWriter.Column(names.get(c), kind));
      for (Object[] row : rows) {
        row[c] = kind == ParquetWriter.Kind.TEXT && row[c] != null ? row[c].toString() : row[c];
        row[c] = row[c] instanceof Instant i ? Instant.ofEpochMilli(i.toEpochMilli()) : row[c];
      }
    }
    Path copy = Files.createTempFile("copy", ".parquet");
    try {
      try (ParquetWriter to = ParquetWriter.create(copy, columns)) {
        for (Object[] row : rows) {
          to.row(row.clone());
        }
        to.finish();
      }
      try (ParquetRows from = ParquetRows.open(copy)) {
        assertEquals(names, from.columns());
        for (Object[] row : rows) {
          Object[] again = from.next();
          assertNotNull(again);
          assertArrayEquals(row, again);
        }
        assertNull(from.next());
      }
    } finally {
      Files.delete(copy);
    }
  }
}
