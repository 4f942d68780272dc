package siltwright.report.internal;

import java.io.IOException;
import java.io.Writer;
import java.time.Instant;
import java.util.List;
import org.osgi.service.component.annotations.Component;
import siltwright.analysis.ReportWriter;
import siltwright.analysis.Result;
import siltwright.model.Problem;

/** The report as one HTML page. */
@Component
public final class HtmlReport implements ReportWriter {
  @Override
  public void write(
      String title,
      String source,
      Instant made,
      List<Result> results,
      List<Problem> problems,
      Writer out)
      throws IOException {
    out.write(new Page(title, source, made, results, problems).html());
    out.flush();
  }
}
