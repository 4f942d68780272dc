package siltwright.report.internal;

import java.io.IOException;
import java.io.Writer;
import java.time.Instant;
import java.util.Collection;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.concurrent.Callable;
import java.util.function.BiFunction;
import org.osgi.service.component.annotations.Activate;
import org.osgi.service.component.annotations.Component;
import org.osgi.service.component.annotations.Reference;
import org.osgi.service.component.annotations.ReferenceCardinality;
import org.osgi.service.component.annotations.ReferencePolicy;
import org.osgi.service.component.annotations.ReferencePolicyOption;
import siltwright.addons.Guard;
import siltwright.analysis.ReportSection;
import siltwright.analysis.ReportWriter;
import siltwright.analysis.Result;
import siltwright.model.Problem;

/** The report as one HTML page. */
@Component
public final class HtmlReport implements ReportWriter {
  private final Guard guard;

  @Reference(
      cardinality = ReferenceCardinality.MULTIPLE,
      policy = ReferencePolicy.DYNAMIC,
      policyOption = ReferencePolicyOption.GREEDY)
  private volatile Collection<Map.Entry<Map<String, Object>, ReportSection>> sections = List.of();

  /**
   * Makes it.
   *
   * @param launcher calls add-ons under watch; null where there are none
   */
  @Activate
  public HtmlReport(
      @Reference(
              target = "(siltwright.entry=addons)",
              cardinality = ReferenceCardinality.OPTIONAL,
              policyOption = ReferencePolicyOption.GREEDY)
          BiFunction<Map<String, Object>, Callable<Object>, Object> launcher) {
    guard = new Guard(launcher);
  }

  /** Makes one with sections of the product alone. */
  HtmlReport(ReportSection section) {
    this((BiFunction<Map<String, Object>, Callable<Object>, Object>) null);
    sections = List.of(Map.entry(Map.of("service.id", 1L), section));
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
    ReportSection.Matter matter = new ReportSection.Matter(title, source, made, results, problems);
    List<ReportSection.Content> contents =
        Guard.through(guard::section, sections).stream()
            .map(s -> s.content(matter))
            .flatMap(Optional::stream)
            .toList();
    out.write(new Page(matter, contents).html());
    out.flush();
  }
}
