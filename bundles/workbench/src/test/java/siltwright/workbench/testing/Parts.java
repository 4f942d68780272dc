package siltwright.workbench.testing;

import java.awt.Component;
import java.awt.Container;
import java.awt.Graphics2D;
import java.awt.image.BufferedImage;
import java.io.File;
import java.io.IOException;
import java.util.ArrayList;
import java.util.List;
import java.util.function.Predicate;
import javax.imageio.ImageIO;
import javax.swing.JComponent;

/** Finds what stands in a pane, and paints it without a screen. */
public final class Parts {
  /** Some layouts ask for their height once they know their width, some levels deep. */
  private static final int LAYOUTS = 4;

  private Parts() {}

  /** Returns all components in one, in the order in which they were added. */
  public static List<Component> all(Container in) {
    List<Component> found = new ArrayList<>();
    for (Component c : in.getComponents()) {
      found.add(c);
      if (c instanceof Container container) {
        found.addAll(all(container));
      }
    }
    return found;
  }

  /** Returns the first component of a kind for which something holds. */
  public static <T> T find(Container in, Class<T> type, Predicate<Component> which) {
    return type.cast(
        all(in).stream()
            .filter(type::isInstance)
            .filter(which)
            .findFirst()
            .orElseThrow(() -> new AssertionError("no such " + type.getSimpleName())));
  }

  /** Returns the first component of a kind and name. */
  public static <T> T find(Container in, Class<T> type, String name) {
    return type.cast(
        all(in).stream()
            .filter(type::isInstance)
            .filter(c -> name.equals(c.getName()))
            .findFirst()
            .orElseThrow(() -> new AssertionError("no " + name)));
  }

  /** Lays a pane out in a size, in pixels. */
  public static void layOut(JComponent pane, int width, int height) {
    pane.setSize(width, height);
    for (int i = 0; i < LAYOUTS; i++) {
      layOut(pane);
    }
  }

  private static void layOut(Container c) {
    c.doLayout();
    for (Component child : c.getComponents()) {
      if (child instanceof Container container) {
        layOut(container);
      }
    }
  }

  /** Lays a pane out and paints it; call it on the event thread. */
  public static BufferedImage paint(JComponent pane, int width, int height) {
    layOut(pane, width, height);
    BufferedImage picture = new BufferedImage(width, height, BufferedImage.TYPE_INT_RGB);
    Graphics2D g = picture.createGraphics();
    pane.paint(g);
    g.dispose();
    return picture;
  }

  /** Keeps a picture among the build's, to look at. */
  public static void keep(BufferedImage picture, String name) throws IOException {
    File folder = new File("target/pictures");
    folder.mkdirs();
    if (!ImageIO.write(picture, "png", new File(folder, name + ".png"))) {
      throw new IOException("no PNG of " + name);
    }
  }
}
