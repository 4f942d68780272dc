package siltwright.analysis;

import java.io.IOException;
import java.io.Writer;
import java.time.Instant;
import java.util.List;
import org.osgi.annotation.versioning.ProviderType;
import siltwright.model.Problem;

/**
 * Writes results as one self-contained HTML page: no script, nothing fetched from elsewhere,
 * figures as inline SVG. The same arguments give the same bytes.
 */
@ProviderType
public interface ReportWriter {
  /**
   * Writes a report.
   *
   * @param title title of the report
   * @param source file or files the results come from, as the user named them; may be empty
   * @param made when it is made; shown in UTC
   * @param results results in reading order; may be empty
   * @param problems what was left out and why; may be empty
   * @param out where it goes, to be stored as UTF-8; flushed, not closed
   * @throws IOException if it cannot be written
   */
  void write(
      String title,
      String source,
      Instant made,
      List<Result> results,
      List<Problem> problems,
      Writer out)
      throws IOException;
}
