package siltwright.life;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import org.junit.jupiter.api.Assumptions;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/**
 * Forecasts on open data: the B10 life that the records show at the age when half of the failures
 * had happened, beside the one that all records show. Sources in {@code docs/predictions.md}; the
 * data are not part of the project: {@code -Dsiltwright.datasets=FOLDER} says where they are, and
 * the tests are skipped without it. What is expected here is what the page shows.
 */
class OpenForecastTest {
  private static final Path FOLDER =
      Path.of(System.getProperty("siltwright.datasets", "")).resolve("reliability-tables");

  /** A row: age, whether it failed, how many. */
  private record Row(double hours, boolean failed, double count) {}

  private static List<Row> read(String file) throws IOException {
    List<Row> rows = new ArrayList<>();
    List<String> names = null;
    for (String line : Files.readAllLines(FOLDER.resolve(file))) {
      List<String> cells = List.of(line.replace("\"", "").split(","));
      if (names == null) {
        names = cells;
        continue;
      }
      int count = names.indexOf("count");
      String event = cells.get(Math.max(names.indexOf("event"), names.indexOf("status")));
      rows.add(
          new Row(
              Double.parseDouble(cells.get(0)),
              event.startsWith("Fail") || event.equals("1"),
              count < 0 ? 1 : Double.parseDouble(cells.get(count))));
    }
    return rows;
  }

  /** Returns what was known when all components had at most an age. */
  private static LifeData until(List<Row> rows, double ageH) {
    LifeData.Builder data = LifeData.builder();
    for (Row row : rows) {
      if (row.hours() > ageH) {
        data.runningAt(ageH);
      } else if (row.failed()) {
        data.failedAt(row.hours());
      } else {
        data.runningAt(row.hours());
      }
      data.times(row.count());
    }
    return data.build();
  }

  private static double ageAtHalfTheFailures(List<Row> rows) {
    List<Row> failed =
        rows.stream()
            .filter(Row::failed)
            .sorted((a, b) -> Double.compare(a.hours(), b.hours()))
            .toList();
    double all = failed.stream().mapToDouble(Row::count).sum();
    double so = 0;
    for (Row row : failed) {
      so += row.count();
      if (2 * so >= all) {
        return row.hours();
      }
    }
    throw new IllegalStateException();
  }

  @ParameterizedTest
  @CsvSource({
    "locomotivecontrol.csv, 37, 19, 67.29, 54.72, 78.14, 69.85",
    "shockabsorber.csv, 11, 6, 13240, 8551, 18130, 13600",
    "fan.csv, 12, 6, 2191, 1464, 4074, 3137",
    "bearingcage.csv, 6, 3, 1102, 605, 16460, 3903"
  })
  void b10LifeFromHalfOfTheFailures(
      String file, int failures, int half, double b10, double low, double high, double all)
      throws IOException {
    Assumptions.assumeTrue(Files.isDirectory(FOLDER));
    List<Row> rows = read(file);
    LifeData early = until(rows, ageAtHalfTheFailures(rows));
    LifeFit whole = LifeFitting.fit(until(rows, Double.MAX_VALUE), LifeFamily.WEIBULL).get();
    LifeFit fit = LifeFitting.fit(early, LifeFamily.WEIBULL).get();
    Interval interval = fit.profileInterval(new Quantity.BLife(0.1), 0.95);
    assertEquals(failures, whole.failures());
    assertEquals(half, fit.failures());
    assertEquals(b10, fit.bLifeH(0.1), 0.005 * b10);
    assertEquals(low, interval.lower(), 0.005 * low);
    assertEquals(high, interval.upper(), 0.005 * high);
    assertEquals(all, whole.bLifeH(0.1), 0.005 * all);
  }
}
