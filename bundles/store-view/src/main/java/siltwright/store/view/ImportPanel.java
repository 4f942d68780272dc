package siltwright.store.view;

import java.awt.BorderLayout;
import java.awt.Dimension;
import java.nio.file.Path;
import java.time.Clock;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import javax.swing.JButton;
import javax.swing.JCheckBox;
import javax.swing.JComponent;
import javax.swing.JFileChooser;
import javax.swing.JLabel;
import javax.swing.JPanel;
import javax.swing.JScrollPane;
import javax.swing.JSplitPane;
import javax.swing.JTextField;
import javax.swing.Timer;
import net.miginfocom.swing.MigLayout;
import siltwright.model.InputException;
import siltwright.model.Problem;
import siltwright.model.history.FleetHistory;
import siltwright.model.history.MeterMend;
import siltwright.store.Store;
import siltwright.store.StoreOptions;
import siltwright.transfer.ImportOptions;
import siltwright.transfer.ImportReport;
import siltwright.transfer.Importer;
import siltwright.transfer.Mapping;
import siltwright.transfer.Preview;
import siltwright.transfer.Wishes;
import siltwright.workbench.Desk;
import siltwright.workbench.parts.Typed;

/** A file to bring into a store: what is found in it, what becomes of it, and then what did. */
final class ImportPanel {
  private static final String WHO = "who";
  private static final int MENDS_SHOWN = 500;
  private static final int PAUSE_MS = 300;

  private final Desk desk;
  private final Runnable done;
  private final JPanel component = new JPanel(new BorderLayout());
  private final JLabel name = new JLabel(Words.of("noFile"));
  private final ImportChoices choices = new ImportChoices(this::choice);
  private final MappingTable mapping = new MappingTable(this::edited);
  private final Grid rows = new Grid("store.preview");
  private final Message notes = new Message("store.notes");
  private final Message fault = new Message("store.import.fault");
  private final JCheckBox add = new JCheckBox(Words.of("addMachines"));
  private final JTextField keepAs = new JTextField(12);
  private final JTextField refused = new JTextField(18);
  private final JTextField who = new JTextField(8);
  private final JButton bring = RecordsPane.button("bring", this::bring);
  private String where;
  private Path file;
  private Optional<List<Mapping.Column>> columns = Optional.empty();

  ImportPanel(Desk desk, Runnable done) {
    this.desk = desk;
    this.done = done;
    name.setName("store.file");
    keepAs.setName("store.keepAs");
    add.setName("store.add");
    add.addActionListener(e -> choice(false));
    refused.setName("store.refused");
    Timer pause = new Timer(PAUSE_MS, e -> choice(false));
    pause.setRepeats(false);
    refused.getDocument().addDocumentListener(new Typed(pause::restart));
    refused.addActionListener(e -> choice(false));
    who.setName("store.who");
    who.setText(desk.recall(WHO).orElse(System.getProperty("user.name", "somebody")));
    bring.setEnabled(false);
    component.add(top(), BorderLayout.NORTH);
    JSplitPane split =
        new JSplitPane(
            JSplitPane.HORIZONTAL_SPLIT, new JScrollPane(mapping), new JScrollPane(rows));
    split.setResizeWeight(0.2);
    mapping.setPreferredScrollableViewportSize(new Dimension(400, 200));
    component.add(split, BorderLayout.CENTER);
    component.add(bottom(), BorderLayout.SOUTH);
  }

  private JPanel top() {
    JPanel bar = new JPanel(new MigLayout("insets 8, fillx, hidemode 3", "[grow]"));
    bar.add(RecordsPane.button("choose", this::choose), "split 2");
    bar.add(name, "growx, wmin 60, wrap");
    bar.add(choices.component(), "wrap");
    bar.add(fault.component(), "growx, wmin 0, wrap");
    bar.add(notes.component(), "growx, wmin 0");
    return bar;
  }

