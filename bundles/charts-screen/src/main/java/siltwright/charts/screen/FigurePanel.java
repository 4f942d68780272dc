package siltwright.charts.screen;

import java.awt.AlphaComposite;
import java.awt.Color;
import java.awt.Dimension;
import java.awt.Graphics;
import java.awt.Graphics2D;
import java.awt.Point;
import java.awt.Rectangle;
import java.awt.RenderingHints;
import java.awt.Toolkit;
import java.awt.event.ActionEvent;
import java.awt.geom.AffineTransform;
import java.awt.geom.Rectangle2D;
import java.awt.image.BufferedImage;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.function.DoubleConsumer;
import javax.accessibility.AccessibleContext;
import javax.accessibility.AccessibleRole;
import javax.swing.AbstractAction;
import javax.swing.JComponent;
import javax.swing.KeyStroke;
import javax.swing.UIManager;
import org.jfree.chart.ChartRenderingInfo;
import org.jfree.chart.JFreeChart;
import org.jfree.chart.axis.ValueAxis;
import org.jfree.chart.plot.CombinedDomainXYPlot;
import org.jfree.chart.plot.XYPlot;
import org.jfree.chart.ui.RectangleEdge;
import siltwright.analysis.Figure;
import siltwright.charts.ChartTheme;
import siltwright.charts.Charts;

/**
 * Shows a figure. The pointer, or the arrow keys, read exact values out; a drag zooms, Shift and a
 * drag pans, the wheel zooms round the pointer, a double click shows all. What it keeps of a zoom
 * survives a new figure of the same name, so that live numbers do not move the paper.
 */
public final class FigurePanel extends JComponent {
  private static final long serialVersionUID = 1;
  private static final Dimension LEAST = new Dimension(240, 160);
  private static final double STEP = 1.25;
  private static final double PAN = 0.1;
  static final int GRIP = 6;

  private final transient FigureMarks marks = new FigureMarks(this);
  private transient Figure figure;
  private transient ChartTheme theme = ChartTheme.LIGHT;
  private transient JFreeChart chart;
  private transient ChartRenderingInfo info = new ChartRenderingInfo();
  private transient BufferedImage picture;
  private transient double pictureScale;
  private transient Optional<Reading> reading = Optional.empty();
  private transient Rectangle box;
  private boolean stale;
  private double handle = Double.NaN;
  private transient DoubleConsumer moved = x -> {};
  private transient DoubleConsumer picked = x -> {};
  private transient Runnable whenZoomed = () -> {};

  /** Makes an empty panel. */
  public FigurePanel() {
    setFocusable(true);
    setOpaque(true);
    setMinimumSize(LEAST);
    setPreferredSize(new Dimension(640, 380));
    setComponentPopupMenu(new FigureMenu(this));
    FigurePointer pointer = new FigurePointer(this);
    addMouseListener(pointer);
    addMouseMotionListener(pointer);
    addMouseWheelListener(pointer);
    key("LEFT", () -> readNext(-1));
    key("RIGHT", () -> readNext(1));
    key("shift LEFT", () -> pan(-PAN));
    key("shift RIGHT", () -> pan(PAN));
    key("ctrl LEFT", () -> moveHandle(-1));
    key("ctrl RIGHT", () -> moveHandle(1));
    key("PLUS", () -> zoom(1 / STEP));
    key("EQUALS", () -> zoom(1 / STEP));
    key("ADD", () -> zoom(1 / STEP));
    key("MINUS", () -> zoom(STEP));
    key("SUBTRACT", () -> zoom(STEP));
    key("0", this::showAll);
    key("HOME", this::showAll);
    key("ESCAPE", () -> read(Optional.empty()));
    key(
        "shift F10",
        () -> getComponentPopupMenu().show(this, Math.min(40, getWidth()), getHeight() / 2));
  }

  private void key(String stroke, Runnable action) {
    getInputMap().put(KeyStroke.getKeyStroke(stroke), stroke);
    getActionMap()
        .put(
            stroke,
            new AbstractAction() {
              private static final long serialVersionUID = 1;

              @Override
              public void actionPerformed(ActionEvent e) {
                action.run();
              }
            });
  }

