package siltwright.workbench.parts;

import java.nio.file.Path;
import java.util.function.Consumer;
import javax.swing.JButton;
import javax.swing.JComponent;
import javax.swing.JFileChooser;
import javax.swing.JLabel;
import javax.swing.JPanel;
import javax.swing.SwingConstants;
import javax.swing.filechooser.FileNameExtensionFilter;
import net.miginfocom.swing.MigLayout;

/** The table of records that a pane shows: buttons that ask for one, and its name. */
public final class RecordsFile {
  private final JComponent pane;
  private final String name;
  private final String open;
  private final String kind;
  private final Consumer<Path> chosen;
  private final JLabel label = new JLabel();
  private Path path;

  /**
   * Makes one without a file.
   *
   * @param pane the pane
   * @param name name of the buttons among the window's components
   * @param open text of the buttons
   * @param kind what such files are, for the list of kinds
   * @param chosen given each file that the user chooses
   */
  public RecordsFile(
      JComponent pane, String name, String open, String kind, Consumer<Path> chosen) {
    this.pane = pane;
    this.name = name;
    this.open = open;
    this.kind = kind;
    this.chosen = chosen;
  }

  /** Returns a button that asks for a file. */
  public JButton button() {
    JButton button = new JButton(open);
    button.setName(name);
    button.addActionListener(e -> choose());
    return button;
  }

  /** Returns what stands in a pane as long as it has no file. */
  public JPanel invitation(String text) {
    JPanel panel = new JPanel(new MigLayout("fill, wrap 1", "[center]", "push[]12[]push"));
    // in lines of a length that is read at a glance, also where the place is narrow
    panel.add(new JLabel("<html><div width=320 align=center>" + text, SwingConstants.CENTER));
    panel.add(button());
    return panel;
  }

  /** Returns the label that shows the file's name. */
  public JLabel label() {
    return label;
  }

  private void choose() {
    JFileChooser chooser =
        new JFileChooser(path == null ? null : path.toAbsolutePath().getParent().toFile());
    chooser.setFileFilter(new FileNameExtensionFilter(kind, "csv", "txt", "tsv"));
    if (chooser.showOpenDialog(pane) == JFileChooser.APPROVE_OPTION) {
      chosen.accept(chooser.getSelectedFile().toPath());
    }
  }

  /** Shows the name of a file that was opened. */
  public void show(Path opened) {
    path = opened;
    label.setText(path.getFileName().toString());
    label.setToolTipText(path.toString());
  }
}