  private JPanel bottom() {
    JPanel bar = new JPanel(new MigLayout("insets 8, wrap 1", "[]"));
    add.setToolTipText(Words.of("addMachines.tip"));
    bar.add(add, "split 3");
    labelled(bar, "refusedTo", refused, "gapleft 12");
    labelled(bar, "keepAs", keepAs, "split 5");
    labelled(bar, "broughtBy", who, "gapleft 12");
    bar.add(bring, "gapleft 12");
    return bar;
  }

  private static void labelled(JPanel bar, String key, JTextField field, String place) {
    JLabel label = new JLabel(Words.of(key));
    label.setLabelFor(field);
    field.setToolTipText(Words.of(key + ".tip"));
    bar.add(label, place);
    bar.add(field);
  }

  JComponent component() {
    return component;
  }

  /** Shows a store; a file that is chosen stays. */
  void show(String store, List<String> mappings) {
    boolean other = !store.equals(where);
    where = store;
    choices.show(mappings);
    if (other && file != null) {
      open(file);
    }
  }

  private void choose() {
    JFileChooser chooser = new JFileChooser(file == null ? null : file.getParent().toFile());
    chooser.setDialogTitle(Words.of("choose"));
    if (chooser.showOpenDialog(component) == JFileChooser.APPROVE_OPTION) {
      open(chooser.getSelectedFile().toPath());
    }
  }

  /** Looks at a file. */
  void open(Path chosen) {
    file = chosen.toAbsolutePath();
    name.setText(file.getFileName().toString());
    name.setToolTipText(file.toString());
    columns = Optional.empty();
    Path table = file;
    bring.setEnabled(false);
    desk.compute(
        "form",
        Words.of("lookingAt", table.getFileName()),
        progress -> {
          Importer importer = new Importer(table, plain());
          return new Form(importer.isText(), importer.sheets());
        },
        form -> {
          choices.show(form.text(), form.sheets());
          look();
        },
        this::refuse);
  }

  /** What there is to choose of a file. */
  private record Form(boolean text, List<String> sheets) {}

  private static ImportOptions plain() {
    return new ImportOptions(Wishes.NONE, "", false, "", "", Optional.empty());
  }

  private void choice(boolean columnsToo) {
    if (file != null) {
      if (columnsToo) {
        columns = Optional.empty();
      }
      look();
    }
  }

  private void edited() {
    columns = Optional.of(mapping.columns());
    look();
  }

  private ImportOptions options() {
    String to = refused.getText().strip();
    String person = who.getText().strip();
    return new ImportOptions(
        choices.wishes(),
        person.isEmpty() ? "somebody" : person,
        add.isSelected(),
        choices.mapping(),
        keepAs.getText().strip(),
        to.isEmpty() ? Optional.empty() : Optional.of(StoreOptions.path("--refused", to)),
        columns);
  }

  private void look() {
    String store = where;
    Path table = file;
    ImportOptions options;
    bring.setEnabled(false);
    try {
      options = options();
    } catch (InputException e) {
      refuse(e.getMessage());
      return;
    }
    desk.compute(
        "preview",
        Words.of("lookingAt", table.getFileName()),
        progress -> {
          Importer importer = new Importer(table, options);
          return importer.isTable()
              ? Optional.of(importer.preview(store))
              : Optional.<Preview>empty();
        },
        this::show,
        this::refuse);
  }

  private void refuse(String text) {
    fault.tell(named(text));
    notes.clear();
    rows.show(List.of(), List.of());
  }

  /** What is wrong, under the names that choices have here; and marks the choice. */
  private String named(String text) {
    boolean wrong = text.startsWith("option --refused: ");
    refused.putClientProperty("JComponent.outline", wrong ? "error" : null);
    return choices.mark(text.replace("option --refused: ", Words.of("refusedTo") + ": "));
  }

