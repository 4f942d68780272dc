package siltwright.addons;

import java.util.List;
import java.util.Optional;
import siltwright.analysis.Finding;
import siltwright.analysis.ReportSection;
import siltwright.model.InputException;

/** An add-on's section of the report; one that cannot be had is named in its place. */
final class GuardedSection implements ReportSection {
  private final ReportSection section;
  private final Guard.Call call;

  GuardedSection(ReportSection section, Guard.Call call) {
    this.section = section;
    this.call = call;
  }

  @Override
  public Optional<Content> content(Matter matter) {
    try {
      return call.of(() -> section.content(matter))
          .map(
              c ->
                  new Content(
                      c.id(),
                      c.place(),
                      c.heading(),
                      c.lead() + " (add-on " + call.name() + ")",
                      GuardedAnalysis.withName(c.findings(), call),
                      c.entries(),
                      c.figures()));
    } catch (AddOnFault | InputException | NullPointerException e) {
      String why = e instanceof NullPointerException ? "it gave no section" : e.getMessage();
      return Optional.of(
          new Content(
              "section-missing-" + call.name().replaceAll("[^A-Za-z0-9]+", "-"),
              Place.AFTER_RESULTS,
              "Section of the add-on " + call.name(),
              "The add-on brings a section to reports, which could not be made.",
              List.of(new Finding(Finding.Severity.WARNING, why, "")),
              List.of(),
              List.of()));
    }
  }
}
