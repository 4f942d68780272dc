package siltwright.charts.screen;

import java.awt.Cursor;
import java.awt.Point;
import java.awt.Rectangle;
import java.awt.event.MouseAdapter;
import java.awt.event.MouseEvent;
import java.awt.event.MouseWheelEvent;
import java.awt.geom.Rectangle2D;
import javax.swing.SwingUtilities;

/** What the mouse does over a figure. */
final class FigurePointer extends MouseAdapter {
  private static final int LEAST = 6;
  private static final double WHEEL = 1.15;

  private final FigurePanel panel;
  private Point pressed;
  private int pressedIn = -1;
  private boolean pans;
  private boolean moves;

  FigurePointer(FigurePanel panel) {
    this.panel = panel;
  }

  @Override
  public void mouseMoved(MouseEvent e) {
    panel.setCursor(
        panel.onHandle(e.getPoint()) ? Cursor.getPredefinedCursor(Cursor.E_RESIZE_CURSOR) : null);
    panel.readAt(e.getPoint());
  }

  @Override
  public void mouseExited(MouseEvent e) {
    panel.readAt(new Point(-1, -1));
  }

  @Override
  public void mousePressed(MouseEvent e) {
    panel.requestFocusInWindow();
    boolean left = SwingUtilities.isLeftMouseButton(e) && !e.isPopupTrigger();
    boolean middle = SwingUtilities.isMiddleMouseButton(e);
    if (!panel.figure().isPresent() || !left && !middle) {
      return;
    }
    pressed = e.getPoint();
    moves = left && panel.onHandle(pressed);
    if (moves) {
      return;
    }
    pressedIn = panel.panelAt(pressed);
    pans = middle || e.isShiftDown();
  }

  @Override
  public void mouseDragged(MouseEvent e) {
    if (moves) {
      panel.dragHandle(e.getPoint());
      return;
    }
    if (pressedIn < 0) {
      return;
    }
    if (pans) {
      Rectangle2D area = panel.area(pressedIn);
      panel.pan((pressed.x - e.getX()) / area.getWidth());
      panel.panY(pressedIn, (e.getY() - pressed.y) / area.getHeight());
      pressed = e.getPoint();
    } else {
      panel.setBox(box(e.getPoint()));
    }
  }

  private Rectangle box(Point to) {
    Rectangle box = new Rectangle(pressed);
    box.add(to);
    return box.intersection(panel.area(pressedIn).getBounds());
  }

  @Override
  public void mouseReleased(MouseEvent e) {
    moves = false;
    if (pressedIn >= 0 && !pans) {
      Rectangle box = box(e.getPoint());
      panel.setBox(null);
      if (box.width >= LEAST && box.height >= LEAST) {
        panel.zoomTo(pressedIn, box);
      }
    }
    pressedIn = -1;
  }

  @Override
  public void mouseClicked(MouseEvent e) {
    if (SwingUtilities.isLeftMouseButton(e) && e.getClickCount() == 2) {
      panel.showAll();
    } else if (SwingUtilities.isLeftMouseButton(e)) {
      panel.pick(e.getPoint());
    }
  }

  @Override
  public void mouseWheelMoved(MouseWheelEvent e) {
    int in = panel.figure().isPresent() ? panel.panelAt(e.getPoint()) : -1;
    // A wheel over the paper scrolls the page; with Ctrl, or once zoomed, it zooms.
    if (in < 0 || !e.isControlDown() && !panel.isZoomed()) {
      if (panel.getParent() != null) {
        panel
            .getParent()
            .dispatchEvent(SwingUtilities.convertMouseEvent(panel, e, panel.getParent()));
      }
      return;
    }
    Rectangle2D area = panel.area(in);
    double factor = Math.pow(WHEEL, e.getPreciseWheelRotation());
    panel.zoomX(factor, (e.getX() - area.getX()) / area.getWidth());
  }
}
