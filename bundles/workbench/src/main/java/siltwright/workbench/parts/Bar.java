package siltwright.workbench.parts;

import java.awt.Component;
import java.awt.Container;
import java.awt.Dimension;
import java.awt.FlowLayout;
import java.awt.Insets;
import javax.swing.BorderFactory;
import javax.swing.JComponent;
import javax.swing.JLabel;
import javax.swing.JPanel;
import javax.swing.SwingUtilities;

/** Controls in a row; where the room ends they go on in a next one, so that none is cut off. */
public final class Bar extends JPanel {
  private static final long serialVersionUID = 1;
  private static final int ACROSS = 8;
  private static final int DOWN = 4;

  /** Makes an empty bar. */
  public Bar() {
    super(new Rows());
    setOpaque(false);
  }

  /**
   * Makes an empty bar whose rows begin at its very edge, in a part that keeps its own distance.
   */
  public static Bar flush() {
    Bar bar = new Bar();
    bar.setBorder(BorderFactory.createEmptyBorder(0, -ACROSS, 0, 0));
    return bar;
  }

  /** Adds controls that stay together. */
  public void addTogether(JComponent... controls) {
    JPanel together = new JPanel(new FlowLayout(FlowLayout.LEADING, ACROSS / 2, 0));
    together.setOpaque(false);
    together.setBorder(BorderFactory.createEmptyBorder(0, -ACROSS / 2, 0, -ACROSS / 2));
    for (JComponent control : controls) {
      together.add(control);
    }
    add(together);
  }

  /** Adds a control behind its label, which stays with it. */
  public void addLabelled(String text, JComponent control) {
    JLabel label = new JLabel(text);
    label.setLabelFor(control);
    addTogether(label, control);
  }

  /** How high it would be depends on how wide it is, which its parent finds out only now. */
  @Override
  public void setBounds(int x, int y, int width, int height) {
    boolean other = width != getWidth();
    super.setBounds(x, y, width, height);
    if (other && getPreferredSize().height != height) {
      SwingUtilities.invokeLater(this::revalidate);
    }
  }

  /** A flow that asks for the height of all its rows. */
  private static final class Rows extends FlowLayout {
    private static final long serialVersionUID = 1;

    Rows() {
      super(LEADING, ACROSS, DOWN);
    }

    @Override
    public Dimension preferredLayoutSize(Container parent) {
      int width = parent.getWidth();
      if (width == 0) {
        return super.preferredLayoutSize(parent);
      }
      Insets insets = parent.getInsets();
      int room = width - insets.left - insets.right - 2 * getHgap();
      int x = 0;
      int row = 0;
      int height = insets.top + insets.bottom + getVgap();
      for (Component c : parent.getComponents()) {
        if (c.isVisible()) {
          Dimension size = c.getPreferredSize();
          if (x > 0 && x + size.width > room) {
            height += row + getVgap();
            x = 0;
            row = 0;
          }
          // the gap before a control counts once the control has its place
          x += (x > 0 ? getHgap() : 0) + size.width;
          row = Math.max(row, size.height);
        }
      }
      return new Dimension(width, height + row + getVgap());
    }

    @Override
    public Dimension minimumLayoutSize(Container parent) {
      return new Dimension(0, preferredLayoutSize(parent).height);
    }
  }
}
