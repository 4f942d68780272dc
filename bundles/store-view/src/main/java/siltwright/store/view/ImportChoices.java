package siltwright.store.view;

import java.awt.Component;
import java.nio.charset.Charset;
import java.time.ZoneId;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.TreeSet;
import java.util.function.Consumer;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import javax.swing.DefaultComboBoxModel;
import javax.swing.JComboBox;
import javax.swing.JComponent;
import javax.swing.JLabel;
import javax.swing.JPanel;
import javax.swing.JTextField;
import javax.swing.Timer;
import javax.swing.text.JTextComponent;
import net.miginfocom.swing.MigLayout;
import siltwright.model.history.RecordKind;
import siltwright.transfer.Mapping;
import siltwright.transfer.Wishes;
import siltwright.workbench.parts.Typed;

/** What the user says of a table where the table does not say it, or says it wrong. */
final class ImportChoices {
  private static final int PAUSE_MS = 300;
  private static final Pattern OPTION = Pattern.compile("option --([a-z-]+): (.*)");
  private static final List<String> USUAL =
      List.of("UTF-8", "windows-1252", "ISO-8859-1", "ISO-8859-15", "UTF-16LE", "UTF-16BE");

  private final Map<String, JComponent> fields = new LinkedHashMap<>();
  private final JPanel component =
      new JPanel(new MigLayout("insets 0, wrap 6", "[][]12[][]12[][]"));
  private final Consumer<Boolean> changed;
  private final JComboBox<String> kind = box("kind", kinds());
  private final JComboBox<String> kept = box("kept", List.of());
  private final JComboBox<String> sheet = box("sheet", List.of());
  private final JComboBox<String> encoding = box("encoding", encodings());
  private final JComboBox<String> delimiter = box("delimiter", List.of(",", ";", "tab", "|"));
  private final JComboBox<String> decimal = box("decimal", List.of("point", "comma"));
  private final JComboBox<String> dates = box("dates", List.of("ymd", "dmy", "mdy"));
  private final JComboBox<String> zone =
      box("zone", List.copyOf(new TreeSet<>(ZoneId.getAvailableZoneIds())));
  private final JComboBox<String> match = box("match", List.of("id", "serial"));
  private final JTextField rule = text("rule", 14);
  private final JTextField machine = text("machine", 8);
  private boolean filling;

  /**
   * Makes it, with everything left to the table.
   *
   * @param changed called after each change, with whether the columns may be others now
   */
  ImportChoices(Consumer<Boolean> changed) {
    this.changed = changed;
    for (JComboBox<String> box : List.of(kind, kept, sheet, encoding)) {
      box.addActionListener(e -> change(true));
    }
    for (JComboBox<String> box : List.of(decimal, dates, match)) {
      box.addActionListener(e -> change(false));
    }
    editable(delimiter, true);
    editable(zone, false);
    for (JTextField field : List.of(rule, machine)) {
      typed(field, false);
    }
    fields.forEach(this::add);
    show(false, List.of());
  }

  private static List<String> kinds() {
    List<String> kinds = new ArrayList<>(RecordKind.words());
    kinds.add(Mapping.MACHINES);
    return kinds;
  }

  private static List<String> encodings() {
    List<String> all = new ArrayList<>(USUAL);
    Charset.availableCharsets().keySet().stream().filter(n -> !USUAL.contains(n)).forEach(all::add);
    return all;
  }

  private JComboBox<String> box(String key, List<String> words) {
    JComboBox<String> box = new JComboBox<>();
    named(box, key);
    fill(box, words);
    // zones and encodings have long names: the list shows them whole
    box.setPrototypeDisplayValue("windows-1252");
    return box;
  }

  private JTextField text(String key, int columns) {
    JTextField field = new JTextField(columns);
    named(field, key);
    return field;
  }

  private void named(JComponent field, String key) {
    field.setName("store." + key);
    field.getAccessibleContext().setAccessibleName(Words.of(key));
    field.setToolTipText(Words.of(key + ".tip"));
    fields.put(key, field);
  }

  private void add(String key, JComponent field) {
    JLabel label = new JLabel(Words.of(key));
    label.setLabelFor(field);
    component.add(label);
    component.add(field);
  }

  private void editable(JComboBox<String> box, boolean columnsToo) {
    box.setEditable(true);
    JTextField editor = (JTextField) box.getEditor().getEditorComponent();
    editor.setName(box.getName() + ".text");
    editor.getAccessibleContext().setAccessibleName(box.getAccessibleContext().getAccessibleName());
    typed(editor, columnsToo);
  }

  /** What is typed counts after a pause, and at once when the key for entering is pressed. */
  private void typed(JTextField field, boolean columnsToo) {
    Timer pause = new Timer(PAUSE_MS, e -> change(columnsToo));
    pause.setRepeats(false);
    field.getDocument().addDocumentListener(new Typed(pause::restart));
    field.addActionListener(
        e -> {
          pause.stop();
          change(columnsToo);
        });
  }

  private void change(boolean columnsToo) {
    if (!filling) {
      changed.accept(columnsToo);
    }
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

  JComponent component() {
    return component;
  }

  /** Shows the mappings that a store keeps. */
  void show(List<String> mappings) {
    fill(kept, mappings);
  }

  /** Shows what there is to choose of a file. */
  void show(boolean text, List<String> sheets) {
    fill(sheet, sheets);
    encoding.setEnabled(text);
    delimiter.setEnabled(text);
    sheet.setEnabled(!sheets.isEmpty());
  }

  private static String chosen(JComboBox<String> box) {
    if (!box.isEnabled()) {
      return "";
    }
    String text =
        box.isEditable()
            ? ((JTextComponent) box.getEditor().getEditorComponent()).getText()
            : (String) box.getSelectedItem();
    return text.equals(Words.of("asFound")) ? "" : text.strip();
  }

  /** Returns the name of the mapping to read by; empty for none. */
  String mapping() {
    return chosen(kept);
  }

  Wishes wishes() {
    String by = chosen(match);
    return new Wishes(
        chosen(kind),
        chosen(sheet),
        chosen(encoding),
        chosen(delimiter),
        chosen(decimal),
        chosen(dates),
        chosen(zone),
        machine.getText().strip(),
        by.isEmpty() ? "auto" : by,
        rule.getText().strip(),
        List.of());
  }

  /**
   * Marks the choices that cannot be, and returns what is wrong with them under the names that they
   * have here.
   *
   * @param problems a line a problem, as a command would tell it; empty marks none
   */
  String mark(String problems) {
    fields.values().forEach(f -> mark(f, false));
    List<String> lines = new ArrayList<>();
    for (String line : problems.split("\n")) {
      Matcher m = OPTION.matcher(line);
      String key = m.matches() ? key(m.group(1)) : "";
      if (fields.containsKey(key)) {
        mark(fields.get(key), true);
        lines.add(Words.of(key) + ": " + m.group(2));
      } else {
        lines.add(line);
      }
    }
    return String.join("\n", lines);
  }

  private static String key(String option) {
    return switch (option) {
      case "machine-rule" -> "rule";
      case "mapping" -> "kept";
      default -> option;
    };
  }

  private static void mark(JComponent field, boolean wrong) {
    field.putClientProperty("JComponent.outline", wrong ? "error" : null);
    for (Component c : field.getComponents()) {
      if (c instanceof JTextField text) {
        text.putClientProperty("JComponent.outline", wrong ? "error" : null);
      }
    }
  }
}
