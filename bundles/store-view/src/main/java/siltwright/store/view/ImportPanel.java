package siltwright.store.view;

import java.awt.BorderLayout;
import java.awt.Dimension;
import java.nio.file.Path;
import java.time.Clock;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import javax.swing.DefaultComboBoxModel;
import javax.swing.JButton;
import javax.swing.JCheckBox;
import javax.swing.JComboBox;
import javax.swing.JComponent;
import javax.swing.JFileChooser;
import javax.swing.JLabel;
import javax.swing.JPanel;
import javax.swing.JScrollPane;
import javax.swing.JSplitPane;
import javax.swing.JTextField;
import net.miginfocom.swing.MigLayout;
import siltwright.model.Problem;
import siltwright.model.history.RecordKind;
import siltwright.store.Store;
import siltwright.transfer.ImportOptions;
import siltwright.transfer.ImportReport;
import siltwright.transfer.Importer;
import siltwright.transfer.Mapping;
import siltwright.transfer.Preview;
import siltwright.transfer.Wishes;
import siltwright.workbench.Desk;

/** A file to bring into a store: what is found in it, what becomes of it, and then what did. */
final class ImportPanel {
  private final Desk desk;
  private final Runnable done;
  private final JPanel component = new JPanel(new BorderLayout());
  private final JLabel name = new JLabel(Words.of("noFile"));
  private final JComboBox<String> kind = box("kind");
  private final JComboBox<String> dates = box("dates");
  private final JComboBox<String> decimal = box("decimal");
  private final JComboBox<String> kept = box("kept");
  private final MappingTable mapping = new MappingTable(this::edited);
  private final Grid rows = new Grid("store.preview");
  private final Message notes = new Message("store.notes");
  private final Message fault = new Message("store.import.fault");
  private final JCheckBox add = new JCheckBox(Words.of("addMachines"));
  private final JTextField keepAs = new JTextField(12);
  private final JButton bring = RecordsPane.button("bring", this::bring);
  private String where;
  private Path file;
  private Optional<Mapping> given = Optional.empty();
  private boolean filling;

  ImportPanel(Desk desk, Runnable done) {
    this.desk = desk;
    this.done = done;
    fill(kind, kinds());
    fill(dates, List.of("ymd", "dmy", "mdy"));
    fill(decimal, List.of("point", "comma"));
    fill(kept, List.of());
    kind.addActionListener(e -> choice(true));
    kept.addActionListener(e -> choice(true));
    dates.addActionListener(e -> choice(false));
    decimal.addActionListener(e -> choice(false));
    name.setName("store.file");
    keepAs.setName("store.keepAs");
    add.setName("store.add");
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

  private static JComboBox<String> box(String key) {
    JComboBox<String> box = new JComboBox<>();
    box.setName("store." + key);
    box.getAccessibleContext().setAccessibleName(Words.of(key));
    return box;
  }

  private static List<String> kinds() {
    List<String> kinds = new ArrayList<>(RecordKind.words());
    kinds.add(Mapping.MACHINES);
    return kinds;
  }

  private void fill(JComboBox<String> box, List<String> words) {
    filling = true;
    Object before = box.getSelectedItem();
    DefaultComboBoxModel<String> model = new DefaultComboBoxModel<>();
    model.addElement(Words.of("asFound"));
    model.addAll(words);
    box.setModel(model);
    if (before != null && words.contains(before)) {
      box.setSelectedItem(before);
    }
    filling = false;
  }

  private static String chosen(JComboBox<String> box) {
    return box.getSelectedIndex() <= 0 ? "" : (String) box.getSelectedItem();
  }

  private JPanel top() {
    JPanel bar = new JPanel(new MigLayout("insets 8, fillx, hidemode 3", "[grow]"));
    bar.add(RecordsPane.button("choose", this::choose), "split 2");
    bar.add(name, "growx, wmin 60, wrap");
    JPanel choices = new JPanel(new MigLayout("insets 0", "[][]16[][]16[][]16[][]"));
    for (JComboBox<String> box : List.of(kind, dates, decimal, kept)) {
      JLabel label = new JLabel(box.getAccessibleContext().getAccessibleName());
      label.setLabelFor(box);
      choices.add(label);
      choices.add(box);
    }
    bar.add(choices, "wrap");
    bar.add(fault.component(), "growx, wmin 0, wrap");
    bar.add(notes.component(), "growx, wmin 0");
    return bar;
  }

  private JPanel bottom() {
    JPanel bar = new JPanel(new MigLayout("insets 8", "[]16[][]16[]"));
    add.setToolTipText(Words.of("addMachines.tip"));
    JLabel label = new JLabel(Words.of("keepAs"));
    label.setLabelFor(keepAs);
    bar.add(add);
    bar.add(label);
    bar.add(keepAs);
    bar.add(bring);
    return bar;
  }

  JComponent component() {
    return component;
  }

  /** Shows a store; a file that is chosen stays. */
  void show(String store, List<String> mappings) {
    boolean other = !store.equals(where);
    where = store;
    fill(kept, mappings);
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
    given = Optional.empty();
    look();
  }

  private void choice(boolean columnsToo) {
    if (!filling && file != null) {
      if (columnsToo) {
        given = Optional.empty();
      }
      look();
    }
  }

  private void edited() {
    given = Optional.of(mapping.mapping());
    look();
  }

  private ImportOptions options() {
    Wishes wishes =
        new Wishes(
            chosen(kind),
            "",
            "",
            "",
            chosen(decimal),
            chosen(dates),
            "",
            "",
            "auto",
            "",
            List.of());
    return new ImportOptions(
        wishes,
        System.getProperty("user.name", "somebody"),
        add.isSelected(),
        chosen(kept),
        keepAs.getText().strip(),
        Optional.empty(),
        given);
  }

  private void look() {
    String store = where;
    Path table = file;
    ImportOptions options = options();
    bring.setEnabled(false);
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
    fault.tell(text);
    notes.clear();
    rows.show(List.of(), List.of());
  }

  private void show(Optional<Preview> of) {
    fault.clear();
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
        cells.add(line.refused());
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

  private void bring() {
    String store = where;
    Path table = file;
    ImportOptions options = options();
    bring.setEnabled(false);
    desk.compute(
        "import",
        Words.of("bringing", table.getFileName()),
        progress -> {
          try (Store s = Store.openExisting(store, Clock.systemUTC())) {
            return new Importer(table, options).run(s, progress);
          }
        },
        this::tell,
        text -> {
          fault.tell(text);
          bring.setEnabled(true);
        });
  }

  private void tell(ImportReport report) {
    fault.clear();
    List<String> text = new ArrayList<>();
    text.add(Words.of("brought", report.rows(), report.added(), report.known(), report.refused()));
    if (!report.refusedFile().isEmpty()) {
      text.add(Words.of("refusedFile", report.refusedFile()));
    }
    report.notes().forEach(n -> text.add(plain(n)));
    notes.say(String.join("\n", text));
    rows.show(
        List.of(Words.of("place"), Words.of("value"), Words.of("expected")),
        report.problems().stream().map(ImportPanel::cells).toList());
    keepAs.setText("");
    desk.status(text.get(0));
    done.run();
  }

  private static List<String> cells(Problem p) {
    return List.of(p.place(), p.value(), p.expected());
  }
}
