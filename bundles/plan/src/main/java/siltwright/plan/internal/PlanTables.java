package siltwright.plan.internal;

import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import java.util.stream.Collectors;
import siltwright.analysis.Cell;
import siltwright.analysis.Entry;
import siltwright.analysis.Entry.Column;
import siltwright.analysis.Entry.Use;
import siltwright.analysis.Result;
import siltwright.analysis.Values;
import siltwright.plan.FleetPlan;
import siltwright.plan.FleetPlan.AgeKnown;
import siltwright.plan.FleetPlan.Member;
import siltwright.plan.FleetPlan.Part;
import siltwright.plan.FleetPlan.Visit;
import siltwright.plan.PlanRequest;
import siltwright.plan.Planner;
import siltwright.plan.Task;

/** The numbers of a plan. */
final class PlanTables {
  /** Longer tables are for programs; people get the documents. */
  private static final int READABLE_ROWS = 200;

  private static final double[] OFF = {-0.5, -0.25, 0.25, 0.5};

  private final FleetPlan plan;
  private final Values values;
  private final String currency;

  PlanTables(FleetPlan plan, Values values) {
    this.plan = plan;
    this.values = values;
    currency = plan.fleet().currency();
  }

  void addTo(Result.Builder result) {
    Planner.Plan best = plan.answer().plan();
    result.value("from", "First day", plan.days().start().toString());
    result.value("days", "Days", "d", plan.days().length());
    result.value("machines", "Machines planned", "1", plan.members().size());
    result.add(comparison());
    double bound = plan.answer().boundMoney();
    result.value("saved", "Less than with due dates", currency, saved());
    result.value("bound", "No plan costs less than", currency, bound);
    result.value(
        "gap", "So this plan is above the least by at most", "%", 100 * (best.money() / bound - 1));
    result.add(due());
    result.add(visits());
    result.add(changes());
    result.add(timing());
    result.add(parts());
  }

  private double saved() {
    return plan.answer().dueDates().money() - plan.answer().plan().money();
  }

  private Entry.Table comparison() {
    return new Entry.Table(
        "comparison",
        "This plan, and every change on its due day",
        Use.READ,
        List.of(
            new Column("plan", "Plan", ""),
            new Column("changes", "Changes", "1"),
            new Column("visits", "Visits", "1"),
            new Column("driving_h", "Driving", "h"),
            new Column("timing", "Early and late changes", currency),
            new Column("driving", "Driving", currency),
            new Column("overtime", "Overtime", currency),
            new Column("total", "Together", currency)),
        List.of(row("this plan", plan.answer().plan()), row("due days", plan.answer().dueDates())));
  }

  private static List<Cell> row(String name, Planner.Plan p) {
    return List.of(
        Cell.of(name),
        Cell.of(p.changes()),
        Cell.of(p.visits()),
        Cell.of(p.drivenH()),
        Cell.of(p.timingMoney()),
        Cell.of(p.travelMoney()),
        Cell.of(p.overtimeMoney()),
        Cell.of(p.money()));
  }

  private Entry.Table due() {
    List<List<Cell>> rows = new ArrayList<>();
    for (int i = 0; i < plan.members().size(); i++) {
      Member m = plan.members().get(i);
      Task t = m.task();
      int[] chain = plan.answer().plan().chains()[i];
      rows.add(
          List.of(
              Cell.of(m.machine().id()),
              Cell.of(m.machine().site()),
              Cell.of(m.procedure().id()),
              m.log()
                  .map(
                      l ->
                          Cell.of(
                              l.lastMeterH()
                                  + t.usage().hours(l.lastDay(), plan.days().start().toEpochDay())))
                  .orElseGet(Cell.None::new),
              Cell.of(t.ageH(0)),
              Cell.of(known(m.ageKnown())),
              Cell.of(t.usage().perDayH()),
              Cell.of(t.usage().perDaySdH()),
              Cell.of(100 * t.usage().ownShare()),
              Cell.of(t.cost().bestH()),
              new Cell.Range(t.cost().lowH(), t.cost().highH()),
              date(plan.dueDay(t)),
              t.windowLow(-1) <= t.windowHigh(-1) && t.windowHigh(-1) >= 0
                  ? Cell.of(plan.days().date(t.windowLow(-1)).toString())
                  : new Cell.None(),
              t.windowLow(-1) <= t.windowHigh(-1) && t.windowHigh(-1) >= 0
                  ? Cell.of(plan.days().date(t.windowHigh(-1)).toString())
                  : new Cell.None(),
              chain.length == 0 ? new Cell.None() : Cell.of(plan.days().date(chain[0]).toString()),
              Cell.of(chain.length)));
    }
    return new Entry.Table(
        "due",
        "Machines and when they are due",
        use(rows),
        List.of(
            new Column("machine", "Machine", ""),
            new Column("site", "Site", ""),
            new Column("procedure", "Procedure", "", Use.DATA),
            new Column("meter_h", "Meter", "h"),
            new Column("onElement_h", "On the element", "h"),
            new Column("onElementFrom", "known from", ""),
            new Column("use_h_per_day", "Use a day", "h/d"),
            new Column("useError_h_per_day", "±", "h/d"),
            new Column("ownReadings", "from own readings", "%", Use.DATA),
            new Column("best_h", "Best interval", "h"),
            new Column("within5pct_h", "Within 5 %", "h"),
            new Column("dueDate", "Due", ""),
            new Column("windowFrom", "Window from", ""),
            new Column("windowTo", "to", ""),
            new Column("plannedDate", "Planned", ""),
            new Column("changes", "Changes in all", "1")),
        rows);
  }

