package siltwright.addons;

import java.util.List;
import siltwright.analysis.Context;
import siltwright.analysis.DocumentWriter;
import siltwright.analysis.Progress;
import siltwright.analysis.Values;

/** What an add-on writes. */
final class GuardedDocuments implements DocumentWriter {
  private final DocumentWriter writer;
  private final Guard.Call call;
  private final Form form;

  GuardedDocuments(DocumentWriter writer, Guard.Call call) {
    this.writer = writer;
    this.call = call;
    this.form = call.of(writer::form);
  }

  @Override
  public Form form() {
    return form;
  }

  @Override
  public List<Output> write(
      String ending, List<Context> contexts, Values values, Progress progress) {
    return call.of(progress, p -> writer.write(ending, contexts, values, p));
  }
}
