package siltwright.command;

import java.nio.file.Path;
import java.util.Collection;
import java.util.Comparator;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.stream.Collectors;
import siltwright.analysis.DocumentWriter;
import siltwright.model.InputException;
import siltwright.model.Problem;

/** The documents that single analyses can write, and which of them a run asks for. */
final class Documents {
  private final List<DocumentWriter> writers;

  Documents(Collection<DocumentWriter> writers) {
    this.writers = writers.stream().sorted(Comparator.comparing(w -> w.form().option())).toList();
  }

  /**
   * A document that is asked for.
   *
   * @param writer who writes it
   * @param place file or folder
   * @param ending ending of the file; empty for a folder
   */
  record Asked(DocumentWriter writer, Path place, String ending) {
    String option() {
      return "--" + writer.form().option();
    }
  }

  /** Returns the documents of an analysis. */
  List<DocumentWriter.Form> of(String analysis) {
    return writers.stream()
        .map(DocumentWriter::form)
        .filter(f -> f.analysis().equals(analysis))
        .toList();
  }

  /** Returns what stands for the value of its option in help. */
  static String label(DocumentWriter.Form form) {
    return form.isFolder()
        ? "FOLDER"
        : form.endings().stream().map(e -> "FILE." + e).collect(Collectors.joining("|"));
  }

  /**
   * Returns the documents that a run asks for.
   *
   * @throws InputException if a file has an ending that cannot be written
   */
  List<Asked> asked(Request.Run run) {
    String analysis = run.analysis().description().id();
    return writers.stream()
        .filter(w -> w.form().analysis().equals(analysis))
        .flatMap(w -> run.option(w.form().option()).map(place -> asked(w, place)).stream())
        .toList();
  }

  private static Asked asked(DocumentWriter writer, String text) {
    DocumentWriter.Form form = writer.form();
    Path place = Commands.path("--" + form.option(), text);
    if (form.isFolder()) {
      return new Asked(writer, place, "");
    }
    Optional<String> ending =
        form.endings().stream()
            .filter(e -> text.toLowerCase(Locale.ROOT).endsWith("." + e))
            .findFirst();
    return new Asked(
        writer,
        place,
        ending.orElseThrow(
            () ->
                new InputException(
                    new Problem("option", "--" + form.option(), text, "a file " + label(form)))));
  }
}
