package siltwright.report.internal;

import java.util.List;
import java.util.Optional;
import org.osgi.service.component.annotations.Component;
import siltwright.analysis.Cell;
import siltwright.analysis.Entry;
import siltwright.analysis.ReportSection;

/** The section that names what could not be used, and why. */
@Component
public final class LeftOut implements ReportSection {
  private static final List<Entry.Column> COLUMNS =
      List.of(
          new Entry.Column("in", "In", ""),
          new Entry.Column("at", "At", ""),
          new Entry.Column("found", "Found", ""),
          new Entry.Column("expected", "Expected", ""));

  @Override
  public Optional<Content> content(Matter matter) {
    if (matter.problems().isEmpty()) {
      return Optional.empty();
    }
    List<List<Cell>> rows =
        matter.problems().stream()
            .map(
                p ->
                    List.<Cell>of(
                        Cell.of(p.source()),
                        Cell.of(p.place()),
                        Cell.of(p.value()),
                        Cell.of(p.expected())))
            .toList();
    return Optional.of(
        new Content(
            "left-out",
            Place.BEFORE_RESULTS,
            "Left out",
            "These parts of the data could not be used. All else is below.",
            List.of(),
            List.of(
                new Entry.Table(
                    "leftOut", "What was left out and why", Entry.Use.READ, COLUMNS, rows)),
            List.of()));
  }
}
