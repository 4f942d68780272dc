package siltwright.command;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import siltwright.analysis.Entry;
import siltwright.analysis.ExactNumber;
import siltwright.analysis.Finding;
import siltwright.analysis.NumberParameter;
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
    text.lines.addAll(heading(heading));
    text.lines.addAll(parameters(result));
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

  /** Returns a heading, underlined. */
  static List<String> heading(String heading) {
    List<String> wrapped = new ArrayList<>(Text.wrapped(heading, TextTable.WIDTH));
    wrapped.add("=".repeat(wrapped.stream().mapToInt(Text::width).max().orElse(0)));
    return wrapped;
  }

  /** Returns the parameter values that a result was got with. */
  static List<String> parameters(Result result) {
    List<String> given = new ArrayList<>();
    for (Parameter<?> p : result.description().parameters()) {
      String value = result.values().get(p.name());
      if (value != null) {
        String unit = p instanceof NumberParameter n ? Numbers.shown(n.unit()) : "";
        String text = p.read(value) instanceof Double d ? ExactNumber.text(d) : value;
        given.add((p.name() + " " + text + " " + unit).strip());
      }
    }
    return given.isEmpty()
        ? List.of()
        : Text.wrapped("With " + String.join(", ", given), TextTable.WIDTH);
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
        if (group.use() == Entry.Use.READ) {
          values(group.label(), group.shown().values());
        } else {
          left.add(group.name());
        }
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
      String text = CellText.of(v.cell(), v.unit());
      boolean none = text.equals(Numbers.NONE);
      List<String> right =
          Text.wrapped(none ? text : (text + " " + Numbers.shown(v.unit())).strip(), space);
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
      lines.addAll(hanging(Text.padded(word(f.severity()), widest) + INDENT, f.text() + about));
    }
  }

  /** Returns a text behind a head, its further lines indented as far. */
  static List<String> hanging(String head, String text) {
    List<String> lines = new ArrayList<>();
    String before = head;
    for (String line : Text.wrapped(text, TextTable.WIDTH - Text.width(head))) {
      lines.add(before + line);
      before = " ".repeat(Text.width(head));
    }
    return lines;
  }

  /** Returns the word for a severity. */
  static String word(Finding.Severity severity) {
    String name = severity.name();
    return name.charAt(0) + name.substring(1).toLowerCase(Locale.ROOT);
  }
}
