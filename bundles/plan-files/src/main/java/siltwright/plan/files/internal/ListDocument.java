package siltwright.plan.files.internal;

import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.time.LocalDate;
import java.util.Arrays;
import java.util.List;
import java.util.stream.Collectors;
import org.dhatim.fastexcel.Workbook;
import org.dhatim.fastexcel.Worksheet;
import org.osgi.service.component.annotations.Component;
import siltwright.analysis.Context;
import siltwright.analysis.DocumentWriter;
import siltwright.analysis.Progress;
import siltwright.analysis.Values;
import siltwright.plan.FleetPlan;
import siltwright.plan.FleetPlan.Member;
import siltwright.plan.FleetPlan.Part;
import siltwright.plan.FleetPlan.Visit;
import siltwright.plan.PlanRequest;

/** Writes visits, changes and parts as a workbook. */
@Component
public final class ListDocument implements DocumentWriter {
  private static final Form FORM =
      new Form(
          "plan", "list", List.of("xlsx"), "visits, changes and parts to this file as a workbook");

  private static final String DATE = "yyyy-mm-dd";
  private static final String HOURS = "0.0";
  private static final String MONEY = "0.00";
  private static final int WIDEST = 60;

  @Override
  public Form form() {
    return FORM;
  }

  @Override
  public List<Output> write(
      String ending, List<Context> contexts, Values values, Progress progress) {
    FleetPlan plan = FleetPlan.of(contexts.get(0), values, progress);
    return List.of(new Output("", workbook(plan, values.get(PlanRequest.SERVICE))));
  }

  static byte[] workbook(FleetPlan plan, double service) {
    ByteArrayOutputStream out = new ByteArrayOutputStream();
    try (Workbook book = new Workbook(out, "Siltwright", null)) {
      visits(plan, new Sheet(book.newWorksheet("Visits")));
      changes(plan, new Sheet(book.newWorksheet("Changes")));
      parts(plan, service, new Sheet(book.newWorksheet("Elements")));
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
    return SteadyArchive.of(out.toByteArray(), plan.days().start());
  }

  private static void visits(FleetPlan plan, Sheet sheet) {
    sheet.head("Date", "Technician", "Site", "Changes", "Machines", "Work, h", "Driving, h");
    for (Visit v : plan.visits()) {
      sheet
          .row()
          .date(v.date())
          .whole(v.technician())
          .text(plan.network().sites().get(v.site()).id())
          .whole(v.members().size())
          .text(
              v.members().stream()
                  .map(i -> plan.members().get(i).machine().id())
                  .collect(Collectors.joining(", ")))
          .number(v.workH(), HOURS)
          .number(v.driveH(), HOURS);
    }
    sheet.finish();
  }

  private static void changes(FleetPlan plan, Sheet sheet) {
    sheet.head(
        "Date",
        "Technician",
        "Site",
        "Machine",
        "Name",
        "Procedure",
        "Element",
        "On the element, h",
        "±, h",
        "Costs more than the best, " + plan.fleet().currency());
    int[] before = new int[plan.members().size()];
    Arrays.fill(before, -1);
    for (Visit v : plan.visits()) {
      for (int i : v.members()) {
        Member m = plan.members().get(i);
        sheet
            .row()
            .date(v.date())
            .whole(v.technician())
            .text(m.machine().site())
            .text(m.machine().id())
            .text(m.machine().name())
            .text(m.procedure().name())
            .text(m.machine().returnFilter().element().id())
            .number(m.task().intervalH(before[i], v.day()), HOURS)
            .number(m.task().intervalSdH(before[i], v.day()), HOURS)
            .number(m.task().money(before[i], v.day()), MONEY);
        before[i] = v.day();
      }
    }
    sheet.finish();
  }

  private static void parts(FleetPlan plan, double service, Sheet sheet) {
    sheet.head(
        "Element",
        "Name",
        "In the plan",
        "Lead time, d",
        "Most in a lead time",
        "Stock proposed",
        "Runs out with that, %",
        "In store",
        "Runs out with what is in store, %");
    for (Part p : plan.parts()) {
      int stock = p.batched().stock(service);
      Sheet row =
          sheet
              .row()
              .text(p.id())
              .text(p.name())
              .whole(p.planned())
              .whole(p.leadDays())
              .whole(p.peak())
              .whole(stock)
              .number(100 * p.batched().stockOut(stock), MONEY);
      p.onHand().ifPresent(n -> row.whole(n).number(100 * p.batched().stockOut(n), MONEY));
    }
    sheet.finish();
  }

  /** A sheet that is filled row by row. */
  private static final class Sheet {
    private final Worksheet sheet;
    private int row = -1;
    private int column;
    private int columns;
    private int[] widths;

    Sheet(Worksheet sheet) {
      this.sheet = sheet;
    }

    void head(String... names) {
      columns = names.length;
      widths = new int[columns];
      row();
      for (String name : names) {
        text(name);
      }
      sheet.range(0, 0, 0, columns - 1).style().bold().set();
      sheet.freezePane(0, 1);
    }

    Sheet row() {
      row++;
      column = 0;
      return this;
    }

    Sheet text(String text) {
      sheet.value(row, column, text);
      return wide(text.length());
    }

    Sheet whole(int number) {
      sheet.value(row, column, number);
      return wide(String.valueOf(number).length());
    }

    Sheet number(double number, String format) {
      sheet.value(row, column, number);
      sheet.style(row, column).format(format).set();
      return wide(String.valueOf(Math.round(number)).length() + format.length() - 1);
    }

    Sheet date(LocalDate date) {
      sheet.value(row, column, date);
      sheet.style(row, column).format(DATE).set();
      return wide(DATE.length());
    }

    private Sheet wide(int length) {
      widths[column] = Math.max(widths[column], length);
      column++;
      return this;
    }

    void finish() {
      for (int c = 0; c < columns; c++) {
        sheet.width(c, Math.min(WIDEST, widths[c] + 2));
      }
      if (row > 0) {
        sheet.setAutoFilter(0, 0, row, columns - 1);
      }
    }
  }
}