  private void show(Optional<Preview> of) {
    fault.clear();
    named("");
    bring.setEnabled(true);
    if (of.isEmpty()) {
      mapping.clear();
      rows.show(List.of(), List.of());
      notes.say(Words.of("document"));
      return;
    }
    Preview preview = of.get();
    mapping.show(preview);
    boolean anyRefused = preview.rows().stream().anyMatch(l -> !l.refused().isEmpty());
    List<String> heads = new ArrayList<>();
    heads.add(Words.of("row"));
    if (anyRefused) {
      heads.add(Words.of("refused"));
    }
    heads.addAll(preview.columns());
    List<List<String>> lines = new ArrayList<>();
    for (Preview.Line line : preview.rows()) {
      List<String> cells = new ArrayList<>();
      cells.add(Long.toString(line.row()));
      if (anyRefused) {
        cells.add(line.refused().replaceFirst("; --.*$", ""));
      }
      for (int i = 0; i < preview.columns().size(); i++) {
        cells.add(i < line.cells().size() ? line.cells().get(i) : "");
      }
      lines.add(cells);
    }
    rows.show(heads, lines);
    notes.say(found(preview));
    if (!preview.questions().isEmpty()) {
      bring.setEnabled(false);
      fault.tell(
          String.join("\n", preview.questions().stream().map(ImportPanel::question).toList()));
    }
  }

  /** The choices at the top answer it, so that the option to type is not named. */
  private static String question(Problem p) {
    return Words.of("question", p.value(), p.expected().replace("--dates ", ""));
  }

  /** A note without the option of the command, which is a choice or a column here. */
  private static String plain(String note) {
    return note.replaceFirst("[.;] --.*$", ".");
  }

  private static String found(Preview preview) {
    Mapping m = preview.mapping();
    List<String> text = new ArrayList<>();
    text.add(
        m.encoding().isEmpty()
            ? Words.of("foundSheet", m.kind(), m.dates().word())
            : Words.of(
                "found",
                m.kind(),
                m.encoding(),
                m.delimiter(),
                Words.of(m.decimal().equals(",") ? "comma" : "point"),
                m.dates().word()));
    preview.notes().forEach(n -> text.add(plain(n)));
    return String.join("\n", text);
  }

  /** What came of it, and how meters are mended now. */
  private record Brought(ImportReport report, List<MeterMend> mends) {}

  private void bring() {
    String store = where;
    Path table = file;
    ImportOptions options = options();
    bring.setEnabled(false);
    desk.keep(WHO, who.getText().strip());
    desk.compute(
        "import",
        Words.of("bringing", table.getFileName()),
        progress -> {
          try (Store s = Store.openExisting(store, Clock.systemUTC())) {
            ImportReport report = new Importer(table, options).run(s, progress);
            try (FleetHistory history = s.history()) {
              return new Brought(report, Importer.mends(report, history));
            }
          }
        },
        this::tell,
        text -> {
          fault.tell(named(text));
          bring.setEnabled(true);
        });
  }

  private void tell(Brought brought) {
    fault.clear();
    ImportReport report = brought.report();
    List<MeterMend> mends = brought.mends();
    List<String> text = new ArrayList<>();
    text.add(Words.of("brought", report.rows(), report.added(), report.known(), report.refused()));
    if (!report.refusedFile().isEmpty()) {
      text.add(Words.of("refusedFile", report.refusedFile()));
    }
    if (!mends.isEmpty()) {
      text.add(Words.of("mends", mends.size()));
    }
    report.notes().forEach(n -> text.add(plain(n)));
    notes.say(String.join("\n", text));
    List<List<String>> lines = new ArrayList<>();
    report.problems().forEach(p -> lines.add(List.of(p.place(), p.value(), p.expected())));
    mends.stream()
        .limit(MENDS_SHOWN)
        .forEach(m -> lines.add(List.of(m.machine(), Words.of("mended"), m.text())));
    rows.show(List.of(Words.of("place"), Words.of("value"), Words.of("expected")), lines);
    keepAs.setText("");
    desk.status(text.get(0));
    done.run();
  }
}
