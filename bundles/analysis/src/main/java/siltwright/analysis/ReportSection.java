package siltwright.analysis;

import java.time.Instant;
import java.util.List;
import java.util.Optional;
import org.osgi.annotation.versioning.ConsumerType;
import siltwright.model.Problem;

/**
 * Brings a section to every report, beside those that follow from the results of analyses. Register
 * it as a service. It gives data; the report knows how they look.
 *
 * <p>Called from any thread; keeps nothing between calls.
 */
@ConsumerType
public interface ReportSection {
  /**
   * What a report is made from.
   *
   * @param title title of the report
   * @param source file or files that the results come from, as the user named them; may be empty
   * @param made when it is made
   * @param results results in reading order
   * @param problems what was left out and why
   */
  record Matter(
      String title, String source, Instant made, List<Result> results, List<Problem> problems) {
    public Matter {
      results = List.copyOf(results);
      problems = List.copyOf(problems);
    }
  }

  /** Where a section stands. */
  enum Place {
    /** Before the results. */
    BEFORE_RESULTS,
    /** After the results. */
    AFTER_RESULTS
  }

  /**
   * What a section says.
   *
   * @param id id within the report: lower case, digits, hyphens
   * @param place where it stands
   * @param heading its heading
   * @param lead what it tells, in a sentence
   * @param findings findings, shown first
   * @param entries values and tables
   * @param figures figures
   */
  record Content(
      String id,
      Place place,
      String heading,
      String lead,
      List<Finding> findings,
      List<Entry> entries,
      List<Figure> figures) {
    public Content {
      findings = List.copyOf(findings);
      entries = List.copyOf(entries);
      figures = List.copyOf(figures);
    }
  }

  /** Returns what the section says of a report; nothing where it has nothing to say. */
  Optional<Content> content(Matter matter);
}