  /**
   * Shows a figure.
   *
   * @param shown the figure, in the units to be seen
   * @param colours its colours
   */
  public void show(Figure shown, ChartTheme colours) {
    List<double[]> ranges =
        figure != null && shown.name().equals(figure.name()) ? zoomedRanges() : List.of();
    figure = shown;
    theme = colours;
    chart = Charts.chart(shown, colours);
    if (!ranges.isEmpty() && ranges.size() == axes().size()) {
      for (int i = 0; i < ranges.size(); i++) {
        if (ranges.get(i).length == 2) {
          axes().get(i).setRange(ranges.get(i)[0], ranges.get(i)[1]);
        }
      }
    }
    reading = reading.flatMap(r -> at(r.x()));
    getAccessibleContext().setAccessibleName(shown.title());
    describe();
    changed();
  }

  /** Shows whether the figure is of numbers that are being computed again. */
  public void setStale(boolean newStale) {
    if (stale != newStale) {
      stale = newStale;
      repaint();
    }
  }

  /** Returns whether the figure is of numbers that are being computed again. */
  public boolean isStale() {
    return stale;
  }

  /**
   * Puts a handle on the x axis that the pointer, or the arrow keys with Ctrl, can move.
   *
   * @param x where it stands, in the figure's unit; not a number for none
   * @param whenMoved told where the user moves it to, while it moves
   */
  public void setHandle(double x, DoubleConsumer whenMoved) {
    handle = x;
    moved = whenMoved;
    repaint();
  }

  /**
   * Has clicks on the paper told.
   *
   * @param whenPicked told the x, in the figure's unit, that is clicked on
   */
  public void setPick(DoubleConsumer whenPicked) {
    picked = whenPicked;
  }

  /** Tells a click on the paper. */
  void pick(Point p) {
    int panel = chart == null ? -1 : panelAt(p);
    if (panel >= 0) {
      picked.accept(axes().get(0).java2DToValue(p.getX(), area(panel), RectangleEdge.BOTTOM));
    }
  }

  /** Returns whether a point is on the handle. */
  boolean onHandle(Point p) {
    return !Double.isNaN(handle)
        && chart != null
        && panelAt(p) >= 0
        && Math.abs(xPixel(handle) - p.getX()) <= GRIP;
  }

  /** Moves the handle under a point. */
  void dragHandle(Point p) {
    Rectangle2D area = area(0);
    double at = Math.max(area.getX(), Math.min(area.getMaxX(), p.getX()));
    handleTo(axes().get(0).java2DToValue(at, area, RectangleEdge.BOTTOM));
  }

  private void moveHandle(int pixels) {
    if (!Double.isNaN(handle) && chart != null && panels() > 0) {
      dragHandle(new Point((int) Math.round(xPixel(handle)) + 3 * pixels, 0));
    }
  }

  private void handleTo(double x) {
    handle = x;
    repaint();
    moved.accept(x);
  }

  /** Returns the figure shown, if there is one. */
  public Optional<Figure> figure() {
    return Optional.ofNullable(figure);
  }

  /** Returns the lines of the reading that is shown, heading first; empty if there is none. */
  public List<String> readingLines() {
    List<String> lines = new ArrayList<>();
    reading.ifPresent(
        r -> {
          lines.add(r.heading());
          r.lines().forEach(l -> lines.add((l.label() + "  " + l.text()).strip()));
        });
    return lines;
  }

  private List<ValueAxis> axes() {
    CombinedDomainXYPlot plot = (CombinedDomainXYPlot) chart.getPlot();
    List<ValueAxis> axes = new ArrayList<>(List.of(plot.getDomainAxis()));
    for (Object sub : plot.getSubplots()) {
      axes.add(((XYPlot) sub).getRangeAxis());
    }
    return axes;
  }

  private List<double[]> zoomedRanges() {
    List<double[]> ranges = new ArrayList<>();
    for (ValueAxis axis : axes()) {
      ranges.add(
          axis.isAutoRange()
              ? new double[0]
              : new double[] {axis.getLowerBound(), axis.getUpperBound()});
    }
    return ranges;
  }

  private void changed() {
    picture = null;
    repaint();
  }

  private void zoomed() {
    changed();
    whenZoomed.run();
  }

