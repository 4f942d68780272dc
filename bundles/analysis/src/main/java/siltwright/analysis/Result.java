package siltwright.analysis;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;

/**
 * What a run found: data that each front end shows in its own way.
 *
 * @param description the analysis
 * @param subject what it was run on: id of a machine, name of a fleet or of a table; may be empty
 * @param values parameter values as texts, for the record
 * @param entries values, groups and tables in reading order
 * @param figures pictures in reading order
 * @param findings findings, gravest first
 */
public record Result(
    Description description,
    String subject,
    Map<String, String> values,
    List<Entry> entries,
    List<Figure> figures,
    List<Finding> findings) {
  public Result {
    values = Map.copyOf(values);
    entries = List.copyOf(entries);
    figures = List.copyOf(figures);
    findings = findings.stream().sorted((a, b) -> b.severity().compareTo(a.severity())).toList();
  }

  /** Begins a result. */
  public static Builder of(Description description, String subject, Values values) {
    return new Builder(description, subject, values);
  }

  /** Collects the parts of a result. */
  public static final class Builder {
    private final Description description;
    private final String subject;
    private final Values values;
    private final List<Entry> entries = new ArrayList<>();
    private final List<Figure> figures = new ArrayList<>();
    private final List<Finding> findings = new ArrayList<>();

    private Builder(Description description, String subject, Values values) {
      this.description = description;
      this.subject = subject;
      this.values = values;
    }

    /** Adds a number with its unit. */
    public Builder value(String name, String label, String unit, double number) {
      return add(new Entry.Value(name, label, unit, Cell.of(number)));
    }

    /** Adds a text. */
    public Builder value(String name, String label, String text) {
      return add(new Entry.Value(name, label, "", Cell.of(text)));
    }

    /** Adds a value, group or table. */
    public Builder add(Entry entry) {
      entries.add(entry);
      return this;
    }

    /** Adds a figure. */
    public Builder add(Figure figure) {
      figures.add(figure);
      return this;
    }

    /** Adds a finding. */
    public Builder finding(Finding.Severity severity, String text, String pointsAt) {
      findings.add(new Finding(severity, text, pointsAt));
      return this;
    }

    /** Returns the result. */
    public Result build() {
      return new Result(description, subject, values.asTexts(), entries, figures, findings);
    }
  }
}
