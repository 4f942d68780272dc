package siltwright.model.json;

import java.io.ByteArrayOutputStream;
import java.math.BigDecimal;
import java.math.MathContext;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.stream.Collectors;
import siltwright.model.Distribution;
import siltwright.model.InputException;
import siltwright.model.MachineParameter;
import siltwright.model.Problem;
import siltwright.model.Revision;
import siltwright.model.Uncertainty;

/**
 * Puts new numbers into the bytes of a fleet file and leaves every other byte as it was.
 *
 * <p>Numbers of components, ingress (each source in proportion), the return filter's field
 * efficiency and the cost of downtime can be changed: those that stand in a machine and belong to
 * no other. Values are written with ten significant digits.
 */
public final class FleetRevision {
  private static final MathContext DIGITS = new MathContext(10);

  private FleetRevision() {}

  private record Change(int start, int end, String text) {}

  /**
   * Returns the bytes of a file with revisions made.
   *
   * @param bytes the file, JSON in UTF-8; not modified
   * @param source name of the file in messages
   * @param revisions what to change
   * @throws InputException if the file is no fleet file, has no such machine or number, or would
   *     not be read back without a problem that it did not have before
   */
  public static byte[] revised(byte[] bytes, String source, List<Revision> revisions) {
    List<Problem> before = FleetReader.read(bytes, source).problems();
    byte[] now = bytes;
    for (Revision r : revisions) {
      now = revised(now, source, r);
    }
    List<Problem> problems = new ArrayList<>(FleetReader.read(now, source).problems());
    problems.removeAll(before);
    if (!problems.isEmpty()) {
      throw new InputException(problems);
    }
    return now;
  }

  private static byte[] revised(byte[] bytes, String source, Revision revision) {
    JsonSpan machine = machine(JsonSpan.of(bytes), source, revision);
    List<Change> changes = new ArrayList<>();
    for (Revision.Value v : revision.numbers()) {
      if (v.parameter().group() == MachineParameter.Group.INGRESS) {
        changes.addAll(ingress(bytes, source, machine, revision, v));
        continue;
      }
      JsonSpan span =
          find(machine, v.parameter()).orElseThrow(() -> absent(source, revision, v.parameter()));
      changes.add(new Change(span.start(), span.end(), number(v.value())));
    }
    revision.uncertainty().ifPresent(u -> changes.addAll(uncertainty(bytes, source, machine, u)));
    return replaced(bytes, changes);
  }

  private static JsonSpan machine(JsonSpan document, String source, Revision revision) {
    return document.fields().get("machines").items().stream()
        .filter(m -> id(m).equals(revision.machine()))
        .findFirst()
        .orElseThrow(
            () ->
                new InputException(
                    new Problem(source, "/machines", "no " + revision.machine(), "this machine")));
  }

  private static String id(JsonSpan item) {
    return Optional.ofNullable(item.fields().get("id")).map(JsonSpan::text).orElse("");
  }

  /** Ingress is a sum of sources: each takes its share of the new one. */
  private static List<Change> ingress(
      byte[] bytes, String source, JsonSpan machine, Revision revision, Revision.Value v) {
    List<JsonSpan> rates =
        Optional.ofNullable(machine.fields().get("ingress"))
            .map(i -> i.fields().get(v.parameter().number()))
            .map(JsonSpan::items)
            .orElse(List.of())
            .stream()
            .flatMap(item -> Optional.ofNullable(item.fields().get("rate_mg_per_h")).stream())
            .toList();
    double sum = rates.stream().mapToDouble(r -> number(bytes, r)).sum();
    if (!(sum > 0)) {
      throw absent(source, revision, v.parameter());
    }
    return rates.stream()
        .map(r -> new Change(r.start(), r.end(), number(number(bytes, r) * v.value() / sum)))
        .toList();
  }

  private static double number(byte[] bytes, JsonSpan span) {
    return Double.parseDouble(
        new String(bytes, span.start(), span.end() - span.start(), StandardCharsets.US_ASCII));
  }

  private static InputException absent(String source, Revision r, MachineParameter p) {
    return new InputException(
        new Problem(
            source, "machine " + r.machine(), p.toString(), "a number that stands in the machine"));
  }

  private static Optional<JsonSpan> find(JsonSpan machine, MachineParameter p) {
    Optional<JsonSpan> owner =
        switch (p.group()) {
          case COMPONENT ->
              machine.fields().get("components").items().stream()
                  .filter(c -> id(c).equals(p.id()))
                  .findFirst();
          case RETURN_FILTER -> Optional.ofNullable(machine.fields().get("returnFilter"));
          case COSTS -> Optional.ofNullable(machine.fields().get("costs"));
          default -> Optional.empty();
        };
    for (String key : p.number().split("/")) {
      owner = owner.map(o -> o.fields().get(key));
    }
    return owner;
  }