  /**
   * Has zooms told, so that what is left out of a figure for its size can come back.
   *
   * @param told called when the user has changed which part is shown; may show a figure of the same
   *     name
   */
  public void setWhenZoomed(Runnable told) {
    whenZoomed = told;
  }

  /** Returns the least and the greatest x that are shown, in the figure's unit. */
  public Optional<double[]> shownX() {
    return chart == null
        ? Optional.empty()
        : Optional.of(new double[] {axes().get(0).getLowerBound(), axes().get(0).getUpperBound()});
  }

  /** Shows everything again. */
  public void showAll() {
    if (chart != null) {
      axes().forEach(axis -> axis.setAutoRange(true));
      zoomed();
    }
  }

  /** Returns whether a part is shown only. */
  public boolean isZoomed() {
    return chart != null && axes().stream().anyMatch(axis -> !axis.isAutoRange());
  }

  /** Makes the shown range of x so many times as long, round its middle or the reading. */
  void zoom(double factor) {
    if (chart != null) {
      double share = reading.map(r -> share(xPixel(r.x()))).orElse(0.5);
      zoomX(factor, Math.max(0, Math.min(1, share)));
    }
  }

  /** Makes the shown range of x so many times as long, keeping the place at a share of it. */
  void zoomX(double factor, double share) {
    axes().get(0).zoomRange(share - share * factor, share + (1 - share) * factor);
    zoomed();
  }

  /** Moves the shown range of x by a share of its length. */
  void pan(double share) {
    if (chart != null) {
      axes().get(0).zoomRange(share, 1 + share);
      zoomed();
    }
  }

  /** Moves the shown range of y of a panel by a share of its length. */
  void panY(int panel, double share) {
    axes().get(panel + 1).zoomRange(share, 1 + share);
    zoomed();
  }

  /** Shows what is in a rectangle of a panel. */
  void zoomTo(int panel, Rectangle part) {
    Rectangle2D area = area(panel);
    axes()
        .get(0)
        .zoomRange(
            (part.getMinX() - area.getX()) / area.getWidth(),
            (part.getMaxX() - area.getX()) / area.getWidth());
    axes()
        .get(panel + 1)
        .zoomRange(
            (area.getMaxY() - part.getMaxY()) / area.getHeight(),
            (area.getMaxY() - part.getMinY()) / area.getHeight());
    zoomed();
  }

  /** Returns the number of the panel whose data area a point is in, or -1. */
  int panelAt(Point p) {
    for (int i = 0; i < panels(); i++) {
      if (area(i).contains(p)) {
        return i;
      }
    }
    return -1;
  }

  /** Returns how many panels are drawn. */
  int panels() {
    return info.getPlotInfo().getSubplotCount();
  }

  /** Returns where a panel's data are drawn. */
  Rectangle2D area(int panel) {
    return info.getPlotInfo().getSubplotInfo(panel).getDataArea();
  }

  /** Shows the zoom rectangle while it is drawn; null for none. */
  void setBox(Rectangle newBox) {
    box = newBox;
    repaint();
  }

  /** Reads the figure at a point. */
  void readAt(Point p) {
    int panel = chart == null ? -1 : panelAt(p);
    if (panel < 0) {
      read(Optional.empty());
      return;
    }
    read(at(axes().get(0).java2DToValue(p.getX(), area(panel), RectangleEdge.BOTTOM)));
  }

  /** Reads the figure at an x, in the figure's unit. */
  public void readAt(double x) {
    if (chart != null) {
      read(at(x));
    }
  }

  private Optional<Reading> at(double x) {
    return Reading.at(figure, x, this::xPixel);
  }

  /** Returns where an x is drawn. */
  double xPixel(double x) {
    Rectangle2D area =
        panels() > 0
            ? area(0)
            : new Rectangle2D.Double(0, 0, Math.max(1, getWidth()), Math.max(1, getHeight()));
    return axes().get(0).valueToJava2D(x, area, RectangleEdge.BOTTOM);
  }

  /** Returns where a y of a panel is drawn. */
  double yPixel(int panel, double y) {
    return axes().get(panel + 1).valueToJava2D(y, area(panel), RectangleEdge.LEFT);
  }

  private double share(double pixel) {
    Rectangle2D area = area(0);
    return (pixel - area.getX()) / area.getWidth();
  }

