package siltwright.analysis;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.function.Supplier;
import siltwright.model.Machine;
import siltwright.model.Problem;
import siltwright.model.Revision;

/**
 * What a run found: data that each front end shows in its own way.
 *
 * @param description the analysis
 * @param subject what it was run on: id of a machine, name of a fleet or of a table; may be empty
 * @param name what people call the subject, where its id does not say it; may be empty
 * @param values parameter values as texts, for the record
 * @param entries values, groups and tables in reading order
 * @param drawing gives the pictures in reading order, the same ones each time; they take time the
 *     first time, which a front end that shows none saves
 * @param findings findings, gravest first
 * @param rows how the rows of a table of records fared, where the result is of one
 * @param revisions what to change in the fleet file that a {@link FleetFileParameter} names
 */
public record Result(
    Description description,
    String subject,
    String name,
    Map<String, String> values,
    List<Entry> entries,
    Supplier<List<Figure>> drawing,
    List<Finding> findings,
    Optional<Rows> rows,
    List<Revision> revisions) {
  public Result {
    values = Map.copyOf(values);
    entries = List.copyOf(entries);
    findings = findings.stream().sorted((a, b) -> b.severity().compareTo(a.severity())).toList();
    revisions = List.copyOf(revisions);
  }

  /** Returns the pictures in reading order. */
  public List<Figure> figures() {
    return drawing.get();
  }

  /**
   * How the rows of a table fared.
   *
   * @param read rows in the file, the head not counted
   * @param kept rows that the result is of
   * @param refused rows left out
   * @param refusals why, for the first of them
   */
  public record Rows(int read, int kept, int refused, List<Problem> refusals) {
    public Rows {
      refusals = List.copyOf(refusals);
    }
  }

  /** Begins a result. */
  public static Builder of(Description description, String subject, Values values) {
    return new Builder(description, subject, "", values);
  }

  /** Begins a result on a machine. */
  public static Builder of(Description description, Machine machine, Values values) {
    return new Builder(description, machine.id(), machine.name(), values);
  }

  /** Collects the parts of a result. */
  public static final class Builder {
    private final Description description;
    private final String subject;
    private final String name;
    private final Values values;
    private final List<Entry> entries = new ArrayList<>();
    private final List<Supplier<List<Figure>>> figures = new ArrayList<>();
    private final List<Finding> findings = new ArrayList<>();
    private final List<Revision> revisions = new ArrayList<>();
    private Optional<Rows> rows = Optional.empty();

    private Builder(Description description, String subject, String name, Values values) {
      this.description = description;
      this.subject = subject;
      this.name = name;
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
      return figures(() -> List.of(figure));
    }

    /**
     * Adds figures that are drawn when they are first asked for, by any thread.
     *
     * @param drawing draws them; is called once at most
     */
    public Builder figures(Supplier<List<Figure>> drawing) {
      figures.add(drawing);
      return this;
    }

    /** Adds a finding. */
    public Builder finding(Finding.Severity severity, String text, String pointsAt) {
      findings.add(new Finding(severity, text, pointsAt));
      return this;
    }

    /** Tells how the rows of a table fared, with its refusals and the notes of its reading. */
    public Builder records(Records kept) {
      Refusals refusals = kept.refusals();
      rows =
          Optional.of(
              new Rows(
                  kept.rows() + refusals.count(),
                  kept.rows(),
                  refusals.count(),
                  refusals.listed()));
      kept.notes().forEach(note -> finding(Finding.Severity.NOTE, note, kept.source()));
      return this;
    }

    /** Tells how the rows of a file fared. */
    public Builder rows(Rows how) {
      rows = Optional.of(how);
      return this;
    }

    /** Adds a change for the fleet file. */
    public Builder add(Revision revision) {
      revisions.add(revision);
      return this;
    }

    /** Returns the result. */
    public Result build() {
      return new Result(
          description,
          subject,
          name,
          values.asTexts(),
          entries,
          new DrawnOnce(figures),
          findings,
          rows,
          revisions);
    }
  }
}
