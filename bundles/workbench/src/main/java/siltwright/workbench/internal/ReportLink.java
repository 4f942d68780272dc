package siltwright.workbench.internal;

import java.io.IOException;
import java.io.Writer;
import java.time.Instant;
import java.util.List;
import org.osgi.service.component.annotations.Activate;
import org.osgi.service.component.annotations.Component;
import org.osgi.service.component.annotations.Reference;
import siltwright.analysis.Result;
import siltwright.model.Problem;
import siltwright.report.ReportWriter;

/**
 * Links the command to the report service where the product has one. The only class that names the
 * report's package: without that bundle it is never loaded, and the command goes on without it.
 */
@Component(service = ReportPage.class)
public final class ReportLink implements ReportPage {
  private final ReportWriter writer;

  @Activate
  public ReportLink(@Reference ReportWriter writer) {
    this.writer = writer;
  }

  @Override
  public void write(
      String title,
      String source,
      Instant made,
      List<Result> results,
      List<Problem> problems,
      Writer out)
      throws IOException {
    writer.write(title, source, made, results, problems, out);
  }
}