  private void read(Optional<Reading> now) {
    if (!now.equals(reading)) {
      reading = now;
      describe();
      repaint();
    }
  }

  /** Reads the next computed point to the right or left of the one read. */
  private void readNext(int direction) {
    if (chart == null || panels() == 0) {
      return;
    }
    Rectangle2D area = area(0);
    double from =
        reading.map(r -> xPixel(r.x())).orElse(direction > 0 ? area.getX() : area.getMaxX());
    for (double at = from + direction;
        at >= area.getX() - 1 && at <= area.getMaxX() + 1;
        at += direction) {
      Optional<Reading> next = at(axes().get(0).java2DToValue(at, area, RectangleEdge.BOTTOM));
      if (next.isPresent()
          && (reading.isEmpty() || direction * (next.get().x() - reading.get().x()) > 0)) {
        read(next);
        return;
      }
    }
  }

  private void describe() {
    String caption = figure == null ? Words.of("noFigure") : figure.caption();
    List<String> lines = readingLines();
    getAccessibleContext()
        .setAccessibleDescription(lines.isEmpty() ? caption : String.join("; ", lines));
  }

  @Override
  protected void paintComponent(Graphics g) {
    Graphics2D g2 = (Graphics2D) g.create();
    try {
      g2.setColor(theme.paper());
      g2.fillRect(0, 0, getWidth(), getHeight());
      if (chart == null || getWidth() < 40 || getHeight() < 40) {
        return;
      }
      paintPicture(g2);
      if (stale) {
        g2.setComposite(AlphaComposite.SrcOver.derive(0.45f));
        g2.setColor(theme.paper());
        g2.fillRect(0, 0, getWidth(), getHeight());
        g2.setComposite(AlphaComposite.SrcOver);
      }
      g2.setRenderingHint(RenderingHints.KEY_ANTIALIASING, RenderingHints.VALUE_ANTIALIAS_ON);
      Object hints = Toolkit.getDefaultToolkit().getDesktopProperty("awt.font.desktophints");
      if (hints instanceof Map<?, ?> map) {
        g2.addRenderingHints(map);
      }
      if (box != null) {
        g2.setColor(theme.span());
        g2.fill(box);
        g2.setColor(theme.reference());
        g2.draw(box);
      }
      if (!Double.isNaN(handle)) {
        marks.paintHandle(g2, handle, theme);
      }
      reading.ifPresent(r -> marks.paintReading(g2, r, theme));
      if (isFocusOwner()) {
        Color focus = UIManager.getColor("Component.focusColor");
        g2.setColor(focus == null ? theme.reference() : focus);
        g2.drawRect(0, 0, getWidth() - 1, getHeight() - 1);
      }
    } finally {
      g2.dispose();
    }
  }

  /** Draws the chart once at the screen's own scale; hovering then only copies it. */
  private void paintPicture(Graphics2D g2) {
    double scale = g2.getTransform().getScaleX();
    int width = (int) Math.ceil(getWidth() * scale);
    int height = (int) Math.ceil(getHeight() * scale);
    if (picture == null
        || pictureScale != scale
        || picture.getWidth() != width
        || picture.getHeight() != height) {
      picture = new BufferedImage(width, height, BufferedImage.TYPE_INT_RGB);
      pictureScale = scale;
      Graphics2D on = picture.createGraphics();
      on.setRenderingHint(
          RenderingHints.KEY_FRACTIONALMETRICS, RenderingHints.VALUE_FRACTIONALMETRICS_ON);
      on.scale(scale, scale);
      info = new ChartRenderingInfo();
      on.setColor(theme.paper());
      on.fillRect(0, 0, getWidth(), getHeight());
      chart.draw(on, new Rectangle2D.Double(0, 0, getWidth(), getHeight()), info);
      on.dispose();
    }
    AffineTransform back = AffineTransform.getScaleInstance(1 / scale, 1 / scale);
    g2.drawImage(picture, back, null);
  }

  @Override
  public AccessibleContext getAccessibleContext() {
    if (accessibleContext == null) {
      accessibleContext =
          new AccessibleJComponent() {
            private static final long serialVersionUID = 1;

            @Override
            public AccessibleRole getAccessibleRole() {
              return AccessibleRole.CANVAS;
            }
          };
    }
    return accessibleContext;
  }
}
