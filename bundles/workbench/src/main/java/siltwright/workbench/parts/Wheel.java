package siltwright.workbench.parts;

import java.awt.event.MouseWheelEvent;
import javax.swing.JScrollBar;
import javax.swing.JScrollPane;
import javax.swing.SwingUtilities;

/** Lets the wheel scroll what is inside, and the page round it where there is no more to scroll. */
final class Wheel {
  private Wheel() {}

  static void passOn(JScrollPane scroll) {
    scroll.addMouseWheelListener(e -> turned(scroll, e));
  }

  private static void turned(JScrollPane scroll, MouseWheelEvent e) {
    JScrollBar bar =
        e.isShiftDown() ? scroll.getHorizontalScrollBar() : scroll.getVerticalScrollBar();
    int step = e.getUnitsToScroll() * bar.getUnitIncrement(e.getWheelRotation() < 0 ? -1 : 1);
    int most = bar.getMaximum() - bar.getVisibleAmount();
    int to = Math.max(0, Math.min(most, bar.getValue() + step));
    if (bar.isVisible() && to != bar.getValue()) {
      bar.setValue(to);
    } else if (scroll.getParent() != null) {
      scroll
          .getParent()
          .dispatchEvent(SwingUtilities.convertMouseEvent(scroll, e, scroll.getParent()));
    }
  }
}
