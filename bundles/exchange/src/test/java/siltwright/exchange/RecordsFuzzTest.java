package siltwright.exchange;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.nio.file.Path;
import java.util.List;
import java.util.Optional;
import java.util.stream.Collectors;
import java.util.stream.IntStream;
import org.junit.jupiter.api.Test;
import siltwright.analysis.ExactNumber;
import siltwright.analysis.RecordColumn;
import siltwright.analysis.Records;
import siltwright.model.InputException;
import siltwright.model.testing.Fuzz;
import siltwright.model.testing.Mutation;

/** Whatever a table holds, it is read or refused; what is read, written plainly, is the same. */
class RecordsFuzzTest {
  private static final Path DEMO = Path.of("../../demo-data");
  private static final List<RecordColumn> WANTED =
      List.of(
          RecordColumn.word("machine", true, "id of the machine"),
          RecordColumn.number("hours", 0, 1e6, false, "hours of the machine, h"),
          RecordColumn.either("event", "what it was"),
          RecordColumn.word("date", false, "day"),
          RecordColumn.number("cost", -1e9, 1e9, false, "cost, money"),
          RecordColumn.word("code", false, "code"));

  @Test
  void anyBytesAreReadOrRefused() throws Exception {
    Fuzz.of("records", Mutation.TEXT, RecordsFuzzTest::read)
        .with(DEMO.resolve("pump-lives.csv"))
        .run(1500);
  }

  private static Optional<String> read(Path file) {
    Records records;
    try {
      records = RecordsReader.read(file, WANTED);
    } catch (InputException e) {
      return Optional.of(e.getMessage());
    }
    records.refusals().listed().forEach(p -> Fuzz.assertWellTold(p.toString(), file));
    String plain = plain(records);
    Records again = RecordsReader.read(plain, "plain", columns(records));
    assertEquals(0, again.refusals().count(), () -> again.refusals().listed().toString());
    assertEquals(plain, plain(again));
    return Optional.empty();
  }

  private static List<RecordColumn> columns(Records records) {
    return WANTED.stream().filter(w -> records.find(w.name()).isPresent()).toList();
  }

  /**
   * The rows in which anything is of the columns asked for: a row of blanks is none. Commas part
   * the cells, since with others a text such as 1,5 would be a number.
   */
  private static String plain(Records records) {
    String head =
        records.columns().stream().map(Records.Column::name).collect(Collectors.joining(","));
    return IntStream.range(0, records.rows())
        .filter(row -> records.columns().stream().anyMatch(c -> !c.missing(row)))
        .mapToObj(
            row ->
                records.columns().stream()
                    .map(c -> '"' + cell(c, row).replace("\"", "\"\"") + '"')
                    .collect(Collectors.joining(",")))
        .collect(Collectors.joining("\n", head + "\n", ""));
  }

  private static String cell(Records.Column column, int row) {
    if (column.missing(row)) {
      return "";
    }
    return column instanceof Records.Numbers n
        ? ExactNumber.text(n.values()[row])
        : column.text(row);
  }
}
