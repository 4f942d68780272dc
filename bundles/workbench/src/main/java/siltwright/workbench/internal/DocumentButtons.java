package siltwright.workbench.internal;

import java.io.File;
import java.io.IOException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.concurrent.CancellationException;
import java.util.function.Consumer;
import java.util.stream.Collectors;
import javax.swing.JButton;
import javax.swing.JComponent;
import javax.swing.JFileChooser;
import javax.swing.JOptionPane;
import javax.swing.filechooser.FileNameExtensionFilter;
import siltwright.analysis.Context;
import siltwright.analysis.DocumentWriter;
import siltwright.analysis.Progress;
import siltwright.analysis.Values;
import siltwright.model.InputException;
import siltwright.model.Problem;
import siltwright.workbench.Desk;

/** A button for each document that an analysis has; written off the event thread. */
final class DocumentButtons {
  private static final String FOLDER = "document-folder";

  private final Desk desk;
  private final Consumer<String> tell;
  private final List<JButton> buttons = new ArrayList<>();
  private List<Context> contexts = List.of();
  private Values values;

  /**
   * Makes buttons that cannot be pressed yet.
   *
   * @param writers writes the documents of one analysis
   * @param tell told in a line why a document was not written
   */
  DocumentButtons(List<DocumentWriter> writers, Desk desk, Consumer<String> tell) {
    this.desk = desk;
    this.tell = tell;
    for (DocumentWriter writer : writers) {
      DocumentWriter.Form form = writer.form();
      JButton button = new JButton(label(form));
      button.setName("document." + form.analysis() + "." + form.option());
      button.setToolTipText(form.meaning());
      button.setEnabled(false);
      button.addActionListener(e -> ask(writer, button));
      buttons.add(button);
    }
  }

  private static String label(DocumentWriter.Form form) {
    return form.isFolder()
        ? Texts.of("document.saveFolder")
        : Texts.of(
            "document.save",
            form.endings().stream()
                .map(e -> e.toUpperCase(Locale.ROOT))
                .collect(Collectors.joining(", ")));
  }

  List<JButton> buttons() {
    return List.copyOf(buttons);
  }

  /** Offers the documents of what the analysis ran on with success; of nothing, none. */
  void offer(List<Context> ranOn, Values with) {
    contexts = List.copyOf(ranOn);
    values = with;
    buttons.forEach(b -> b.setEnabled(!contexts.isEmpty()));
  }

  private void ask(DocumentWriter writer, JComponent over) {
    DocumentWriter.Form form = writer.form();
    JFileChooser chooser = new JFileChooser(desk.recall(FOLDER).orElse(null));
    chooser.setDialogTitle(label(form));
    if (form.isFolder()) {
      chooser.setFileSelectionMode(JFileChooser.DIRECTORIES_ONLY);
    } else {
      chooser.setAcceptAllFileFilterUsed(false);
      for (String ending : form.endings()) {
        chooser.addChoosableFileFilter(
            new FileNameExtensionFilter(ending.toUpperCase(Locale.ROOT), ending));
      }
      chooser.setFileFilter(chooser.getChoosableFileFilters()[0]);
      chooser.setSelectedFile(new File(form.option() + "." + form.endings().get(0)));
    }
    if (chooser.showSaveDialog(over) != JFileChooser.APPROVE_OPTION) {
      return;
    }
    File chosen = chooser.getSelectedFile();
    String ending = "";
    if (!form.isFolder()) {
      ending = ((FileNameExtensionFilter) chooser.getFileFilter()).getExtensions()[0];
      String name = chosen.getName().toLowerCase(Locale.ROOT);
      List<String> named = form.endings().stream().filter(e -> name.endsWith("." + e)).toList();
      ending = named.isEmpty() ? ending : named.get(0);
      chosen = named.isEmpty() ? new File(chosen.getPath() + "." + ending) : chosen;
    }
    desk.keep(FOLDER, chosen.getAbsoluteFile().getParent());
    if (!inTheWay(chosen)
        || JOptionPane.showConfirmDialog(
                over,
                Texts.of(form.isFolder() ? "document.replaceIn" : "save.replace", chosen),
                label(form),
                JOptionPane.OK_CANCEL_OPTION)
            == JOptionPane.OK_OPTION) {
      write(writer, ending, chosen.toPath());
    }
  }

  private static boolean inTheWay(File place) {
    String[] within = place.list();
    return within == null ? place.exists() : within.length > 0;
  }

  /**
   * Writes a document of what is offered.
   *
   * @param ending ending of the file; empty for a folder
   * @param place file or folder
   */
  void write(DocumentWriter writer, String ending, Path place) {
    List<Context> of = contexts;
    Values with = values;
    desk.compute(
        "document-" + writer.form().option(),
        Texts.of("document.writing", place.getFileName()),
        progress -> put(writer.write(ending, of, with, progress), ending, place, progress),
        files -> desk.status(Texts.of("document.done", place)),
        tell);
  }

  private static int put(
      List<DocumentWriter.Output> files, String ending, Path place, Progress progress) {
    int written = 0;
    for (DocumentWriter.Output file : files) {
      if (!progress.report((double) written / files.size(), file.name())) {
        throw new CancellationException();
      }
      Path to = ending.isEmpty() ? place.resolve(file.name()) : place;
      try {
        Store.write(to, file.content());
      } catch (IOException e) {
        throw new InputException(
            new Problem(
                to.toString(),
                "",
                "",
                Texts.of("document.writable", e.getClass().getSimpleName())));
      }
      written++;
    }
    return written;
  }
}
