package siltwright.workbench.internal;

import java.io.IOException;
import java.io.Writer;
import java.time.Instant;
import java.util.List;
import siltwright.analysis.Result;
import siltwright.model.Problem;

/** What the window asks of a report. It stands between so that the report's types may be absent. */
interface ReportPage {
  /**
   * Writes a page.
   *
   * @param title title
   * @param source file that the results come from, empty if from none
   * @param made when it is made
   * @param results results in reading order
   * @param problems what was left out and why
   * @param out where it goes
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
