package siltwright.command;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import siltwright.analysis.Entry;
import siltwright.analysis.Finding;
import siltwright.analysis.Numbers;
import siltwright.analysis.Parameter;
import siltwright.analysis.Result;

/** A result as text for people, at most {@value TextTable#WIDTH} places wide. */
final class TextResult {
  private static final int LABEL = 48;
  private static final String INDENT = "  ";

  private final List<String> lines = new ArrayList<>();

  private TextResult() {}

  /**
   * Returns the text of a result.
   *
   * @param heading what it is of
   */
  static String of(String heading, Result result) {
    TextResult text = new TextResult();
    text.heading(heading);
    text.parameters(result);
    result
        .rows()
        .ifPresent(
            r ->
                text.lines.add(
                    r.read()
                        + (r.read() == 1 ? " row read, " : " rows read, ")
                        + r.kept()
                        + " kept, "
                        + r.refused()
                        + " refused"));
    text.entries(result.entries());
    text.findings(result.findings());
    return String.join("\n", text.lines) + "\n";
  }

  private void heading(String heading) {
    List<String> wrapped = Text.wrapped(heading, TextTable.WIDTH);
    lines.addAll(wrapped);
    lines.add("=".repeat(wrapped.stream().mapToInt(Text::width).max().orElse(0)));
  }

  private void parameters(Result result) {
    List<String> given = new ArrayList<>();
    for (Parameter<?> p : result.description().parameters()) {
      String value = result.values().get(p.name());
      if (value != null) {
        given.add(
            p.name() + " " + (p.read(value) instanceof Double d ? ExactNumber.text(d) : value));
      }
    }
    if (!given.isEmpty()) {
      lines.addAll(Text.wrapped("With " + String.join(", ", given), TextTable.WIDTH));
    }
  }

  private void entries(List<Entry> entries) {
    List<Entry.Value> together = new ArrayList<>();
    List<String> left = new ArrayList<>();
    for (Entry entry : entries) {
      if (entry instanceof Entry.Value value) {
        together.add(value);
        continue;
      }
      values("", together);
      together.clear();
      if (entry instanceof Entry.Group group) {
        values(group.label(), group.values());
      } else if (entry instanceof Entry.Table table) {
        if (table.use() == Entry.Use.READ) {
          lines.add("");
          lines.addAll(Text.wrapped(table.label(), TextTable.WIDTH));
          lines.addAll(TextTable.lines(table));
        } else {
          left.add(table.name() + " (" + table.rows().size() + " rows)");
        }
      }
    }
    values("", together);
    if (!left.isEmpty()) {
      lines.add("");
      lines.addAll(
          Text.wrapped(
              "Not shown, see --json or --csv: " + String.join(", ", left), TextTable.WIDTH));
    }
  }

  private void values(String label, List<Entry.Value> values) {
    if (values.isEmpty()) {
      return;
    }
    lines.add("");
    String indent = label.isEmpty() ? "" : INDENT;
    if (!label.isEmpty()) {
      lines.addAll(Text.wrapped(label, TextTable.WIDTH));
    }
    int widest =
        Math.min(LABEL, values.stream().mapToInt(v -> Text.width(v.label())).max().orElse(0));
    int space = TextTable.WIDTH - indent.length() - widest - INDENT.length();
    for (Entry.Value v : values) {
      String unit = v.unit().isEmpty() ? "" : " " + v.unit();
      String text = CellText.of(v.cell());
      List<String> right = Text.wrapped(text.equals(Numbers.NONE) ? text : text + unit, space);
      List<String> left = Text.wrapped(v.label(), widest);
      for (int i = 0; i < Math.max(left.size(), right.size()); i++) {
        String l = i < left.size() ? left.get(i) : "";
        String r = i < right.size() ? right.get(i) : "";
        lines.add((indent + Text.padded(l, widest) + INDENT + r).stripTrailing());
      }
    }
  }

  private void findings(List<Finding> findings) {
    if (findings.isEmpty()) {
      return;
    }
    lines.add("");
    int widest = 0;
    for (Finding.Severity s : Finding.Severity.values()) {
      widest = Math.max(widest, s.name().length());
    }
    for (Finding f : findings) {
      String about = f.pointsAt().isEmpty() ? "" : " [" + f.pointsAt() + "]";
      String word = word(f.severity());
      for (String line :
          Text.wrapped(f.text() + about, TextTable.WIDTH - widest - INDENT.length())) {
        lines.add(Text.padded(word, widest) + INDENT + line);
        word = "";
      }
    }
  }

  private static String word(Finding.Severity severity) {
    String name = severity.name();
    return name.charAt(0) + name.substring(1).toLowerCase(Locale.ROOT);
  }
}
