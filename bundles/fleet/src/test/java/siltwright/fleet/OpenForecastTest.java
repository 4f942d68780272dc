package siltwright.fleet;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.LocalDate;
import java.time.temporal.ChronoUnit;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Set;
import java.util.function.Predicate;
import java.util.regex.Pattern;
import org.junit.jupiter.api.Assumptions;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/**
 * Forecasts on open data: what the first half of each machine's watch foretells of the second. The
 * sources stand in {@code docs/predictions.md}, the data are not part of the project: {@code
 * -Dsiltwright.datasets=FOLDER} says where they are, and the tests are skipped without it. What is
 * expected here is what the page shows, good and bad.
 */
class OpenForecastTest {
  private static final Pattern CELLS = Pattern.compile(",(?=(?:[^\"]*\"[^\"]*\")*[^\"]*$)");
  private static final Path FOLDER = Path.of(System.getProperty("siltwright.datasets", ""));

  @BeforeEach
  void dataAreThere() {
    Assumptions.assumeTrue(Files.isDirectory(FOLDER.resolve("lhd-hydraulic-1992")));
  }

  private static List<Map<String, String>> table(String file) throws IOException {
    List<Map<String, String>> rows = new ArrayList<>();
    String[] names = null;
    for (String line : Files.readAllLines(FOLDER.resolve(file))) {
      String[] cells = CELLS.split(line, -1);
      if (names == null) {
        names = cells;
        continue;
      }
      Map<String, String> row = new LinkedHashMap<>();
      for (int i = 0; i < cells.length; i++) {
        row.put(unquoted(names[i]), unquoted(cells[i]));
      }
      rows.add(row);
    }
    return rows;
  }

  private static String unquoted(String cell) {
    return cell.startsWith("\"") ? cell.substring(1, cell.length() - 1) : cell;
  }

  /** Hours of the events of each machine, and the end of its watch. */
  private static final class Watch {
    private final Map<String, List<Double>> events = new LinkedHashMap<>();
    private final Map<String, Double> ends = new LinkedHashMap<>();

    /** Reads a table; a row of none of the kinds of event only ends the watch. */
    static Watch read(
        String file, String machine, String hours, Predicate<Map<String, String>> event)
        throws IOException {
      Watch watch = new Watch();
      for (Map<String, String> row : table(file)) {
        String name = row.getOrDefault(machine, "all");
        double at = Double.parseDouble(row.get(hours));
        watch.ends.merge(name, at, Math::max);
        List<Double> events = watch.events.computeIfAbsent(name, n -> new ArrayList<>());
        if (event.test(row)) {
          events.add(at);
        }
      }
      return watch;
    }

    int events(double fromShare, double toShare) {
      int n = 0;
      for (Map.Entry<String, List<Double>> e : events.entrySet()) {
        double end = ends.get(e.getKey());
        n +=
            (int)
                e.getValue().stream()
                    .filter(t -> t > fromShare * end && t <= toShare * end)
                    .count();
      }
      return n;
    }

    /** Returns all that is known at a share of each watch. */
    EventData until(double share) {
      List<String> names = List.copyOf(ends.keySet());
      int[] window = new int[names.size()];
      double[] from = new double[names.size()];
      double[] to = new double[names.size()];
      List<Integer> of = new ArrayList<>();
      List<Double> at = new ArrayList<>();
      for (int m = 0; m < names.size(); m++) {
        window[m] = m;
        to[m] = share * ends.get(names.get(m));
        for (double t : events.get(names.get(m))) {
          if (t > 0 && t <= to[m]) {
            of.add(m);
            at.add(t);
          }
        }
      }
      return EventData.of(
          names,
          window,
          from,
          to,
          of.stream().mapToInt(i -> i).toArray(),
          at.stream().mapToDouble(t -> t).toArray(),
          null);
    }

    double foretold(PowerLaw law) {
      return ends.values().stream().mapToDouble(end -> law.meanAt(end) - law.meanAt(end / 2)).sum();
    }
  }

  /** Counts come out exactly, forecasts to the digits that the page shows. */
  @ParameterizedTest
  @CsvSource({
    "lhd-hydraulic-1992/gaps.csv, machine, cum_h, , 62, 90, 120.1, 1.554",
    "lhd-fleet-1989/machines_abc.csv, machine, t, system, 59, 79, 54.6, 0.945",
    "dump-truck-1996/failure_times.csv, machine, t_hours, , 28, 100, 17.7, 0.706",
    "reliability-tables/machineh.csv, unit, hours, event, 262, 288, 311.8, 1.131",
    "reliability-tables/valveseat.csv, engine, days, event, 19, 29, 32.6, 1.442",
    "reliability-tables/grampus.csv, unit, kilohours, event, 27, 29, 36.1, 1.224",
    "reliability-tables/halfbeak.csv, unit, hours, event, 12, 59, 23.5, 1.563"
  })
  void secondHalfFromTheFirst(
      String file,
      String machine,
      String hours,
      String kind,
      int firstHalf,
      int secondHalf,
      double byPowerLaw,
      double shape)
      throws IOException {
    Watch watch =
        Watch.read(
            file,
            machine,
            hours,
            row ->
                kind == null
                    || !Set.of("*", "end", "start")
                        .contains(row.get(kind).toLowerCase(Locale.ROOT)));
    PowerLaw law = PowerLaw.fit(watch.until(0.5)).get();
    assertEquals(firstHalf, watch.events(0, 0.5));
    assertEquals(secondHalf, watch.events(0.5, 1));
    assertEquals(byPowerLaw, watch.foretold(law), 0.05);
    assertEquals(shape, law.shape(), 0.005);
  }

  /**
   * Hydraulic orders in the fourteen days on either side of one that names a hydraulic filter, by
   * two rules of words: the field of the system, and the text.
   */
  @ParameterizedTest
  @CsvSource({"true, 91, 136", "false, 116, 164"})
  void ordersAfterOneOnAFilterAreNoMoreThanBefore(boolean bySystem, int after, int before)
      throws IOException {
    Pattern filter =
        Pattern.compile("(?i)(?=.*filt).*(hyd|pilot|slew|return|servo|\\bhp\\b|high press).*");
    Pattern hydraulic = Pattern.compile("(?i).*(hyd|cyl|hose|pump|ram\\b|boost).*");
    List<Map<String, String>> filters = new ArrayList<>();
    List<Map<String, String>> others = new ArrayList<>();
    Set<List<String>> seen = new HashSet<>();
    int orders = 0;
    for (Map<String, String> row : table("excavator-work-orders/work_orders.csv")) {
      String text = row.get("OriginalShorttext");
      if (!seen.add(List.of(row.get("BscStartDate"), row.get("Asset"), text, row.get("Cost")))) {
        continue;
      }
      orders++;
      boolean system = row.get("MajorSystem").contains("ydraulic");
      if (filter.matcher(text).matches()) {
        filters.add(row);
      } else if (system || !bySystem && hydraulic.matcher(text).matches()) {
        others.add(row);
      }
    }
    assertEquals(5127, orders);
    assertEquals(60, filters.size());
    int[] found = new int[2];
    for (Map<String, String> f : filters) {
      for (Map<String, String> o : others) {
        if (o.get("Asset").equals(f.get("Asset"))) {
          long days =
              ChronoUnit.DAYS.between(
                  LocalDate.parse(f.get("BscStartDate")), LocalDate.parse(o.get("BscStartDate")));
          if (days != 0 && Math.abs(days) <= 14) {
            found[days > 0 ? 0 : 1]++;
          }
        }
      }
    }
    assertEquals(after, found[0]);
    assertEquals(before, found[1]);
  }
}
