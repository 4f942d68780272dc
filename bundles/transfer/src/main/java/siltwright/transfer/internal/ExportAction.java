package siltwright.transfer.internal;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import org.osgi.annotation.bundle.Capability;
import org.osgi.service.component.annotations.Component;
import siltwright.analysis.Action;
import siltwright.analysis.Cell;
import siltwright.analysis.ChoiceParameter;
import siltwright.analysis.Description;
import siltwright.analysis.Entry;
import siltwright.analysis.Progress;
import siltwright.analysis.Result;
import siltwright.analysis.Scope;
import siltwright.analysis.TextParameter;
import siltwright.analysis.Values;
import siltwright.model.InputException;
import siltwright.model.Problem;
import siltwright.model.history.FleetHistory;
import siltwright.model.history.RecordKind;
import siltwright.store.Store;
import siltwright.store.StoreOptions;
import siltwright.transfer.Exporter;
import siltwright.transfer.NewFile;

/** Writes records out of a store. */
@Component
@Capability(namespace = "siltwright.command", name = "export")
public final class ExportAction implements Action {
  private static final TextParameter TO =
      TextParameter.required(
          "to",
          "FILE.csv, FILE.parquet, FILE.xlsx, FILE.json or a folder",
          "where the records go; one kind to a CSV or Parquet file, all kinds to XLSX or JSON, or to a"
              + " folder with a file for each");
  private static final ChoiceParameter FORM =
      new ChoiceParameter(
          "form", List.of("csv", "parquet"), "csv", "what the files in a folder are");
  private static final TextParameter KIND =
      TextParameter.optional(
          "kind", String.join(", ", RecordKind.words()), "only this kind of records");
  private static final TextParameter MACHINE =
      TextParameter.optional("machine", "an id", "only the records of this machine");

  private static final Description DESCRIPTION =
      Description.of(
          "export",
          "Export",
          "Writes records out of a store for other programs.",
          Scope.NONE,
          StoreOptions.STORE,
          TO,
          FORM,
          KIND,
          MACHINE);

  @Override
  public Description description() {
    return DESCRIPTION;
  }

  @Override
  public Result run(String file, Values values, Progress progress) {
    Path to = StoreOptions.path("--to", values.get(TO));
    List<RecordKind> kinds =
        values
            .find(KIND)
            .map(ExportAction::kind)
            .map(List::of)
            .orElse(List.of(RecordKind.values()));
    try (FleetHistory history = Store.read(values.get(StoreOptions.STORE))) {
      Exporter exporter = new Exporter(history, kinds, values.find(MACHINE).orElse(""), progress);
      List<Path> files = write(exporter, kinds, to, values.get(FORM));
      return tell(exporter, files, values);
    } catch (IOException e) {
      throw NewFile.notWritten(to, e);
    }
  }

  private static RecordKind kind(String word) {
    return RecordKind.of(word)
        .orElseThrow(() -> new InputException(new Problem("option", "--kind", word, KIND.form())));
  }

  private static List<Path> write(Exporter exporter, List<RecordKind> kinds, Path to, String form)
      throws IOException {
    String name = to.getFileName() == null ? "" : to.getFileName().toString();
    String lower = name.toLowerCase(Locale.ROOT);
    List<Path> files = new ArrayList<>();
    if (Files.isDirectory(to)) {
      for (RecordKind kind : kinds) {
        files.add(one(exporter, kind, to.resolve(kind.word() + "." + form)));
      }
    } else if (lower.endsWith(".csv") || lower.endsWith(".parquet")) {
      if (kinds.size() > 1) {
        throw new InputException(
            new Problem(
                "option", "--kind", "", "one of " + KIND.form() + " for a file of one kind"));
      }
      files.add(one(exporter, kinds.get(0), to));
    } else if (lower.endsWith(".json") || lower.endsWith(".xlsx")) {
      try (NewFile target = NewFile.at(to)) {
        if (lower.endsWith(".json")) {
          exporter.json(target.part());
        } else {
          exporter.xlsx(target.part());
        }
        target.keep();
      }
      files.add(to);
    } else {
      throw new InputException(
          new Problem("option", "--to", to.toString(), TO.form() + " that is there"));
    }
    return files;
  }

  private static Path one(Exporter exporter, RecordKind kind, Path to) throws IOException {
    try (NewFile target = NewFile.at(to)) {
      if (to.toString().toLowerCase(Locale.ROOT).endsWith(".csv")) {
        exporter.csv(kind, target.part());
      } else {
        exporter.parquet(kind, target.part());
      }
      target.keep();
    }
    return to;
  }

  private static Result tell(Exporter exporter, List<Path> files, Values values) {
    Result.Builder result = Result.of(DESCRIPTION, "", values);
    List<List<Cell>> rows = new ArrayList<>();
    exporter.written().forEach((kind, n) -> rows.add(List.of(Cell.of(kind.title()), Cell.of(n))));
    result.add(
        new Entry.Table(
            "records",
            "Records written",
            Entry.Use.READ,
            List.of(
                new Entry.Column("kind", "Kind", ""), new Entry.Column("written", "Written", "1")),
            rows));
    Optional<String> names = files.stream().map(Path::toString).reduce((a, b) -> a + ", " + b);
    names.ifPresent(n -> result.value("to", "Written to", n));
    return result.build();
  }
}
