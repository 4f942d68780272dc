package siltwright.charts;

import java.awt.BasicStroke;
import java.awt.Font;
import java.awt.FontMetrics;
import java.awt.Graphics2D;
import java.awt.Shape;
import java.awt.geom.Ellipse2D;
import java.awt.geom.Line2D;
import java.awt.geom.Point2D;
import java.awt.geom.Rectangle2D;
import java.util.ArrayList;
import java.util.List;
import org.jfree.chart.axis.AxisSpace;
import org.jfree.chart.axis.ValueAxis;
import org.jfree.chart.plot.DatasetRenderingOrder;
import org.jfree.chart.plot.PlotRenderingInfo;
import org.jfree.chart.plot.PlotState;
import org.jfree.chart.plot.XYPlot;
import org.jfree.chart.ui.RectangleEdge;
import siltwright.analysis.Axis;
import siltwright.analysis.Layer;
import siltwright.analysis.Numbers;
import siltwright.analysis.Panel;

/**
 * A panel: above its data a head with the axis' label, the keys of its lines and the labels of its
 * marks, each where it is read without a rotated text and without a box over the data.
 */
final class PanelPlot extends XYPlot {
  private static final long serialVersionUID = 1;
  private static final double ROW = 16;
  private static final double KEY_WIDTH = 24;
  private static final double KEY_GAP = 18;
  private static final double BESIDE_SHARE = 0.34;
  private static final double SWATCH = 9;
  private static final String ELLIPSIS = "…";
  private static final long LABEL_HIDDEN = 100;
  private static final double[] PLACES_ALONG = {1, 0, 0.75, 0.25, 0.5, 0.875, 0.125};

  private final transient Panel panel;
  private final transient ChartTheme theme;
  private final transient boolean empty;
  private final transient List<LayerRenderer> renderers = new ArrayList<>();
  private final transient List<Key> keys = new ArrayList<>();
  private final Font font;
  private final Font strong;

  /** A line of the legend. */
  private record Key(String label, Layer layer, Look look) {}

  PanelPlot(Panel panel, ChartTheme theme, Font font, ScaleAxis y) {
    super(null, null, y, null);
    this.panel = panel;
    this.theme = theme;
    this.font = font;
    this.strong = font.deriveFont(Font.BOLD);
    this.empty = Extent.y(panel).isEmpty();
    setDatasetRenderingOrder(DatasetRenderingOrder.FORWARD);
    // Compared lines take the colours that the main line leaves.
    int compared = panel.layers().stream().anyMatch(PanelPlot::isMain) ? 1 : 0;
    for (Layer layer : panel.layers()) {
      Look look = Look.of(style(layer), compared, theme);
      if (style(layer) == Layer.Style.COMPARED && LayerData.of(layer).isPresent()) {
        compared++;
      }
      LayerData.of(layer).ifPresent(data -> add(data, layer, look));
    }
  }

  private void add(LayerData data, Layer layer, Look look) {
    LayerRenderer renderer = new LayerRenderer(layer, look, theme);
    setDataset(renderers.size(), data);
    setRenderer(renderers.size(), renderer);
    renderers.add(renderer);
    if (!layer.label().isEmpty() && !(layer instanceof Layer.Stack)) {
      keys.add(new Key(layer.label(), layer, look));
    }
  }

  private static boolean isMain(Layer layer) {
    return LayerData.of(layer).isPresent() && style(layer) == Layer.Style.MAIN;
  }

  private static Layer.Style style(Layer layer) {
    if (layer instanceof Layer.Line line) {
      return line.style();
    }
    if (layer instanceof Layer.Steps steps) {
      return steps.style();
    }
    if (layer instanceof Layer.At at) {
      return at.style();
    }
    // Sets of points are compared with each other only by their marks.
    return layer instanceof Layer.Points ? Layer.Style.MAIN : Layer.Style.REFERENCE;
  }

  /** Returns an axis' label with its unit. */
  static String title(Axis axis) {
    String unit = Numbers.shown(axis.unit());
    return unit.isEmpty() ? axis.label() : axis.label() + " (" + unit + ")";
  }

