package siltwright.card.internal;

import java.util.List;
import java.util.Optional;
import java.util.stream.Collectors;
import org.osgi.annotation.bundle.Capability;
import org.osgi.service.component.annotations.Component;
import siltwright.analysis.Analysis;
import siltwright.analysis.Cell;
import siltwright.analysis.Context;
import siltwright.analysis.Description;
import siltwright.analysis.Entry;
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
import siltwright.card.FilledCards;

/** Filled cards that came back: what is missing and what cannot be true. */
@Component
@Capability(namespace = "siltwright.command", name = "card-record")
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
    return FilledCards.columns();
  }

  @Override
  public Result run(Context context, Values values, Progress progress) {
    Records records = context.records().orElseThrow();
    progress.check(0, "cards");
    List<Filled> filled = FilledCards.of(records);
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
        "The cards were checked, not kept: card-keep, where the product has a store, keeps them.",
        records.source());
    return result.build();
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
