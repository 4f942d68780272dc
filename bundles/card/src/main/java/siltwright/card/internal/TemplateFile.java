package siltwright.card.internal;

import java.nio.charset.StandardCharsets;
import java.util.List;
import org.osgi.service.component.annotations.Component;
import siltwright.analysis.Context;
import siltwright.analysis.DocumentWriter;
import siltwright.analysis.Progress;
import siltwright.analysis.Values;
import siltwright.card.CardRequest;
import siltwright.card.TemplateReader;

/** The template as a file to be edited. */
@Component
public final class TemplateFile implements DocumentWriter {
  private static final Form FORM =
      new Form(
          TemplateAnalysis.DESCRIPTION.id(),
          "write",
          List.of("json"),
          "the template to this file, to be edited");

  @Override
  public Form form() {
    return FORM;
  }

  @Override
  public List<Output> write(
      String ending, List<Context> contexts, Values values, Progress progress) {
    String text =
        values
            .find(CardRequest.TEMPLATE)
            .map(f -> f.text())
            .orElseGet(() -> TemplateReader.standardText(values.get(CardRequest.LANGUAGE)));
    return List.of(new Output("", text.getBytes(StandardCharsets.UTF_8)));
  }
}
