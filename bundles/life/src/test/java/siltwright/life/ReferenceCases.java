package siltwright.life;

import static org.junit.jupiter.api.Assertions.assertTrue;
import static org.junit.jupiter.api.Assertions.fail;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.io.BufferedReader;
import java.io.IOException;
import java.io.InputStream;
import java.io.InputStreamReader;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.stream.Stream;

/** Reads the reference cases and their data sets. */
final class ReferenceCases {
  private static final String FOLDER = "reference/";
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

    String file() {
      return node.get("data").path("file").asText();
    }

    @Override
    public String toString() {
      return id() + " | " + node.get("title").asText() + " | " + node.path("source").asText();
    }

    /** Checks a number against the expected one of that name, where the case has it. */
    void check(String name, double got) {
      check(name, expected().get(name), got);
    }

    void check(String name, JsonNode want, double got) {
      if (want == null) {
        return;
      }
      if (want.isNull()) {
        assertTrue(!Double.isFinite(got), () -> id() + " " + name + ": does not exist, got " + got);
        return;
      }
      double value = want.isNumber() ? want.asDouble() : want.get("value").asDouble();
      double rtol = want.path("rtol").asDouble(1e-5);
      double atol = want.path("atol").asDouble(0);
      near(id() + " " + name, value, got, rtol, atol);
    }

    /** Checks a column. */
    void column(String name, double[] got) {
      JsonNode want = expected().get(name);
      if (want == null) {
        return;
      }
      JsonNode values = want.get("values");
      if (values.size() != got.length) {
        fail(id() + " " + name + ": " + values.size() + " values expected, got " + got.length);
      }
      for (int i = 0; i < got.length; i++) {
        String at = name + "[" + i + "]";
        if (values.get(i).isNull()) {
          check(at, values.get(i), got[i]);
        } else {
          near(
              id() + " " + at,
              values.get(i).asDouble(),
              got[i],
              want.get("rtol").asDouble(),
              want.get("atol").asDouble());
        }
      }
    }
  }

  static void near(String what, double want, double got, double rtol, double atol) {
    assertTrue(
        Math.abs(got - want) <= atol + rtol * Math.abs(want),
        () -> what + ": expected " + want + ", got " + got);
  }

  static Stream<Case> group(String group, String part) {
    List<Case> cases = new ArrayList<>();
    for (JsonNode c : CASES.get("list")) {
      if (c.get("group").asText().equals(group) && c.get("id").asText().contains(part)) {
        cases.add(new Case(c));
      }
    }
    assertTrue(!cases.isEmpty());
    return cases.stream();
  }

  /** A table of text by column name. */
  record Table(List<String[]> rows, Map<String, Integer> columns) {
    double[] numbers(String name, double empty) {
      double[] v = new double[rows.size()];
      for (int i = 0; i < v.length; i++) {
        String cell = rows.get(i)[columns.get(name)];
        v[i] = cell.isEmpty() ? empty : Double.parseDouble(cell);
      }
      return v;
    }

    String[] texts(String name) {
      return rows.stream().map(r -> r[columns.get(name)]).toArray(String[]::new);
    }

    boolean has(String name) {
      return columns.containsKey(name);
    }

    LifeData data() {
      double[] entry = has("entry") ? numbers("entry", 0) : null;
      double[] count = has("count") ? numbers("count", 1) : null;
      if (has("lower")) {
        return LifeData.ofColumns(
            numbers("lower", 0), numbers("upper", Double.POSITIVE_INFINITY), entry, count);
      }
      double[] lower = numbers("time", Double.NaN);
      double[] upper = lower.clone();
      double[] event = numbers("event", Double.NaN);
      for (int i = 0; i < upper.length; i++) {
        upper[i] = event[i] == 1 ? upper[i] : Double.POSITIVE_INFINITY;
      }
      return LifeData.ofColumns(lower, upper, entry, count);
    }
  }

  static Table table(String file) {
    try (BufferedReader in =
        new BufferedReader(
            new InputStreamReader(
                ReferenceCases.class.getResourceAsStream(FOLDER + file), StandardCharsets.UTF_8))) {
      Map<String, Integer> columns = new HashMap<>();
      for (String name : in.readLine().split(",")) {
        columns.put(name, columns.size());
      }
      List<String[]> rows = in.lines().map(l -> l.split(",", -1)).toList();
      return new Table(rows, columns);
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  private static JsonNode read() {
    try (InputStream in = ReferenceCases.class.getResourceAsStream(FOLDER + "cases.json")) {
      return new ObjectMapper().readTree(in);
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  /** The minimal standard generator of the recipes, x <- 16807 x mod 2147483647. */
  static final class Recipe {
    private long x;

    Recipe(long seed) {
      x = seed;
    }

    double next() {
      x = 16807 * x % 2147483647L;
      return x / 2147483647.0;
    }

    /** Weibull lives with uniform censoring, life drawn first. */
    static LifeData weibull(int n, long seed, double shape, double scale, double from, double to) {
      Recipe u = new Recipe(seed);
      double[] hours = new double[n];
      boolean[] failed = new boolean[n];
      for (int i = 0; i < n; i++) {
        double life = scale * Math.pow(-Math.log(u.next()), 1 / shape);
        double censoring = from + (to - from) * u.next();
        failed[i] = life <= censoring;
        hours[i] = Math.min(life, censoring);
      }
      return LifeData.of(hours, failed);
    }
  }
}
