package siltwright.samples.internal;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Map;
import java.util.Optional;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvFileSource;
import siltwright.analysis.Cell;
import siltwright.analysis.Context;
import siltwright.analysis.Entry;
import siltwright.analysis.Progress;
import siltwright.analysis.Result;
import siltwright.analysis.Values;
import siltwright.exchange.RecordsReader;

/**
 * The command from a table of counts to codes, against suspensions whose counts and code are
 * printed. Source in {@code reference/counted-suspensions.csv}.
 */
class PublishedCountsTest {
  private static final String HEAD =
      "machine,hours,count4_per_mL,count6_per_mL,count14_per_mL,count21_per_mL,count38_per_mL,"
          + "count70_per_mL,code\n";

  private static Result run(String rows) {
    SamplesAnalysis samples = new SamplesAnalysis();
    Values values = Values.of(samples.description(), Map.of());
    return samples.run(
        Context.of(
            RecordsReader.read(HEAD + rows, "t.csv", samples.columns(values)), Optional.empty()),
        values,
        Progress.NONE);
  }

  private static Optional<Entry.Table> table(Result r, String name) {
    return r.entries().stream()
        .filter(e -> e.name().equals(name))
        .map(e -> (Entry.Table) e)
        .findFirst();
  }

  private static String code(Result r) {
    Entry.Table machines = table(r, "machines").orElseThrow();
    int at = machines.columns().stream().map(Entry.Column::name).toList().indexOf("lastCode");
    return ((Cell.Text) machines.rows().get(0).get(at)).text();
  }

  @DisplayName("printed suspensions get their code and no doubt: Hy-Pro, Understanding ISO codes")
  @ParameterizedTest(name = "sample {0}: {7}")
  @CsvFileSource(resources = "/siltwright/samples/reference/counted-suspensions.csv")
  void printedSuspensions(
      String name,
      String at4,
      String at6,
      String at14,
      String at21,
      String at38,
      String at70,
      String printed) {
    String counts =
        String.join(",", "M", "100", at4, at6, at14, at21, at38, at70 == null ? "" : at70);
    Result counted = run(counts + ",\n");
    assertEquals(printed, code(counted), name);
    Result both = run(counts + "," + printed + "\n");
    assertEquals(printed, code(both), name);
    assertTrue(table(both, "suspicious").isEmpty(), name);
  }

  /** Sample A with the code printed for B: five numbers and more apart in each place. */
  @Test
  void theCodeOfAnotherSuspensionIsDoubted() {
    Result r = run("M,100,151773,38363,3339,1048,112,2,16/14/11\n");
    assertEquals(1, table(r, "suspicious").orElseThrow().rows().size());
  }
}
