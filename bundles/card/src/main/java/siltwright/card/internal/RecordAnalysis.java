package siltwright.card.internal;

import java.util.ArrayList;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.stream.Collectors;
import org.osgi.service.component.annotations.Component;
import siltwright.analysis.Analysis;
import siltwright.analysis.Cell;
import siltwright.analysis.Context;
import siltwright.analysis.Description;
import siltwright.analysis.Entry;
import siltwright.analysis.ExactNumber;
import siltwright.analysis.Finding.Severity;
import siltwright.analysis.FleetFileParameter;
import siltwright.analysis.Progress;
import siltwright.analysis.RecordColumn;
import siltwright.analysis.Records;
import siltwright.analysis.Result;
import siltwright.analysis.Scope;
import siltwright.analysis.Values;
import siltwright.card.CardRecords;
import siltwright.card.CardRecords.Fault;
import siltwright.card.CardRecords.Filled;
import siltwright.card.CardRecords.Remark;
import siltwright.card.RecordField;

/** Filled cards that came back: what is missing and what cannot be true. */
@Component
public final class RecordAnalysis implements Analysis {
  private static final FleetFileParameter FLEET =
      new FleetFileParameter(
          "fleet", "the fleet of the cards, to check machines, procedures and elements; only read");
  private static final Description DESCRIPTION =
      Description.of(
          "card-record",
          "Filled service cards",
          "Checks filled cards: is anything missing, and can all of it be true?",
          Scope.RECORDS,
          FLEET);

  @Override
  public Description description() {
    return DESCRIPTION;
  }

  @Override
  public List<RecordColumn> columns(Values values) {
    List<RecordColumn> columns = new ArrayList<>();
    columns.add(RecordColumn.word("card", true, "id of the card, as printed and in its code"));
    columns.add(RecordColumn.word("date", true, "day of the change, such as 2026-03-31"));
    columns.add(RecordColumn.word("doneBy", true, "who did it"));
    columns.add(RecordColumn.word("checkedBy", true, "who checked it"));
    for (RecordField f : RecordField.values()) {
      columns.add(
          f.kind() == RecordField.Kind.NUMBER
              ? RecordColumn.number(f.column(), f.low(), f.high(), f.required(), f.meaning())
              : RecordColumn.word(f.column(), f.required(), f.meaning()));
    }
    return columns;
  }

  @Override
  public Result run(Context context, Values values, Progress progress) {
    Records records = context.records().orElseThrow();
    List<Filled> filled = new ArrayList<>();
    for (int row = 0; row < records.rows(); row++) {
      progress.check((double) row / records.rows(), "row " + records.line(row));
      filled.add(filled(records, row));
    }
    List<Remark> remarks = new CardRecords(context.fleet()).check(filled);
    Result.Builder result = Result.of(DESCRIPTION, records.source(), values).records(records);
    long sound = filled.stream().filter(f -> worst(remarks, f).isEmpty()).count();
    result.value("sound", "Complete and without contradiction", sound + " of " + filled.size());
    result.add(overview(filled, remarks));
    result.add(remarks(remarks));
    for (Remark r : remarks) {
      result.finding(
          r.fault() == Fault.MISSING ? Severity.CAUTION : Severity.WARNING,
          "Row " + r.line() + ": " + r.text(),
          r.column());
    }
    result.finding(
        Severity.NOTE,
        "The cards were checked, not kept: put them by together with this result.",
        records.source());
    return result.build();
  }

  private static Filled filled(Records records, int row) {
    Map<RecordField, String> fields = new EnumMap<>(RecordField.class);
    for (RecordField f : RecordField.values()) {
      String text = text(records, f.column(), row);
      if (!text.isEmpty()) {
        fields.put(f, text);
      }
    }
    return new Filled(
        records.line(row),
        text(records, "card", row),
        text(records, "date", row),
        text(records, "doneBy", row),
        text(records, "checkedBy", row),
        fields);
  }

  private static String text(Records records, String column, int row) {
    return records
        .find(column)
        .filter(c -> !c.missing(row))
        .map(c -> c instanceof Records.Numbers n ? ExactNumber.text(n.values()[row]) : c.text(row))
        .orElse("");
  }

  private static Optional<Fault> worst(List<Remark> remarks, Filled record) {
    List<Fault> faults =
        remarks.stream().filter(r -> r.line() == record.line()).map(Remark::fault).toList();
    return faults.contains(Fault.CONTRADICTION)
        ? Optional.of(Fault.CONTRADICTION)
        : faults.stream().findFirst();
  }

  private static Entry.Table overview(List<Filled> filled, List<Remark> remarks) {
    return new Entry.Table(
        "records",
        "Cards",
        Entry.Use.READ,
        List.of(
            new Entry.Column("row", "Row", ""),
            new Entry.Column("card", "Card", ""),
            new Entry.Column("date", "Date", ""),
            new Entry.Column("state", "State", "")),
        filled.stream()
            .map(
                f ->
                    List.of(
                        Cell.of(Integer.toString(f.line())),
                        Cell.of(f.card()),
                        Cell.of(f.date()),
                        Cell.of(
                            remarks.stream()
                                .filter(r -> r.line() == f.line())
                                .map(r -> r.fault().word())
                                .distinct()
                                .collect(
                                    Collectors.collectingAndThen(
                                        Collectors.joining(", "),
                                        s -> s.isEmpty() ? "sound" : s)))))
            .toList());
  }

  private static Entry.Table remarks(List<Remark> remarks) {
    return new Entry.Table(
        "remarks",
        "What is missing or cannot be true",
        Entry.Use.DATA,
        List.of(
            new Entry.Column("row", "Row", ""),
            new Entry.Column("column", "Column", ""),
            new Entry.Column("fault", "Fault", ""),
            new Entry.Column("text", "What", "")),
        remarks.stream()
            .map(
                r ->
                    List.of(
                        Cell.of(Integer.toString(r.line())),
                        Cell.of(r.column()),
                        Cell.of(r.fault().word()),
                        Cell.of(r.text())))
            .toList());
  }
}
