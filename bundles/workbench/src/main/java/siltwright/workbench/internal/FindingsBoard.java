package siltwright.workbench.internal;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import siltwright.analysis.Finding;
import siltwright.analysis.Finding.Severity;
import siltwright.model.Problem;

/**
 * Findings of all panes and problems of the document. What was found of a machine stays until the
 * machine changes, so that the tree can mark machines that are not selected now.
 */
final class FindingsBoard {
  private static final int MOST_PROBLEMS = 2000;

  private final Map<Source, Published> published = new LinkedHashMap<>();
  private final List<Runnable> listeners = new ArrayList<>();
  private List<Row> problems = List.of();
  private List<Problem> problemsOf;

  private record Source(String title, String machine) {}

  /**
   * What was found, and of which machine it was: compared by identity, since a change makes
   * another.
   */
  private record Published(Object machine, List<Finding> findings) {}

  /**
   * A line of the list.
   *
   * @param severity how much it matters
   * @param machine id of the machine; empty if it is of none
   * @param text what is to be said
   * @param source who says it
   * @param pointsAt what it is about
   */
  record Row(Severity severity, String machine, String text, String source, String pointsAt) {}

  void addListener(Runnable listener) {
    listeners.add(listener);
  }

  void removeListener(Runnable listener) {
    listeners.remove(listener);
  }

  private void changed() {
    List.copyOf(listeners).forEach(Runnable::run);
  }

  /** Replaces what a pane says of a machine. */
  void publish(String title, String id, Object machine, List<Finding> findings) {
    Source source = new Source(title, id);
    if (findings.isEmpty()) {
      if (published.remove(source) != null) {
        changed();
      }
    } else {
      published.put(source, new Published(machine, List.copyOf(findings)));
      changed();
    }
  }

  /** Takes the document's problems and forgets findings of machines that are not as they were. */
  void follow(Document document) {
    List<Problem> now = document.text().map(t -> t.problems()).orElse(List.of());
    boolean other = now != problemsOf;
    if (other) {
      problemsOf = now;
      problems = now.stream().limit(MOST_PROBLEMS).map(FindingsBoard::row).toList();
    }
    boolean gone =
        published
            .entrySet()
            .removeIf(
                e -> {
                  Optional<?> machine =
                      e.getKey().machine().isEmpty()
                          ? document.text().map(t -> (Object) t.fleet())
                          : document
                              .text()
                              .flatMap(t -> t.pointer(e.getKey().machine()).flatMap(t::machineAt));
                  return machine.isEmpty() || machine.get() != e.getValue().machine();
                });
    if (other || gone) {
      changed();
    }
  }

  private static Row row(Problem p) {
    String place = p.place();
    int slash = place.indexOf('/');
    String machine =
        place.startsWith("machine ") ? place.substring("machine ".length()).split(" ")[0] : "";
    String found = p.value().isEmpty() ? "" : Texts.of("findings.found", p.value()) + " ";
    return new Row(
        Severity.WARNING,
        machine,
        found + Texts.of("findings.expected", p.expected()),
        Texts.of("findings.file"),
        slash < 0 ? "" : place.substring(slash));
  }

  /** Returns all lines, gravest first. */
  List<Row> rows() {
    List<Row> rows = new ArrayList<>(problems);
    published.forEach(
        (source, what) ->
            what.findings()
                .forEach(
                    f ->
                        rows.add(
                            new Row(
                                f.severity(),
                                source.machine(),
                                f.text(),
                                source.title(),
                                f.pointsAt()))));
    rows.sort(Comparator.comparing(Row::severity).reversed());
    return rows;
  }

  /** Returns the gravest severity of a machine's lines. */
  Map<String, Severity> bySeverity() {
    Map<String, Severity> worst = new LinkedHashMap<>();
    for (Row row : rows()) {
      worst.putIfAbsent(row.machine(), row.severity());
    }
    return worst;
  }
}