  /** Replaces what was said of the numbers, or adds the entry where nothing was. */
  private static List<Change> uncertainty(
      byte[] bytes, String source, JsonSpan machine, Uncertainty uncertainty) {
    String entry = entry(uncertainty);
    JsonSpan list = machine.fields().get("uncertainty");
    if (list == null) {
      JsonSpan last = machine.fields().values().stream().reduce((a, b) -> b).orElseThrow();
      String gap = before(bytes, machine.fields());
      return List.of(
          new Change(last.end(), last.end(), "," + gap + "\"uncertainty\": [" + entry + "]"));
    }
    Set<String> ours =
        uncertainty.parameters().stream().map(Object::toString).collect(Collectors.toSet());
    List<JsonSpan> replaced = new ArrayList<>();
    for (JsonSpan item : list.items()) {
      Set<String> theirs = parameters(item);
      if (ours.containsAll(theirs)) {
        replaced.add(item);
        continue;
      }
      for (String path : theirs) {
        if (ours.contains(path)) {
          throw new InputException(
              new Problem(
                  source,
                  "machine " + id(machine) + " uncertainty",
                  "a joint entry of " + path + " with other numbers",
                  "an entry of " + String.join(", ", ours) + " alone, which can be replaced"));
        }
      }
    }
    return entries(bytes, list, replaced, entry);
  }

  private static List<Change> entries(
      byte[] bytes, JsonSpan list, List<JsonSpan> replaced, String entry) {
    List<JsonSpan> items = list.items();
    if (replaced.isEmpty()) {
      if (items.isEmpty()) {
        return List.of(new Change(list.start(), list.end(), "[" + entry + "]"));
      }
      JsonSpan last = items.get(items.size() - 1);
      String gap =
          text(bytes, items.size() > 1 ? items.get(items.size() - 2).end() : list.start() + 1, last)
              .replace(",", "");
      return List.of(new Change(last.end(), last.end(), "," + gap + entry));
    }
    List<Change> changes = new ArrayList<>();
    changes.add(new Change(replaced.get(0).start(), replaced.get(0).end(), entry));
    for (JsonSpan item : replaced.subList(1, replaced.size())) {
      // with the comma and blanks before it: one that is replaced in place always stands before it
      int at = items.indexOf(item);
      changes.add(new Change(items.get(at - 1).end(), item.end(), ""));
    }
    return changes;
  }

  private static String text(byte[] bytes, int from, JsonSpan to) {
    return new String(bytes, from, to.start() - from, StandardCharsets.UTF_8);
  }

  /** Returns the blanks before the last key of an object, a line break and indentation mostly. */
  private static String before(byte[] bytes, Map<String, JsonSpan> fields) {
    List<JsonSpan> values = List.copyOf(fields.values());
    if (values.size() < 2) {
      return " ";
    }
    String between =
        text(bytes, values.get(values.size() - 2).end(), values.get(values.size() - 1));
    return between.substring(between.indexOf(',') + 1, between.indexOf('"'));
  }

  private static Set<String> parameters(JsonSpan item) {
    Set<String> all = new HashSet<>();
    Optional.ofNullable(item.fields().get("parameter")).map(JsonSpan::text).ifPresent(all::add);
    Optional.ofNullable(item.fields().get("parameters"))
        .ifPresent(list -> list.items().forEach(p -> all.add(p.text())));
    return all;
  }

  private static String entry(Uncertainty u) {
    List<String> paths =
        u.parameters().stream().map(p -> "\"" + p + "\"").collect(Collectors.toList());
    if (u.distribution() instanceof Distribution.LogNormal l) {
      return "{\"parameter\": "
          + paths.get(0)
          + ", \"distribution\": \"lognormal\", \"factor95\": "
          + number(l.factor95())
          + "}";
    }
    if (u.distribution() instanceof Distribution.JointLogNormal joint) {
      List<String> rows = new ArrayList<>();
      for (double[] row : joint.logCovariance()) {
        List<String> cells = new ArrayList<>();
        for (double v : row) {
          cells.add(number(v));
        }
        rows.add("[" + String.join(", ", cells) + "]");
      }
      return "{\"parameters\": ["
          + String.join(", ", paths)
          + "], \"distribution\": \"joint-lognormal\", \"logCovariance\": ["
          + String.join(", ", rows)
          + "]}";
    }
    throw new IllegalArgumentException("a revision is lognormal, not " + u.distribution());
  }

  private static String number(double value) {
    BigDecimal rounded = new BigDecimal(value).round(DIGITS).stripTrailingZeros();
    return rounded.scale() < -DIGITS.getPrecision() || rounded.scale() > 2 * DIGITS.getPrecision()
        ? rounded.toString()
        : rounded.toPlainString();
  }

  private static byte[] replaced(byte[] bytes, List<Change> changes) {
    List<Change> inOrder = new ArrayList<>(changes);
    inOrder.sort(Comparator.comparingInt(Change::start));
    ByteArrayOutputStream out = new ByteArrayOutputStream(bytes.length + 256);
    int at = 0;
    for (Change c : inOrder) {
      out.write(bytes, at, c.start() - at);
      out.writeBytes(c.text().getBytes(StandardCharsets.UTF_8));
      at = c.end();
    }
    out.write(bytes, at, bytes.length - at);
    return out.toByteArray();
  }
}
