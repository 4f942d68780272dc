package siltwright.circuit.view;

import java.awt.Color;
import java.awt.Cursor;
import java.awt.Dimension;
import java.awt.Graphics;
import java.awt.Graphics2D;
import java.awt.Point;
import java.awt.event.MouseAdapter;
import java.awt.event.MouseEvent;
import java.awt.event.MouseWheelEvent;
import java.util.Optional;
import java.util.function.Consumer;
import javax.accessibility.AccessibleContext;
import javax.accessibility.AccessibleRole;
import javax.swing.JComponent;
import javax.swing.ToolTipManager;
import siltwright.circuit.view.Plan.Place;
import siltwright.circuit.view.Readings.Card;

/** Shows a picture, zoomed and moved by wheel and mouse; tells the numbers of a part under it. */
final class CircuitCanvas extends JComponent {
  private static final long serialVersionUID = 1;
  private static final double WHEEL_STEP = 1.15;
  private static final double SMALLEST_TEXT_ON_SCREEN = 10.5;
  private static final int STALE_ALPHA = 120;

  private final transient Lens lens;
  private final transient Consumer<String> chosen;
  private transient Picture picture;
  private double motionS;
  private boolean stale;

  /**
   * Makes a canvas.
   *
   * @param lens what it looks through
   * @param chosen given the path of a part that was clicked
   */
  CircuitCanvas(Lens lens, Consumer<String> chosen) {
    this.lens = lens;
    this.chosen = chosen;
    lens.watch(this::repaint);
    setOpaque(true);
    setPreferredSize(new Dimension(640, 450));
    setMinimumSize(new Dimension(160, 120));
    Mouse mouse = new Mouse();
    addMouseListener(mouse);
    addMouseMotionListener(mouse);
    addMouseWheelListener(mouse);
    ToolTipManager.sharedInstance().registerComponent(this);
  }

  /** Lets go of what outlives it. */
  void close() {
    ToolTipManager.sharedInstance().unregisterComponent(this);
  }

  /** Shows a picture with the dirt where it has moved to. */
  void show(Picture shown, double seconds) {
    picture = shown;
    motionS = seconds;
    repaint();
  }

  Optional<Picture> picture() {
    return Optional.ofNullable(picture);
  }

  /** Marks what is shown as no longer true. */
  void stale(boolean now) {
    stale = now;
    repaint();
  }

  @Override
  protected void paintComponent(Graphics graphics) {
    Graphics2D g = (Graphics2D) graphics.create();
    try {
      if (picture == null) {
        g.setPaint(getBackground());
        g.fillRect(0, 0, getWidth(), getHeight());
        return;
      }
      Color paper = picture.theme().paper();
      g.setPaint(paper);
      g.fillRect(0, 0, getWidth(), getHeight());
      double scale = scale();
      g.translate(originX(scale), originY(scale));
      g.scale(scale, scale);
      double text =
          Math.max(Picture.TEXT, Math.min(Picture.LARGEST_TEXT, SMALLEST_TEXT_ON_SCREEN / scale));
      picture.paint(g, text, motionS);
      if (stale) {
        g.setPaint(SymbolPainter.faded(paper, STALE_ALPHA));
        g.fillRect(0, 0, (int) picture.plan().width(), (int) picture.plan().height());
      }
    } finally {
      g.dispose();
    }
  }

  private double scale() {
    Plan plan = picture.plan();
    double fit = Math.min(getWidth() / plan.width(), getHeight() / plan.height());
    return Math.max(0.05, fit * lens.zoom());
  }

  private double originX(double scale) {
    return getWidth() / 2.0 - scale * picture.plan().width() * lens.x();
  }

  private double originY(double scale) {
    return getHeight() / 2.0 - scale * picture.plan().height() * lens.y();
  }

  private Spot onPlan(Point at) {
    double scale = scale();
    return new Spot((at.x - originX(scale)) / scale, (at.y - originY(scale)) / scale);
  }

  private Optional<Place> placeAt(Point at) {
    if (picture == null) {
      return Optional.empty();
    }
    Spot spot = onPlan(at);
    return picture.plan().placeAt(spot.x(), spot.y());
  }

  @Override
  public String getToolTipText(MouseEvent event) {
    Optional<Place> place = placeAt(event.getPoint());
    if (place.isEmpty()) {
      return null;
    }
    Card card = picture.readings().card(place.get().id());
    if (card.title().isEmpty()) {
      return null;
    }
    StringBuilder text = new StringBuilder("<html><b>" + escaped(card.title()) + "</b>");
    card.lines().forEach(line -> text.append("<br>").append(escaped(line)));
    return text.toString();
  }

  private static String escaped(String text) {
    return text.replace("&", "&amp;").replace("<", "&lt;");
  }

  private final class Mouse extends MouseAdapter {
    private Point last;

    @Override
    public void mousePressed(MouseEvent e) {
      requestFocusInWindow();
      last = e.getPoint();
    }

    @Override
    public void mouseDragged(MouseEvent e) {
      if (picture != null && last != null) {
        double scale = scale();
        lens.move(
            (last.x - e.getX()) / scale / picture.plan().width(),
            (last.y - e.getY()) / scale / picture.plan().height());
      }
      last = e.getPoint();
    }

    @Override
    public void mouseMoved(MouseEvent e) {
      boolean part = placeAt(e.getPoint()).filter(p -> !p.path().isEmpty()).isPresent();
      setCursor(Cursor.getPredefinedCursor(part ? Cursor.HAND_CURSOR : Cursor.DEFAULT_CURSOR));
    }

    @Override
    public void mouseClicked(MouseEvent e) {
      placeAt(e.getPoint()).map(Place::path).filter(path -> !path.isEmpty()).ifPresent(chosen);
    }

    @Override
    public void mouseWheelMoved(MouseWheelEvent e) {
      if (picture != null) {
        Spot at = onPlan(e.getPoint());
        lens.zoom(
            Math.pow(WHEEL_STEP, -e.getPreciseWheelRotation()),
            at.x() / picture.plan().width(),
            at.y() / picture.plan().height());
      }
    }
  }

  @Override
  public AccessibleContext getAccessibleContext() {
    if (accessibleContext == null) {
      accessibleContext = new Accessible();
    }
    return accessibleContext;
  }

  private final class Accessible extends AccessibleJComponent {
    private static final long serialVersionUID = 1;

    @Override
    public AccessibleRole getAccessibleRole() {
      return AccessibleRole.CANVAS;
    }
  }
}