  /** Returns the room that labels beside an area need. */
  double besideWidth(Graphics2D g2, double width) {
    double widest = 0;
    for (Layer layer : panel.layers()) {
      if (layer instanceof Layer.Stack stack && !empty) {
        for (Layer.Part part : stack.parts()) {
          widest = Math.max(widest, g2.getFontMetrics(font).stringWidth(part.label()));
        }
      }
    }
    return widest == 0 ? 0 : Math.min(widest + 2 * SWATCH + 10, width * BESIDE_SHARE);
  }

  @Override
  public void draw(
      Graphics2D g2,
      Rectangle2D area,
      Point2D anchor,
      PlotState parentState,
      PlotRenderingInfo info) {
    PlotRenderingInfo filled = info == null ? new PlotRenderingInfo(null) : info;
    AxisSpace space = getFixedRangeAxisSpace();
    double left = area.getX() + space.getLeft();
    double right = area.getMaxX() - space.getRight();
    Head head = new Head(g2, area.getX(), left, right);
    Rectangle2D rest =
        new Rectangle2D.Double(
            area.getX(),
            area.getY() + head.height(),
            area.getWidth(),
            Math.max(0, area.getHeight() - head.height()));
    super.draw(g2, rest, anchor, parentState, filled);
    Rectangle2D data = filled.getDataArea();
    if (data.isEmpty()) {
      return;
    }
    g2.setFont(font);
    if (empty) {
      g2.setPaint(theme.quiet());
      center(g2, "No data", data);
    } else {
      drawLevels(g2, data, head);
      drawNames(g2, data);
      drawBeside(g2, data);
    }
    head.draw(g2, area.getY(), data);
  }

  /** Fills the shaded ranges, behind everything else. */
  @Override
  public void drawBackground(Graphics2D g2, Rectangle2D area) {
    super.drawBackground(g2, area);
    for (Layer layer : panel.layers()) {
      if (layer instanceof Layer.Span span && pixels(span, area) != null) {
        double[] ends = pixels(span, area);
        g2.setPaint(theme.span());
        g2.fill(
            new Rectangle2D.Double(
                ends[0], area.getY(), Math.max(1, ends[1] - ends[0]), area.getHeight()));
      }
    }
  }

  /** Returns the ends of a range that is in sight, cut to the area; null if it is not. */
  private double[] pixels(Layer.Span span, Rectangle2D area) {
    ValueAxis x = getDomainAxis();
    double low = Math.max(span.low(), x.getLowerBound());
    double high = Math.min(span.high(), x.getUpperBound());
    return low <= high ? new double[] {pixel(low, area), pixel(high, area)} : null;
  }

  private double pixel(double x, Rectangle2D area) {
    return getDomainAxis().valueToJava2D(x, area, RectangleEdge.BOTTOM);
  }

  private boolean inSight(double x) {
    return getDomainAxis().getRange().contains(x);
  }

  private void drawLevels(Graphics2D g2, Rectangle2D data, Head head) {
    List<Shape> obstacles = new ArrayList<>(head.flags(data));
    Rectangle2D room =
        new Rectangle2D.Double(
            data.getX(),
            data.getY() - head.stripRows,
            data.getWidth(),
            data.getHeight() + head.stripRows);
    for (LayerRenderer renderer : renderers) {
      obstacles.addAll(renderer.shapes(data, getDomainAxis(), getRangeAxis()));
    }
    for (Layer layer : panel.layers()) {
      if (layer instanceof Layer.At at && inSight(at.x())) {
        double x = pixel(at.x(), data);
        obstacles.add(new Line2D.Double(x, data.getY(), x, data.getMaxY()));
      }
    }
    FontMetrics metrics = g2.getFontMetrics(font);
    for (Layer layer : panel.layers()) {
      if (layer instanceof Layer.Level level && getRangeAxis().getRange().contains(level.y())) {
        double y = getRangeAxis().valueToJava2D(level.y(), data, RectangleEdge.LEFT);
        Shape line = new Line2D.Double(data.getX(), y, data.getMaxX(), y);
        g2.setPaint(theme.reference());
        g2.setStroke(Look.stroke(1.3f, new float[] {1.5f, 3}));
        g2.draw(line);
        obstacles.add(line);
      }
    }
    // Labels after all lines, so that none is struck through.
    for (Layer layer : panel.layers()) {
      if (layer instanceof Layer.Level level
          && !level.label().isEmpty()
          && getRangeAxis().getRange().contains(level.y())) {
        double y = getRangeAxis().valueToJava2D(level.y(), data, RectangleEdge.LEFT);
        Rectangle2D box = freeBox(metrics.stringWidth(level.label()), y, room, obstacles);
        if (harm(box, obstacles) >= LABEL_HIDDEN) {
          continue; // two texts on one another tell less than one; a reading tells it
        }
        g2.setPaint(theme.paper());
        g2.fill(box);
        g2.setPaint(theme.ink());
        g2.drawString(level.label(), (float) box.getX() + 3, (float) box.getMaxY() - 4);
        obstacles.add(box);
      }
    }
  }

