package siltwright.fleet;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.function.Predicate;
import java.util.stream.Stream;

/** Reads the reference cases and their data sets. */
public final class ReferenceCases {
  private static final JsonNode CASES = read();

  private ReferenceCases() {}

  /** One case; its text names it and its source. */
  record Case(JsonNode node) {
    String id() {
      return node.get("id").asText();
    }

    JsonNode expected() {
      return node.get("expected");
    }

    JsonNode inline(String name) {
      return node.get("data").get("inline").get(name);
    }

    EventData data() {
      JsonNode system = node.get("data").path("filter").path("system");
      boolean dropped = id().endsWith("last_dropped");
      return events(
          node.get("data").get("file").asText(),
          row -> system.isMissingNode() || row.get("machine").equals(system.asText()),
          dropped);
    }

    void check(String name, double got) {
      check(id() + " " + name, expected().get(name), got);
    }

    static void check(String what, JsonNode want, double got) {
      near(
          what,
          want.get("value").asDouble(),
          got,
          want.get("rtol").asDouble(),
          want.get("atol").asDouble());
    }

    void column(String name, double[] got) {
      column(id() + " " + name, expected().get(name), got);
    }

    static void column(String what, JsonNode want, double[] got) {
      JsonNode values = want.get("values");
      assertEquals(values.size(), got.length, what);
      for (int i = 0; i < got.length; i++) {
        if (values.get(i).isNull()) {
          assertTrue(Double.isNaN(got[i]), what + " does not exist");
        } else {
          near(
              what + "[" + i + "]",
              values.get(i).asDouble(),
              got[i],
              want.get("rtol").asDouble(),
              want.get("atol").asDouble());
        }
      }
    }

    @Override
    public String toString() {
      return id() + " | " + node.get("title").asText() + " | " + node.path("source").asText();
    }
  }

  static void near(String what, double want, double got, double rtol, double atol) {
    assertTrue(
        Math.abs(got - want) <= atol + rtol * Math.abs(want),
        () -> what + ": expected " + want + ", got " + got);
  }

  static Stream<Case> cases(String part) {
    List<Case> cases = new ArrayList<>();
    for (JsonNode c : CASES.get("list")) {
      if (c.get("id").asText().contains(part)) {
        cases.add(new Case(c));
      }
    }
    assertTrue(!cases.isEmpty(), part);
    return cases.stream();
  }

  /** Returns the rows of a data set by column name. */
  public static List<Map<String, String>> rows(String file) {
    List<String> lines = text(file).lines().filter(l -> !l.startsWith("#")).toList();
    String[] names = lines.get(0).split(",");
    List<Map<String, String>> rows = new ArrayList<>();
    for (String line : lines.subList(1, lines.size())) {
      String[] cells = line.split(",", -1);
      Map<String, String> row = new LinkedHashMap<>();
      for (int c = 0; c < names.length; c++) {
        row.put(names[c], cells[c]);
      }
      rows.add(row);
    }
    return rows;
  }

  /** Returns a reference file's text. */
  public static String text(String file) {
    try (InputStream in = ReferenceCases.class.getResourceAsStream("reference/" + file)) {
      return new String(in.readAllBytes(), StandardCharsets.UTF_8);
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  /**
   * Returns the machines of a file.
   *
   * @param dropLast leave out events at the end of watching
   */
  static EventData events(String file, Predicate<Map<String, String>> keep, boolean dropLast) {
    List<String> machines = new ArrayList<>();
    Map<String, Double> ends = new LinkedHashMap<>();
    List<Integer> eventMachine = new ArrayList<>();
    List<Double> at = new ArrayList<>();
    for (Map<String, String> row : rows(file)) {
      if (!keep.test(row)) {
        continue;
      }
      String machine = row.get("machine");
      if (!machines.contains(machine)) {
        machines.add(machine);
      }
      double hours = Double.parseDouble(row.get("hours"));
      if (row.get("event").equals("1")) {
        eventMachine.add(machines.indexOf(machine));
        at.add(hours);
      } else {
        ends.put(machine, hours);
      }
    }
    double[] to = machines.stream().mapToDouble(ends::get).toArray();
    if (dropLast) {
      for (int e = at.size() - 1; e >= 0; e--) {
        if (at.get(e) == to[eventMachine.get(e)]) {
          at.remove(e);
          eventMachine.remove(e);
        }
      }
    }
    int[] windowMachine = new int[to.length];
    Arrays.setAll(windowMachine, i -> i);
    return EventData.of(
        machines,
        windowMachine,
        new double[to.length],
        to,
        eventMachine.stream().mapToInt(i -> i).toArray(),
        at.stream().mapToDouble(d -> d).toArray(),
        null);
  }

  private static JsonNode read() {
    try {
      return new ObjectMapper().readTree(text("cases.json"));
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  /** The minimal standard generator of the recipes, x <- 16807 x mod 2147483647. */
  public static final class Recipe {
    private long x;

    /** Begins at a seed. */
    public Recipe(long seed) {
      x = seed;
    }

    /** Returns the next number within 0 and 1. */
    public double next() {
      x = 16807 * x % 2147483647L;
      return x / 2147483647.0;
    }

    /** Returns the machines of timing job 3. */
    public static EventData machines(int n) {
      Recipe u = new Recipe(31337);
      List<String> names = new ArrayList<>();
      int[] windowMachine = new int[n];
      double[] to = new double[n];
      int[] machine = new int[16 * n];
      double[] at = new double[16 * n];
      int events = 0;
      for (int m = 0; m < n; m++) {
        names.add("M" + m);
        windowMachine[m] = m;
        to[m] = 4000 + 6000 * u.next();
        double t = 0;
        while (true) {
          t = Math.pow(Math.pow(t, 1.2) - Math.log(u.next()) / 2.7e-4, 1 / 1.2);
          if (t > to[m]) {
            break;
          }
          machine[events] = m;
          at[events++] = t;
        }
      }
      return EventData.of(
          names,
          windowMachine,
          new double[n],
          to,
          Arrays.copyOf(machine, events),
          Arrays.copyOf(at, events),
          null);
    }
  }
}
