package siltwright.features;

import java.awt.datatransfer.DataFlavor;
import java.awt.datatransfer.Transferable;
import java.io.File;
import java.util.List;

/**
 * A file as it is dragged into a window.
 *
 * @param file the file
 */
record FileList(File file) implements Transferable {
  @Override
  public DataFlavor[] getTransferDataFlavors() {
    return new DataFlavor[] {DataFlavor.javaFileListFlavor};
  }

  @Override
  public boolean isDataFlavorSupported(DataFlavor flavor) {
    return DataFlavor.javaFileListFlavor.equals(flavor);
  }

  @Override
  public Object getTransferData(DataFlavor flavor) {
    return List.of(file);
  }
}
