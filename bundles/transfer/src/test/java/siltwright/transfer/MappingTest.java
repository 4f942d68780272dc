package siltwright.transfer;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Clock;
import java.util.List;
import java.util.Optional;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import siltwright.analysis.Progress;
import siltwright.model.InputException;
import siltwright.store.Store;

class MappingTest {
  private static final String DROPS =
      "machine,date,drop,other\nUnit 11,2024-02-05,45,50\nUnit 12,2024-02-06,46,51\n";

  @TempDir Path folder;
  private Bench bench;

  @BeforeEach
  void makeBench() {
    bench = new Bench(folder);
  }

  private static Wishes wishes(String rule, String... columns) {
    return new Wishes("drop", "", "", "", "", "", "", "", "auto", rule, List.of(columns));
  }

  private String refusal(Wishes wishes) {
    Path file = bench.file("drops.csv", DROPS);
    return assertThrows(InputException.class, () -> bench.bring(file, wishes)).getMessage();
  }

  @ParameterizedTest
  @CsvSource(
      delimiter = '|',
      value = {
        "braces | /kind: found nothing; expected a text",
        "kind | /kind: found \"drops\"; expected a kind of record, or machine",
        "zone | /zone: found \"Europe/Nowhere\"; expected a time zone such as Europe/Lisbon",
        "unit | /columns/2/unit: found \"furlong\"; expected kPa, bar, mbar, hPa, psi, MPa",
        "field-twice | /columns/3/field: found drop_kPa a second time; expected each field once",
        "unknown | : found more; expected one of kind, sheet, encoding, delimiter, decimal, dates,"
            + " zone, match, rule, columns",
      })
  void aRefusalNamesThePlace(String name, String told) throws IOException {
    String body = Files.readString(Path.of("src/test/corpus/mapping/refused-" + name + ".json"));
    String message = assertThrows(InputException.class, () -> Mapping.of(body, "lab")).getMessage();
    assertEquals("lab" + (told.startsWith(":") ? "" : " ") + told, message);
  }

  @Test
  void aMappingThatIsNoneIsToldByItsName() {
    Path file = bench.file("drops.csv", DROPS);
    try (Store store = Store.open(bench.where(), Clock.systemUTC())) {
      store.act(
          "ann",
          "keep",
          "lab",
          edits -> {
            edits.keepMapping("lab", "{}");
            return null;
          });
      ImportOptions options =
          new ImportOptions(Wishes.NONE, "ann", true, "lab", "", Optional.empty());
      String told =
          assertThrows(
                  InputException.class, () -> new Importer(file, options).run(store, Progress.NONE))
              .getMessage();
      assertEquals(bench.where() + " mapping lab /kind: found nothing; expected a text", told);
    }
  }

  @Test
  void aRuleThatWouldTakeYearsIsRefused() {
    Path file = bench.file("drops.csv", DROPS.replace("Unit 11", "a".repeat(40)));
    Wishes wishes = wishes("(.*a){20}b=>EX-$1"); // more than 10^11 ways to part the text
    String told = assertThrows(InputException.class, () -> bench.bring(file, wishes)).getMessage();
    assertTrue(told.endsWith("expected an expression that comes to an end"), told);
  }

  @Test
  void aRuleThatLeavesNothingMakesNoMachine() {
    ImportReport report = bench.bring(bench.file("drops.csv", DROPS), wishes("Unit 11=>"));
    assertEquals(1, report.refused());
    assertTrue(
        report.problems().get(0).toString().contains("Unit 11 of which the rule leaves nothing"),
        report.problems().toString());
    assertEquals(1, report.machines());
  }

  @Test
  void twoColumnsForOneFieldAreRefused() {
    String told = refusal(wishes("", "drop=drop_kPa", "other=drop_kPa"));
    assertTrue(
        told.endsWith("found columns drop and other for drop_kPa; expected one of them"), told);
  }

  @Test
  void whatIsSaidNowCountsBeforeTheKeptMapping() {
    Path file = bench.file("drops.csv", DROPS);
    try (Store store = Store.open(bench.where(), Clock.systemUTC())) {
      Wishes first = wishes("", "drop=drop_kPa");
      new Importer(file, new ImportOptions(first, "ann", true, "", "lab", Optional.empty()))
          .run(store, Progress.NONE);
      Wishes other = wishes("", "other=drop_kPa");
      Preview preview =
          new Importer(file, new ImportOptions(other, "ann", true, "lab", "", Optional.empty()))
              .preview(bench.where());
      assertEquals("50", preview.rows().get(0).cells().get(3));
    }
  }
}
