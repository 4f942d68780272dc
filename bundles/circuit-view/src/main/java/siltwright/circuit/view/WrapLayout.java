package siltwright.circuit.view;

import java.awt.Component;
import java.awt.Container;
import java.awt.Dimension;
import java.awt.FlowLayout;
import java.awt.Insets;

/** A flow that asks for the height of all its rows, so that a narrow pane cuts nothing off. */
final class WrapLayout extends FlowLayout {
  private static final long serialVersionUID = 1;

  WrapLayout(int align, int across, int down) {
    super(align, across, down);
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
        x += size.width + getHgap();
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
