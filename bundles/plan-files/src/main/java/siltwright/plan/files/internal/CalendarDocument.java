package siltwright.plan.files.internal;

import java.nio.charset.StandardCharsets;
import java.time.LocalDate;
import java.util.List;
import java.util.UUID;
import java.util.stream.Collectors;
import org.osgi.service.component.annotations.Component;
import siltwright.analysis.Context;
import siltwright.analysis.DocumentWriter;
import siltwright.analysis.Numbers;
import siltwright.analysis.Progress;
import siltwright.analysis.Values;
import siltwright.plan.FleetPlan;
import siltwright.plan.FleetPlan.Visit;

/** Writes the visits as a calendar: an event of a whole day for each. */
@Component
public final class CalendarDocument implements DocumentWriter {
  private static final Form FORM =
      new Form("plan", "calendar", List.of("ics"), "the visits to this file as a calendar");

  @Override
  public Form form() {
    return FORM;
  }

  @Override
  public List<Output> write(
      String ending, List<Context> contexts, Values values, Progress progress) {
    FleetPlan plan = FleetPlan.of(contexts.get(0), values, progress);
    return List.of(new Output("", calendar(plan).getBytes(StandardCharsets.UTF_8)));
  }

  static String calendar(FleetPlan plan) {
    CalendarText out =
        new CalendarText()
            .line("BEGIN", "VCALENDAR")
            .line("VERSION", "2.0")
            .line("PRODID", "-//Siltwright//Plan of changes//EN")
            .line("CALSCALE", "GREGORIAN");
    plan.visits().forEach(v -> event(plan, v, out));
    return out.line("END", "VCALENDAR").toString();
  }

  private static void event(FleetPlan plan, Visit v, CalendarText out) {
    String site = plan.network().sites().get(v.site()).id();
    String place =
        plan.fleet().sites().stream()
            .filter(s -> s.id().equals(site))
            .map(s -> s.name())
            .findFirst()
            .orElse(site);
    LocalDate day = v.date();
    String key = plan.fleet().name() + '\n' + day + '\n' + v.technician() + '\n' + site;
    out.line("BEGIN", "VEVENT")
        .line("UID", UUID.nameUUIDFromBytes(key.getBytes(StandardCharsets.UTF_8)).toString())
        // No clock: the same plan gives the same bytes.
        .midnight("DTSTAMP", plan.days().start())
        .day("DTSTART", day)
        .day("DTEND", day.plusDays(1))
        .text(
            "SUMMARY",
            "Technician "
                + v.technician()
                + ": "
                + v.members().size()
                + (v.members().size() == 1 ? " change" : " changes")
                + " at "
                + site)
        .text("LOCATION", place)
        .text("DESCRIPTION", description(plan, v))
        .line("TRANSP", "OPAQUE")
        .line("END", "VEVENT");
  }

  private static String description(FleetPlan plan, Visit v) {
    String machines =
        v.members().stream()
            .map(i -> plan.members().get(i))
            .map(
                m ->
                    m.machine().id()
                        + " "
                        + m.machine().name()
                        + ": "
                        + m.procedure().name()
                        + ", element "
                        + m.machine().returnFilter().element().id())
            .collect(Collectors.joining("\n"));
    return machines
        + "\nWork "
        + Numbers.text(v.workH())
        + " h, driving "
        + Numbers.text(v.driveH())
        + " h.\nThe maker's manual and the site's rules come first.";
  }
}