  /** Writes the names of points, each on the side where it hides least. */
  private void drawNames(Graphics2D g2, Rectangle2D data) {
    List<Shape> obstacles = new ArrayList<>();
    for (LayerRenderer renderer : renderers) {
      obstacles.addAll(renderer.shapes(data, getDomainAxis(), getRangeAxis()));
    }
    FontMetrics metrics = g2.getFontMetrics(font);
    g2.setPaint(theme.ink());
    for (Layer layer : panel.layers()) {
      if (layer instanceof Layer.Points points && !points.names().isEmpty()) {
        for (int i = 0; i < points.xs().length; i++) {
          double x = pixel(points.xs()[i], data);
          double y = getRangeAxis().valueToJava2D(points.ys()[i], data, RectangleEdge.LEFT);
          String name = points.names().get(i);
          if (!name.isEmpty() && data.intersects(x - 1, y - 1, 2, 2)) {
            Rectangle2D box = besidePoint(x, y, metrics.stringWidth(name), data, obstacles);
            g2.drawString(name, (float) box.getX(), (float) box.getMaxY() - 4);
            obstacles.add(box);
          }
        }
      }
    }
  }

  private static Rectangle2D besidePoint(
      double x, double y, double width, Rectangle2D data, List<Shape> obstacles) {
    double height = ROW - 2;
    double[][] corners = {
      {x + 7, y - height / 2},
      {x - 7 - width, y - height / 2},
      {x - width / 2, y - height - 5},
      {x - width / 2, y + 5}
    };
    Rectangle2D best = null;
    long fewest = Long.MAX_VALUE;
    for (double[] corner : corners) {
      Rectangle2D box = new Rectangle2D.Double(corner[0], corner[1], width, height);
      long hidden =
          obstacles.stream().filter(o -> Curves.meets(o, box)).count()
              + (data.contains(box) ? 0 : 1000);
      if (hidden < fewest) {
        fewest = hidden;
        best = box;
      }
    }
    return best;
  }

  /** Returns the box for a label along a level line that hides least. */
  private static Rectangle2D freeBox(
      double textWidth, double y, Rectangle2D room, List<Shape> obstacles) {
    double width = textWidth + 6;
    double height = ROW - 1;
    Rectangle2D best = null;
    long fewest = Long.MAX_VALUE;
    for (double share : PLACES_ALONG) {
      for (double top : new double[] {y - height - 2, y + 2}) {
        double x = room.getX() + 2 + share * (room.getWidth() - width - 4);
        Rectangle2D box = new Rectangle2D.Double(x, top, width, height);
        boolean inside = top >= room.getY() && top + height <= room.getMaxY();
        long hidden = harm(box, obstacles) + (inside ? 0 : 10 * LABEL_HIDDEN);
        if (hidden < fewest) {
          fewest = hidden;
          best = box;
        }
      }
    }
    return best;
  }

  /** Returns how bad a box is where it is: another label is lost, a line goes on beside it. */
  private static long harm(Rectangle2D box, List<Shape> obstacles) {
    return obstacles.stream()
        .filter(o -> !(o instanceof Ellipse2D mark) || mark.getFrame().intersects(box))
        .filter(o -> Curves.meets(o, box))
        .mapToLong(o -> o instanceof Rectangle2D ? LABEL_HIDDEN : 1)
        .sum();
  }

  /** Writes the name of each part of a stack beside its right end. */
  private void drawBeside(Graphics2D g2, Rectangle2D data) {
    for (Layer layer : panel.layers()) {
      if (layer instanceof Layer.Stack stack) {
        drawBeside(g2, data, stack);
      }
    }
  }