  private Cell date(double day) {
    return day <= plan.days().length()
        ? Cell.of(plan.days().start().plusDays((long) Math.floor(day)).toString())
        : new Cell.None();
  }

  private static String known(AgeKnown known) {
    return switch (known) {
      case CHANGE -> "last change";
      case FIRST_ELEMENT -> "meter";
      case UNKNOWN -> "nothing";
    };
  }

  private Entry.Table visits() {
    List<List<Cell>> rows = new ArrayList<>();
    for (Visit v : plan.visits()) {
      rows.add(
          List.of(
              Cell.of(v.date().toString()),
              Cell.of(Integer.toString(v.technician())),
              Cell.of(plan.network().sites().get(v.site()).id()),
              Cell.of(
                  v.members().stream()
                      .map(i -> plan.members().get(i).machine().id())
                      .collect(Collectors.joining(", "))),
              Cell.of(v.members().size()),
              Cell.of(v.workH()),
              Cell.of(v.driveH())));
    }
    return new Entry.Table(
        "visits",
        "Visits",
        use(rows),
        List.of(
            new Column("date", "Date", ""),
            new Column("technician", "Technician", ""),
            new Column("site", "Site", ""),
            new Column("machines", "Machines", ""),
            new Column("changes", "Changes", "1"),
            new Column("work_h", "Work", "h"),
            new Column("driving_h", "Driving", "h")),
        rows);
  }

  private Entry.Table changes() {
    List<List<Cell>> rows = new ArrayList<>();
    for (int i = 0; i < plan.members().size(); i++) {
      Member m = plan.members().get(i);
      int at = -1;
      for (int k : plan.answer().plan().chains()[i]) {
        LocalDate date = plan.days().date(k);
        rows.add(
            List.of(
                Cell.of(m.machine().id()),
                Cell.of(date.toString()),
                Cell.of(m.machine().returnFilter().element().id()),
                Cell.of(m.task().intervalH(at, k)),
                Cell.of(m.task().intervalSdH(at, k)),
                Cell.of(m.task().money(at, k))));
        at = k;
      }
    }
    return new Entry.Table(
        "changes",
        "Changes",
        Use.DATA,
        List.of(
            new Column("machine", "Machine", ""),
            new Column("date", "Date", ""),
            new Column("element", "Element", ""),
            new Column("onElement_h", "On the element", "h"),
            new Column("error_h", "±", "h"),
            new Column("timing", "Costs more than the best", currency)),
        rows);
  }

  /** What being early or late costs. */
  private Entry.Table timing() {
    List<Column> columns = new ArrayList<>();
    columns.add(new Column("machine", "Machine", ""));
    columns.add(new Column("best_h", "Best interval", "h"));
    for (double off : OFF) {
      long percent = Math.round(100 * Math.abs(off));
      columns.add(
          new Column(
              (off < 0 ? "early" : "late") + percent,
              percent + " % " + (off < 0 ? "early" : "late"),
              currency));
    }
    List<List<Cell>> rows = new ArrayList<>();
    for (Member m : plan.members()) {
      List<Cell> row = new ArrayList<>();
      double best = m.task().cost().bestH();
      row.add(Cell.of(m.machine().id()));
      row.add(Cell.of(best));
      for (double off : OFF) {
        double h = best * (1 + off);
        boolean forbidden = h > best && best >= m.task().cost().highH();
        row.add(forbidden ? new Cell.None() : Cell.of(m.task().cost().at(h)));
      }
      rows.add(row);
    }
    return new Entry.Table(
        "timing",
        "What a change early or late costs; later than a limit is left empty",
        use(rows),
        columns,
        rows);
  }

  private Entry.Table parts() {
    double service = values.get(PlanRequest.SERVICE);
    List<List<Cell>> rows = new ArrayList<>();
    for (Part p : plan.parts()) {
      int propose = p.batched().stock(service);
      rows.add(
          List.of(
              Cell.of(p.id()),
              Cell.of(p.name()),
              Cell.of(p.planned()),
              Cell.of(p.visits()),
              Cell.of(p.leadDays()),
              Cell.of(p.peak()),
              Cell.of(p.single().mean()),
              Cell.of(p.single().stock(service)),
              Cell.of(propose),
              Cell.of(100 * p.single().stockOut(propose)),
              Cell.of(100 * p.batched().stockOut(propose)),
              p.onHand().map(n -> Cell.of(n)).orElseGet(Cell.None::new),
              p.onHand()
                  .map(n -> Cell.of(100 * p.batched().stockOut(n)))
                  .orElseGet(Cell.None::new)));
    }
    return new Entry.Table(
        "parts",
        "Elements to have in store",
        Use.READ,
        List.of(
            new Column("element", "Element", ""),
            new Column("name", "Name", ""),
            new Column("planned", "In the plan", "1"),
            new Column("visits", "in visits", "1"),
            new Column("lead_days", "Lead time", "d"),
            new Column("peak", "Most in a lead time", "1"),
            new Column("expected", "Expected in one", "1"),
            new Column("stockSingle", "Stock, one by one", "1"),
            new Column("stock", "Stock proposed, by visits", "1"),
            new Column("stockOutSingle", "Runs out, one by one", "%"),
            new Column("stockOut", "Runs out, by visits", "%"),
            new Column("onHand", "In store", "1"),
            new Column("stockOutOnHand", "Runs out with that", "%")),
        rows);
  }

  private static Use use(List<?> rows) {
    return rows.size() <= READABLE_ROWS ? Use.READ : Use.DATA;
  }
}
