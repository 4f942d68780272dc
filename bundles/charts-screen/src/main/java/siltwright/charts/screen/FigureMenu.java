package siltwright.charts.screen;

import java.awt.Toolkit;
import java.awt.datatransfer.DataFlavor;
import java.awt.datatransfer.StringSelection;
import java.awt.datatransfer.Transferable;
import java.awt.datatransfer.UnsupportedFlavorException;
import java.awt.image.BufferedImage;
import java.io.ByteArrayInputStream;
import java.io.File;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.text.MessageFormat;
import java.util.Locale;
import javax.imageio.ImageIO;
import javax.swing.JFileChooser;
import javax.swing.JMenuItem;
import javax.swing.JOptionPane;
import javax.swing.JPopupMenu;
import javax.swing.filechooser.FileNameExtensionFilter;
import siltwright.analysis.Figure;

/** What can be done with a figure. */
final class FigureMenu extends JPopupMenu {
  private static final long serialVersionUID = 1;

  private final FigurePanel panel;

  FigureMenu(FigurePanel panel) {
    this.panel = panel;
    item(Words.of("copyPicture"), this::copyPicture);
    item(Words.of("copyData"), this::copyData);
    addSeparator();
    for (FigureFile kind : FigureFile.values()) {
      String text = MessageFormat.format(Words.of("save"), kind.name().toUpperCase(Locale.ROOT));
      item(text, () -> save(kind));
    }
    addSeparator();
    item(Words.of("zoomIn"), () -> panel.zoom(0.5));
    item(Words.of("zoomOut"), () -> panel.zoom(2));
    item(Words.of("reset"), panel::showAll);
  }

  private void item(String text, Runnable action) {
    JMenuItem item = new JMenuItem(text);
    item.addActionListener(e -> action.run());
    add(item);
  }

  @Override
  public void setVisible(boolean visible) {
    if (!visible || panel.figure().isPresent()) {
      super.setVisible(visible);
    }
  }

  private Figure figure() {
    return panel.figure().orElseThrow();
  }

  private void copyData() {
    StringSelection data = new StringSelection(FigureFile.tabbed(figure()));
    Toolkit.getDefaultToolkit().getSystemClipboard().setContents(data, null);
  }

  private void copyPicture() {
    try {
      BufferedImage picture =
          ImageIO.read(
              new ByteArrayInputStream(
                  FigureFile.PNG.bytes(figure(), panel.getWidth(), panel.getHeight())));
      Toolkit.getDefaultToolkit().getSystemClipboard().setContents(new Picture(picture), null);
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  private void save(FigureFile kind) {
    JFileChooser chooser = new JFileChooser();
    chooser.setDialogTitle(Words.of("saveTitle"));
    chooser.setFileFilter(new FileNameExtensionFilter(kind.name(), kind.ending()));
    chooser.setSelectedFile(new File(figure().name() + "." + kind.ending()));
    if (chooser.showSaveDialog(panel) != JFileChooser.APPROVE_OPTION) {
      return;
    }
    File file = chooser.getSelectedFile();
    if (!file.getName().contains(".")) {
      file = new File(file.getPath() + "." + kind.ending());
    }
    if (file.exists() && !agreed(file)) {
      return;
    }
    try {
      Files.write(file.toPath(), kind.bytes(figure(), panel.getWidth(), panel.getHeight()));
    } catch (IOException | UncheckedIOException e) {
      String why = MessageFormat.format(Words.of("notSaved"), e.getMessage());
      JOptionPane.showMessageDialog(panel, why, Words.of("saveTitle"), JOptionPane.ERROR_MESSAGE);
    }
  }

  private boolean agreed(File file) {
    String question = MessageFormat.format(Words.of("overwrite"), file.getName());
    return JOptionPane.showConfirmDialog(
            panel, question, Words.of("saveTitle"), JOptionPane.OK_CANCEL_OPTION)
        == JOptionPane.OK_OPTION;
  }

  /** A picture on the clipboard. */
  private record Picture(BufferedImage image) implements Transferable {
    @Override
    public DataFlavor[] getTransferDataFlavors() {
      return new DataFlavor[] {DataFlavor.imageFlavor};
    }

    @Override
    public boolean isDataFlavorSupported(DataFlavor flavor) {
      return DataFlavor.imageFlavor.equals(flavor);
    }

    @Override
    public Object getTransferData(DataFlavor flavor) throws UnsupportedFlavorException {
      if (!isDataFlavorSupported(flavor)) {
        throw new UnsupportedFlavorException(flavor);
      }
      return image;
    }
  }
}
