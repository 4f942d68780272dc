package siltwright.circuit.view;

import java.io.BufferedOutputStream;
import java.io.File;
import java.io.IOException;
import java.io.OutputStream;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.util.List;
import java.util.ResourceBundle;
import java.util.function.DoubleSupplier;
import java.util.function.Supplier;
import javax.swing.JButton;
import javax.swing.JComponent;
import javax.swing.JFileChooser;
import javax.swing.JMenuItem;
import javax.swing.JOptionPane;
import javax.swing.JPopupMenu;
import javax.swing.filechooser.FileNameExtensionFilter;
import siltwright.workbench.Desk;

/** Saves what is shown as a file: asks where, and writes off the event thread. */
final class SaveMenu {
  private final Desk desk;
  private final JComponent parent;
  private final ResourceBundle texts;
  private final Supplier<List<Picture>> pictures;
  private final DoubleSupplier motionS;

  SaveMenu(
      Desk desk,
      JComponent parent,
      ResourceBundle texts,
      Supplier<List<Picture>> pictures,
      DoubleSupplier motionS) {
    this.desk = desk;
    this.parent = parent;
    this.texts = texts;
    this.pictures = pictures;
    this.motionS = motionS;
  }

  JButton button() {
    JButton button = new JButton(word("save"));
    button.setName("save");
    button.setMnemonic(word("save.key").charAt(0));
    JPopupMenu menu = new JPopupMenu();
    for (PictureFile kind : PictureFile.values()) {
      JMenuItem item = new JMenuItem(word("save.as", kind.name()));
      item.setName("save." + kind.ending());
      item.addActionListener(e -> ask(kind));
      menu.add(item);
    }
    button.addActionListener(e -> menu.show(button, 0, button.getHeight()));
    return button;
  }

  private void ask(PictureFile kind) {
    List<Picture> now = pictures.get();
    if (now.isEmpty()) {
      return;
    }
    JFileChooser chooser = new JFileChooser();
    chooser.setDialogTitle(word("save"));
    chooser.setFileFilter(new FileNameExtensionFilter(kind.name(), kind.ending()));
    chooser.setSelectedFile(new File("circuit." + kind.ending()));
    if (chooser.showSaveDialog(parent) != JFileChooser.APPROVE_OPTION) {
      return;
    }
    File chosen = chooser.getSelectedFile();
    File file =
        chosen.getName().contains(".") ? chosen : new File(chosen.getPath() + "." + kind.ending());
    if (!file.exists()
        || JOptionPane.showConfirmDialog(
                parent, word("exists", file.getName()), word("save"), JOptionPane.OK_CANCEL_OPTION)
            == JOptionPane.OK_OPTION) {
      write(kind, now, file);
    }
  }

  void write(PictureFile kind, List<Picture> now, File file) {
    double seconds = motionS.getAsDouble();
    desk.compute(
        "save",
        word("save.as", kind.name()),
        progress -> {
          try (OutputStream out = new BufferedOutputStream(Files.newOutputStream(file.toPath()))) {
            kind.write(now, seconds, out);
          } catch (IOException e) {
            throw new UncheckedIOException(e);
          }
          return file;
        },
        saved -> desk.status(word("saved", saved.getPath())),
        why -> desk.status(word("saved.not", why)));
  }

  private String word(String key, Object... with) {
    return Words.text(texts, key, with);
  }
}
