package siltwright.plan.files.internal;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.ByteArrayInputStream;
import java.io.StringReader;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.time.LocalDate;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import net.fortuna.ical4j.data.CalendarBuilder;
import net.fortuna.ical4j.model.Calendar;
import net.fortuna.ical4j.model.Component;
import net.fortuna.ical4j.model.Property;
import net.fortuna.ical4j.model.component.VEvent;
import org.apache.poi.ss.usermodel.Row;
import org.apache.poi.ss.usermodel.Sheet;
import org.apache.poi.xssf.usermodel.XSSFWorkbook;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import siltwright.analysis.Context;
import siltwright.analysis.Description;
import siltwright.analysis.Progress;
import siltwright.analysis.Scope;
import siltwright.analysis.Values;
import siltwright.exchange.RecordsReader;
import siltwright.model.json.FleetReader;
import siltwright.plan.FleetPlan;
import siltwright.plan.FleetPlan.Visit;
import siltwright.plan.PlanRequest;

/** The files read back by libraries that did not write them: ical4j and Apache POI. */
class PlanFilesTest {
  private static final Path DEMO = Path.of("..", "..", "demo-data");
  private static FleetPlan plan;

  @BeforeAll
  static void planDemo() {
    plan = FleetPlan.of(context(), values(), Progress.NONE);
  }

  private static Values values() {
    return Values.standard(Description.of("plan", "", "", Scope.FLEET, PlanRequest.parameters()));
  }

  private static Context context() {
    return Context.of(
        FleetReader.read(DEMO.resolve("three-pits.json")).fleet(),
        Map.of(
            "meters",
            RecordsReader.read(DEMO.resolve("pit-meters.csv"), PlanRequest.METERS.columns()),
            "stock",
            RecordsReader.read(DEMO.resolve("pit-elements.csv"), PlanRequest.STOCK.columns())));
  }

  @Test
  void calendarIsReadByAnotherLibrary() throws Exception {
    String text = CalendarDocument.calendar(plan);
    Calendar calendar = new CalendarBuilder().build(new StringReader(text));
    assertTrue(calendar.validate().getEntries().isEmpty(), calendar.validate().toString());
    List<VEvent> events = calendar.getComponents(Component.VEVENT);
    assertEquals(plan.visits().size(), events.size());
    Set<String> ids = new HashSet<>();
    for (int i = 0; i < events.size(); i++) {
      Visit v = plan.visits().get(i);
      VEvent e = events.get(i);
      assertEquals(Optional.of(v.date()), e.getDateTimeStart().map(d -> (LocalDate) d.getDate()));
      assertEquals(
          Optional.of(v.date().plusDays(1)), e.getDateTimeEnd().map(d -> (LocalDate) d.getDate()));
      assertTrue(ids.add(e.getUid().orElseThrow().getValue()), "each visit its own id");
      String site = plan.network().sites().get(v.site()).id();
      String place =
          plan.fleet().sites().stream().filter(s -> s.id().equals(site)).findFirst().get().name();
      assertEquals(place, e.getLocation().orElseThrow().getValue());
      String description = e.getProperty(Property.DESCRIPTION).orElseThrow().getValue();
      for (int m : v.members()) {
        assertTrue(description.contains(plan.members().get(m).machine().name()), description);
      }
    }
  }

  /** RFC 5545, 3.1: at most 75 octets a line, CR LF after each; 3.3.11: what is escaped. */
  @Test
  void longTextsOfAnyScriptAreFoldedAndComeBack() throws Exception {
    String name = "Größe; Bagger, 𝟚 \\ 掘削機 ".repeat(12).strip();
    String text =
        new CalendarText()
            .line("BEGIN", "VCALENDAR")
            .line("VERSION", "2.0")
            .line("PRODID", "x")
            .line("BEGIN", "VEVENT")
            .line("UID", "1")
            .midnight("DTSTAMP", LocalDate.of(2026, 3, 2))
            .day("DTSTART", LocalDate.of(2026, 3, 2))
            .text("SUMMARY", name + "\nand more")
            .line("END", "VEVENT")
            .line("END", "VCALENDAR")
            .toString();
    for (String line : text.split("\r\n")) {
      assertTrue(line.getBytes(StandardCharsets.UTF_8).length <= 75, line);
      assertTrue(line.indexOf('\n') < 0);
    }
    Calendar calendar = new CalendarBuilder().build(new StringReader(text));
    VEvent event = calendar.<VEvent>getComponents(Component.VEVENT).get(0);
    assertEquals(name + "\nand more", event.getSummary().orElseThrow().getValue());
  }

  @Test
  void workbookIsReadByAnotherLibrary() throws Exception {
    byte[] bytes = ListDocument.workbook(plan, 0.95);
    try (XSSFWorkbook book = new XSSFWorkbook(new ByteArrayInputStream(bytes))) {
      assertEquals(3, book.getNumberOfSheets());
      Sheet visits = book.getSheet("Visits");
      assertEquals(plan.visits().size(), visits.getLastRowNum());
      for (int i = 0; i < plan.visits().size(); i++) {
        Visit v = plan.visits().get(i);
        Row row = visits.getRow(i + 1);
        assertEquals(v.date(), row.getCell(0).getLocalDateTimeCellValue().toLocalDate());
        assertEquals(v.technician(), row.getCell(1).getNumericCellValue());
        assertEquals(
            plan.network().sites().get(v.site()).id(), row.getCell(2).getStringCellValue());
        assertEquals(v.workH(), row.getCell(5).getNumericCellValue(), 1e-9);
      }
      assertEquals(plan.answer().plan().changes(), book.getSheet("Changes").getLastRowNum());
      double money = 0;
      for (int i = 0; i < plan.members().size(); i++) {
        int at = -1;
        for (int k : plan.answer().plan().chains()[i]) {
          money += plan.members().get(i).task().money(at, k);
          at = k;
        }
      }
      assertEquals(money, sum(book.getSheet("Changes"), 9), 1e-6 * money);
      assertEquals(plan.parts().size(), book.getSheet("Elements").getLastRowNum());
    }
  }

  private static double sum(Sheet sheet, int column) {
    double sum = 0;
    for (int r = 1; r <= sheet.getLastRowNum(); r++) {
      sum += sheet.getRow(r).getCell(column).getNumericCellValue();
    }
    return sum;
  }

  @Test
  void samePlanSameBytes() {
    byte[] first =
        new ListDocument()
            .write("xlsx", List.of(context()), values(), Progress.NONE)
            .get(0)
            .content();
    assertArrayEquals(first, ListDocument.workbook(plan, 0.95));
    assertArrayEquals(
        new CalendarDocument()
            .write("ics", List.of(context()), values(), Progress.NONE)
            .get(0)
            .content(),
        CalendarDocument.calendar(plan).getBytes(StandardCharsets.UTF_8));
  }
}
