package siltwright.workbench.internal;

import java.awt.BorderLayout;
import java.awt.Dimension;
import java.awt.Font;
import java.io.UncheckedIOException;
import java.nio.file.Path;
import java.util.List;
import javax.swing.BorderFactory;
import javax.swing.JComboBox;
import javax.swing.JLabel;
import javax.swing.JPanel;
import javax.swing.JScrollPane;
import javax.swing.JTabbedPane;
import javax.swing.JTextArea;
import javax.swing.UIManager;
import siltwright.analysis.Cell;
import siltwright.analysis.Entry;
import siltwright.workbench.parts.EntryTable;
import siltwright.workbench.parts.Wrapped;

/** What the program is, which parts it is made of, and under which licences. */
final class AboutPage extends JTabbedPane {
  private static final long serialVersionUID = 1;
  private static final Dimension SIZE = new Dimension(880, 430);
  private static final int GAP = 10;

  private final transient Distribution distribution;

  AboutPage(Distribution distribution) {
    this.distribution = distribution;
    setName("about");
    setPreferredSize(SIZE);
    addTab(Texts.of("about.program"), padded(program()));
    List<Distribution.Part> parts = distribution.parts();
    if (!parts.isEmpty()) {
      addTab(Texts.of("about.parts", parts.size()), padded(table(parts)));
    }
    List<Path> texts = distribution.texts();
    if (!texts.isEmpty()) {
      addTab(Texts.of("about.licences"), padded(licences(texts)));
    }
  }

  private static JPanel padded(JPanel panel) {
    panel.setBorder(BorderFactory.createEmptyBorder(GAP, GAP, GAP, GAP));
    return panel;
  }

  private JPanel program() {
    JPanel panel = new JPanel(new BorderLayout(GAP, GAP));
    JLabel name =
        new JLabel(
            distribution.version().isEmpty()
                ? "Siltwright"
                : Texts.of("about.version", distribution.version(), distribution.feature()));
    name.setName("about.version");
    name.setFont(UIManager.getFont("h2.font"));
    panel.add(name, BorderLayout.NORTH);
    String java = distribution.bringsJava() ? "about.java.own" : "about.java.computer";
    String runs = Texts.of(java, System.getProperty("java.version"));
    panel.add(Wrapped.area(Texts.of("help.about") + "\n\n" + runs), BorderLayout.CENTER);
    return panel;
  }

  private static JPanel table(List<Distribution.Part> parts) {
    EntryTable table = new EntryTable();
    table.show(
        new Entry.Table(
            "parts",
            Texts.of("about.licences"),
            Entry.Use.READ,
            List.of(
                new Entry.Column("name", Texts.of("about.part"), ""),
                new Entry.Column("version", Texts.of("about.partVersion"), ""),
                new Entry.Column("licence", Texts.of("about.licence"), "")),
            parts.stream()
                .map(p -> List.of(Cell.of(p.name()), Cell.of(p.version()), Cell.of(p.licence())))
                .toList()));
    JPanel panel = new JPanel(new BorderLayout());
    panel.add(table, BorderLayout.CENTER);
    return panel;
  }

  private static JPanel licences(List<Path> texts) {
    JTextArea text = new JTextArea();
    text.setName("about.text");
    text.setEditable(false);
    text.setFont(new Font(Font.MONOSPACED, Font.PLAIN, text.getFont().getSize()));
    JComboBox<String> choice = new JComboBox<>();
    choice.setName("about.choice");
    choice.getAccessibleContext().setAccessibleName(Texts.of("about.licences"));
    for (Path file : texts) {
      choice.addItem(label(file));
    }
    choice.addActionListener(e -> show(texts.get(choice.getSelectedIndex()), text));
    show(texts.get(0), text);
    JPanel panel = new JPanel(new BorderLayout(GAP, GAP));
    panel.add(choice, BorderLayout.NORTH);
    panel.add(new JScrollPane(text), BorderLayout.CENTER);
    return panel;
  }

  private static String label(Path file) {
    boolean ofJava = file.getParent().getFileName().toString().equals("java.base");
    String name = file.getFileName().toString();
    return ofJava ? Texts.of("about.ofJava", name) : name;
  }

  private static void show(Path file, JTextArea text) {
    try {
      text.setText(Distribution.read(file));
    } catch (UncheckedIOException e) {
      text.setText(e.getCause().getMessage());
    }
    text.setCaretPosition(0);
    text.getAccessibleContext().setAccessibleName(label(file));
  }
}