  private void drawBeside(Graphics2D g2, Rectangle2D data, Layer.Stack stack) {
    double[][] tops = LayerRenderer.tops(stack);
    double[] last = new double[tops.length];
    for (int i = 0; i < stack.xs().length; i++) {
      if (inSight(stack.xs()[i]) && Double.isFinite(tops[tops.length - 1][i])) {
        for (int k = 0; k < tops.length; k++) {
          last[k] = tops[k][i];
        }
      }
    }
    int parts = stack.parts().size();
    double[] wanted = new double[parts];
    for (int k = 0; k < parts; k++) {
      // From the top down, as they are read.
      double middle = (last[parts - 1 - k] + last[parts - k]) / 2;
      double y = getRangeAxis().valueToJava2D(middle, data, RectangleEdge.LEFT);
      wanted[k] = Math.max(data.getY(), Math.min(y, data.getMaxY()));
    }
    double[] ys = spread(wanted, ROW, data.getY() + ROW / 2, data.getMaxY() - ROW / 2);
    FontMetrics metrics = g2.getFontMetrics(font);
    double room = besideWidth(g2, Double.MAX_VALUE) - 2 * SWATCH - 10;
    for (int k = 0; k < parts; k++) {
      int part = parts - 1 - k;
      double x = data.getMaxX() + 8;
      g2.setPaint(theme.grid());
      g2.setStroke(Look.stroke(1, null));
      g2.draw(new Line2D.Double(data.getMaxX(), wanted[k], x, ys[k]));
      g2.setPaint(theme.line(part));
      g2.fill(new Rectangle2D.Double(x, ys[k] - SWATCH / 2, SWATCH, SWATCH));
      g2.setPaint(theme.ink());
      String text = shortened(stack.parts().get(part).label(), metrics, room);
      g2.drawString(text, (float) (x + SWATCH + 5), (float) ys[k] + 4);
    }
  }

  /**
   * Moves places apart, in order, as little as the ends allow.
   *
   * @param wanted wanted places, rising
   * @param apart least distance
   * @param first least place
   * @param last greatest place
   */
  static double[] spread(double[] wanted, double apart, double first, double last) {
    double[] places = wanted.clone();
    double least = first;
    for (int k = 0; k < places.length; k++) {
      places[k] = Math.max(places[k], least);
      least = places[k] + apart;
    }
    double most = last;
    for (int k = places.length - 1; k >= 0; k--) {
      places[k] = Math.min(places[k], most);
      most = places[k] - apart;
    }
    return places;
  }

  private static String shortened(String text, FontMetrics metrics, double room) {
    if (metrics.stringWidth(text) <= room) {
      return text;
    }
    int end = text.length();
    while (end > 1 && metrics.stringWidth(text.substring(0, end) + ELLIPSIS) > room) {
      end--;
    }
    return text.substring(0, end).strip() + ELLIPSIS;
  }

  private void center(Graphics2D g2, String text, Rectangle2D data) {
    double width = g2.getFontMetrics(font).stringWidth(text);
    g2.drawString(text, (float) (data.getCenterX() - width / 2), (float) data.getCenterY() + 4);
  }

  /** What stands above the data; measured first, drawn when the data's place is known. */
  private final class Head {
    private final FontMetrics metrics;
    private final double edge;
    private final List<Point2D> keyPlaces = new ArrayList<>();
    private final List<Strip.Label> labels;
    private final double keyRows;
    private final double stripRows;

    Head(Graphics2D g2, double edge, double left, double right) {
      this.edge = edge;
      metrics = g2.getFontMetrics(font);
      double x = edge + g2.getFontMetrics(strong).stringWidth(title(panel.y())) + KEY_GAP + 8;
      double y = 0;
      for (Key key : empty ? List.<Key>of() : keys) {
        double width = KEY_WIDTH + 6 + metrics.stringWidth(key.label());
        if (x + width > right && x > edge) {
          x = edge;
          y += ROW + 1;
        }
        keyPlaces.add(new Point2D.Double(x, y));
        x += width + KEY_GAP;
      }
      keyRows = y + ROW + 1;
      labels = Strip.place(marks(new Rectangle2D.Double(left, 0, right - left, 1)), edge, right);
      stripRows = labels.stream().mapToInt(l -> l.row() + 1).max().orElse(0) * ROW;
    }

