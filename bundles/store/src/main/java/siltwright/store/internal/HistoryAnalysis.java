package siltwright.store.internal;

import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import org.osgi.service.component.annotations.Component;
import siltwright.analysis.Analysis;
import siltwright.analysis.Cell;
import siltwright.analysis.Context;
import siltwright.analysis.Description;
import siltwright.analysis.Entry;
import siltwright.analysis.Finding.Severity;
import siltwright.analysis.Progress;
import siltwright.analysis.Result;
import siltwright.analysis.Scope;
import siltwright.analysis.Values;
import siltwright.model.history.FleetHistory;
import siltwright.model.history.KnownMachine;
import siltwright.model.history.MeterMend;
import siltwright.model.history.Moment;
import siltwright.model.history.RecordKind;

/** What records there are of each machine, and what its meter says. */
@Component
public final class HistoryAnalysis implements Analysis {
  private static final double H_PER_WEEK = 168;
  private static final double MS_PER_H = 3_600_000;

  private static final Description DESCRIPTION =
      Description.of(
          "history",
          "Records of the fleet",
          "What records are there of each machine, and does its hour meter go on as it must?",
          Scope.HISTORY);

  @Override
  public Description description() {
    return DESCRIPTION;
  }

  @Override
  public Result run(Context context, Values values, Progress progress) {
    FleetHistory history = context.history().orElseThrow();
    List<KnownMachine> machines = history.machines();
    Result.Builder result = Result.of(DESCRIPTION, "", values);
    List<Entry.Column> columns = new ArrayList<>();
    columns.add(new Entry.Column("machine", "Machine", ""));
    columns.add(new Entry.Column("serial", "Serial number", "", Entry.Use.DATA));
    columns.add(new Entry.Column("site", "Site", ""));
    for (RecordKind kind : RecordKind.values()) {
      columns.add(new Entry.Column(kind.word() + "s", kind.title(), "1"));
    }
    columns.add(new Entry.Column("first", "First", ""));
    columns.add(new Entry.Column("last", "Last", ""));
    columns.add(new Entry.Column("meter_h", "Meter shows", "h"));
    columns.add(new Entry.Column("hours_h", "Hours of the machine", "h"));
    columns.add(new Entry.Column("perWeek_h", "A week", "h"));
    List<List<Cell>> rows = new ArrayList<>();
    progress.check(0, "meters");
    List<MeterMend> mends = history.mends();
    for (int i = 0; i < machines.size(); i++) {
      KnownMachine m = machines.get(i);
      progress.check((double) i / machines.size(), "records of " + m.id());
      rows.add(row(history, m));
    }
    result.value("machines", "Machines", "1", machines.size());
    result.add(new Entry.Table("records", "Records by machine", Entry.Use.READ, columns, rows));
    for (MeterMend mend : mends) {
      result.finding(
          mend.taken() == MeterMend.Taken.UNCONFIRMED ? Severity.CAUTION : Severity.NOTE,
          mend.text(),
          mend.machine());
    }
    return result.build();
  }

  /** First and last moment of a machine, and what its meter showed at either end. */
  private static final class Span {
    private Instant first = Instant.MAX;
    private Instant last = Instant.MIN;
    private Moment early;
    private Moment late;

    void take(Moment m) {
      first = m.at().isBefore(first) ? m.at() : first;
      last = m.at().isAfter(last) ? m.at() : last;
      if (!Double.isNaN(m.meterH()) && !Double.isNaN(m.hoursH())) {
        early = early == null || m.at().isBefore(early.at()) ? m : early;
        late = late == null || !m.at().isBefore(late.at()) ? m : late;
      }
    }

    double perWeekH() {
      if (early == null) {
        return Double.NaN;
      }
      double passedH = (late.at().toEpochMilli() - early.at().toEpochMilli()) / MS_PER_H;
      return (late.hoursH() - early.hoursH()) / passedH * H_PER_WEEK;
    }
  }

  private static List<Cell> row(FleetHistory history, KnownMachine m) {
    List<Cell> row = new ArrayList<>();
    row.add(Cell.of(m.id()));
    row.add(Cell.of(m.serial()));
    row.add(Cell.of(m.site()));
    for (RecordKind kind : RecordKind.values()) {
      row.add(Cell.of(history.count(kind, m.id())));
    }
    Span span = new Span();
    history.moments(m.id(), span::take);
    boolean any = !span.last.equals(Instant.MIN);
    row.add(any ? day(span.first, m) : new Cell.None());
    row.add(any ? day(span.last, m) : new Cell.None());
    row.add(Cell.of(span.late == null ? Double.NaN : span.late.meterH()));
    row.add(Cell.of(span.late == null ? Double.NaN : span.late.hoursH()));
    row.add(Cell.of(span.perWeekH()));
    return row;
  }

  private static Cell day(Instant at, KnownMachine m) {
    return Cell.of(at.atZone(m.zone()).toLocalDate().toString());
  }
}
