package siltwright.command;

import java.util.ArrayList;
import java.util.List;
import siltwright.analysis.Cell;
import siltwright.analysis.Entry;
import siltwright.analysis.Overview;
import siltwright.analysis.Result;

/** The machines of a fleet as text, a line each; it stands last, where a terminal shows it. */
final class TextOverview {
  private TextOverview() {}

  /**
   * Returns the text of several results of one analysis.
   *
   * @param heading what they are of
   */
  static String of(String heading, Outcome outcome) {
    List<Result> results = outcome.results().stream().map(Outcome.Of::result).toList();
    List<String> lines = new ArrayList<>(TextResult.heading(heading));
    lines.addAll(TextResult.parameters(results.get(0)));
    for (Entry.Table table : Overview.of(results)) {
      List<Entry.Column> columns = new ArrayList<>();
      columns.add(new Entry.Column("", "Machine", ""));
      columns.addAll(table.columns());
      List<List<Cell>> rows = new ArrayList<>();
      for (int i = 0; i < results.size(); i++) {
        List<Cell> row = new ArrayList<>();
        row.add(Cell.of(outcome.results().get(i).id()));
        row.addAll(table.rows().get(i));
        rows.add(row);
      }
      lines.add("");
      lines.addAll(Text.wrapped(table.label(), TextTable.WIDTH));
      lines.addAll(
          TextTable.lines(
              new Entry.Table(table.name(), table.label(), Entry.Use.READ, columns, rows)));
    }
    lines.addAll(findings(outcome));
    return String.join("\n", lines) + "\n";
  }

  /** The first finding on each machine, which is the gravest. */
  private static List<String> findings(Outcome outcome) {
    List<String> lines = new ArrayList<>();
    int widest = outcome.results().stream().mapToInt(of -> Text.width(of.id())).max().orElse(0);
    for (Outcome.Of of : outcome.results()) {
      of.result().findings().stream()
          .findFirst()
          .ifPresent(
              f ->
                  lines.addAll(
                      TextResult.hanging(
                          Text.padded(of.id(), widest)
                              + "  "
                              + TextResult.word(f.severity())
                              + "  ",
                          f.text())));
    }
    if (!lines.isEmpty()) {
      lines.addAll(0, List.of("", "The gravest finding on each"));
    }
    return lines;
  }
}