    private List<Strip.Mark> marks(Rectangle2D across) {
      List<Strip.Mark> marks = new ArrayList<>();
      for (int i = 0; i < panel.layers().size(); i++) {
        Layer layer = panel.layers().get(i);
        double width = metrics.stringWidth(layer.label());
        if (layer instanceof Layer.At at && inSight(at.x())) {
          double x = pixel(at.x(), across);
          marks.add(new Strip.Mark(i, x, x, width, false));
        } else if (layer instanceof Layer.Span span && pixels(span, across) != null) {
          double[] ends = pixels(span, across);
          marks.add(new Strip.Mark(i, ends[0], ends[1], width, true));
        }
      }
      marks.removeIf(m -> panel.layers().get(m.index()).label().isEmpty() && m.range());
      return marks;
    }

    double height() {
      return keyRows + stripRows + 6;
    }

    void draw(Graphics2D g2, double top, Rectangle2D data) {
      drawStrip(g2, data);
      g2.setPaint(theme.ink());
      g2.setFont(strong);
      g2.drawString(title(panel.y()), (float) edge, (float) top + 12);
      g2.setFont(font);
      for (int i = 0; i < keyPlaces.size(); i++) {
        Point2D at = keyPlaces.get(i);
        drawKey(g2, keys.get(i), at.getX(), top + at.getY() + 8);
      }
    }

    private void drawKey(Graphics2D g2, Key key, double x, double y) {
      if (key.layer() instanceof Layer.Band) {
        g2.setPaint(theme.band());
        g2.fill(new Rectangle2D.Double(x, y - 5, KEY_WIDTH, 10));
      } else if (key.layer() instanceof Layer.Points points) {
        Shape mark = LayerRenderer.mark(points.mark(), x + KEY_WIDTH / 2, y);
        LayerRenderer.drawMark(g2, points.mark(), mark, key.look().color(), theme.paper());
      } else {
        g2.setPaint(key.look().color());
        g2.setStroke(key.look().stroke());
        g2.draw(new Line2D.Double(x, y, x + KEY_WIDTH, y));
      }
      g2.setPaint(theme.ink());
      g2.drawString(key.label(), (float) (x + KEY_WIDTH + 6), (float) y + 4);
    }

    /** Returns what the labels of marks take of the room above the data. */
    List<Shape> flags(Rectangle2D data) {
      List<Shape> taken = new ArrayList<>();
      for (Strip.Label label : labels) {
        double base = data.getY() - label.row() * ROW;
        double low = Math.min(label.textX(), label.mark().low());
        double high = Math.max(label.textEnd(), label.mark().high());
        if (label.mark().width() > 0) {
          taken.add(new Rectangle2D.Double(low, base - ROW, high - low, ROW));
          taken.add(new Line2D.Double(label.mark().low(), base, label.mark().low(), data.getY()));
        }
      }
      return taken;
    }

    private void drawStrip(Graphics2D g2, Rectangle2D data) {
      for (Strip.Label label : labels) {
        if (label.mark().range()) {
          double top = data.getY() - (label.row() + 1) * ROW + ROW - 1;
          Strip.Mark mark = label.mark();
          g2.setPaint(theme.span());
          g2.fill(
              new Rectangle2D.Double(
                  mark.low(), top, Math.max(1, mark.high() - mark.low()), data.getY() - top));
          g2.setPaint(theme.lines().get(0));
          g2.setStroke(Look.stroke(1.4f, null));
          g2.draw(new Line2D.Double(mark.low(), top, mark.high(), top));
        }
      }
      for (Strip.Label label : labels) {
        Layer layer = panel.layers().get(label.mark().index());
        double base = data.getY() - label.row() * ROW;
        if (layer instanceof Layer.At at) {
          Look look = Look.of(at.style(), 0, theme);
          g2.setPaint(look.color());
          g2.setStroke(at.style() == Layer.Style.MAIN ? new BasicStroke(1.6f) : look.stroke());
          double x = label.mark().low();
          double end = layer.label().isEmpty() ? data.getY() : base - ROW + 3;
          g2.draw(new Line2D.Double(x, data.getMaxY(), x, end));
        }
      }
      for (Strip.Label label : labels) {
        double base = data.getY() - label.row() * ROW;
        Layer layer = panel.layers().get(label.mark().index());
        // In the colour of its line, which tells flags apart that stand close.
        g2.setPaint(
            layer instanceof Layer.At at ? Look.of(at.style(), 0, theme).color() : theme.ink());
        g2.drawString(layer.label(), (float) label.textX(), (float) base - 4);
      }
    }
  }
}
