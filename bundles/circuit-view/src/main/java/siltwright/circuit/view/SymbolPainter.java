package siltwright.circuit.view;

import java.awt.BasicStroke;
import java.awt.Color;
import java.awt.Font;
import java.awt.Graphics2D;
import java.awt.Shape;
import java.awt.geom.AffineTransform;
import java.awt.geom.Area;
import java.awt.geom.Ellipse2D;
import java.awt.geom.Line2D;
import java.awt.geom.Path2D;
import java.awt.geom.Rectangle2D;
import java.awt.geom.RoundRectangle2D;
import siltwright.charts.ChartTheme;
import siltwright.circuit.view.Plan.Place;

/**
 * Draws the parts of a circuit with the symbols of ISO 1219-1, from memory of the standard:
 * proportions are the project's own.
 */
final class SymbolPainter {
  static final BasicStroke THIN = new BasicStroke(1.5f);
  private static final BasicStroke DASHED =
      new BasicStroke(
          1.5f, BasicStroke.CAP_BUTT, BasicStroke.JOIN_MITER, 10, new float[] {4, 3}, 0);

  /** Dash and dot: what is built into one housing. */
  static final BasicStroke CHAIN =
      new BasicStroke(
          1.2f, BasicStroke.CAP_BUTT, BasicStroke.JOIN_MITER, 10, new float[] {9, 3, 2, 3}, 0);

  private final Graphics2D g;
  private final ChartTheme theme;
  private final Readings readings;

  SymbolPainter(Graphics2D g, ChartTheme theme, Readings readings) {
    this.g = g;
    this.theme = theme;
    this.readings = readings;
  }

  void paint(Place place) {
    Box b = place.box();
    g.setStroke(THIN);
    switch (place.symbol()) {
      case TANK -> outline(new Rectangle2D.Double(b.x(), b.y(), b.w(), b.h()));
      case PRESSURISED_TANK ->
          outline(new RoundRectangle2D.Double(b.x(), b.y(), b.w(), b.h(), 56, 56));
      case BREATHER -> breather(b);
      case DRIVE -> drive(b);
      case PUMP, OFFLINE_PUMP -> pump(b);
      case PRESSURE_FILTER, OFFLINE_FILTER -> filter(b, true);
      case RETURN_FILTER -> {
        filter(b, false);
        load(b);
      }
      case BYPASS -> bypass(b);
      case INDICATOR -> indicator(b);
      case VALVE -> valve(b, false);
      case LONE_VALVE -> valve(b, true);
      case CYLINDER -> cylinder(b);
      case MOTOR -> motor(b);
      case CONSUMER -> body(new Rectangle2D.Double(b.x() + 8, b.y(), b.w() - 16, b.h()));
      case INGRESS -> ingress(b);
      default -> throw new IllegalStateException("" + place.symbol());
    }
  }

  private void body(Shape shape) {
    g.setPaint(theme.paper());
    g.fill(shape);
    outline(shape);
  }

  private void outline(Shape shape) {
    g.setPaint(theme.ink());
    g.draw(shape);
  }

  private void line(double x1, double y1, double x2, double y2) {
    g.draw(new Line2D.Double(x1, y1, x2, y2));
  }

  private static Shape triangle(double x, double y, double half, double angle) {
    Path2D p = new Path2D.Double();
    p.moveTo(0, -half);
    p.lineTo(half * 0.9, half * 0.7);
    p.lineTo(-half * 0.9, half * 0.7);
    p.closePath();
    AffineTransform at = AffineTransform.getTranslateInstance(x, y);
    at.rotate(angle);
    return at.createTransformedShape(p);
  }

  private void pump(Box b) {
    body(new Ellipse2D.Double(b.x(), b.y(), b.w(), b.h()));
    double half = b.w() / 6;
    g.fill(triangle(b.centreX(), b.y() + half + 1, half, 0));
  }

  private void drive(Box b) {
    body(new Rectangle2D.Double(b.x(), b.y(), b.w(), b.h()));
    g.setFont(new Font(Font.SANS_SERIF, Font.PLAIN, 16));
    g.drawString("M", (float) (b.centreX() - 6.7), (float) (b.centreY() + 6));
    // the shaft: a double line to the pump beside it
    line(b.right(), b.centreY() - 2.5, b.right() + 17, b.centreY() - 2.5);
    line(b.right(), b.centreY() + 2.5, b.right() + 17, b.centreY() + 2.5);
  }

  private void motor(Box b) {
    double r = b.h() / 2;
    double x = b.centreX();
    body(new Ellipse2D.Double(x - r, b.y(), b.h(), b.h()));
    g.fill(triangle(x - r + 9, b.centreY(), 8, Math.PI / 2));
    g.fill(triangle(x + r - 9, b.centreY(), 8, -Math.PI / 2));
  }

  private void cylinder(Box b) {
    double top = b.centreY() - 14;
    double left = b.x() + 6;
    body(new Rectangle2D.Double(left, top, 78, 28));
    double piston = left + 34;
    g.draw(new Rectangle2D.Double(piston, top, 7, 28));
    Shape rod = new Rectangle2D.Double(piston + 7, b.centreY() - 3.5, b.right() - piston - 9, 7);
    g.setPaint(theme.paper());
    g.fill(rod);
    g.setPaint(theme.ink());
    g.draw(rod);
  }

  private void valve(Box b, boolean plugged) {
    double side = b.h();
    double left = b.centreX() - 1.5 * side;
    body(new Rectangle2D.Double(left, b.y(), 3 * side, side));
    line(left + side, b.y(), left + side, b.bottom());
    line(left + 2 * side, b.y(), left + 2 * side, b.bottom());
    // one way: P to A, B to T
    arrow(left + 8, b.bottom(), left + 8, b.y());
    arrow(left + side - 8, b.y(), left + side - 8, b.bottom());
    // the other way, crossed
    double right = left + 2 * side;
    arrow(right + 8, b.bottom(), right + side - 8, b.y());
    arrow(right + side - 8, b.bottom(), right + 8, b.y());
    // at rest: closed
    double middle = b.centreX();
    for (double x : new double[] {middle - 10, middle + 10}) {
      line(x, b.y(), x, b.y() + 7);
      line(x - 4, b.y() + 7, x + 4, b.y() + 7);
      line(x, b.bottom(), x, b.bottom() - 7);
      line(x - 4, b.bottom() - 7, x + 4, b.bottom() - 7);
      if (plugged) {
        line(x, b.y(), x, b.y() - 8);
        line(x - 4, b.y() - 12, x + 4, b.y() - 4);
        line(x - 4, b.y() - 4, x + 4, b.y() - 12);
      }
    }
    spring(b.x(), left, b.centreY());
    spring(left + 3 * side, b.right(), b.centreY());
  }

  /** A zigzag from left to right. */
  private void spring(double x1, double x2, double y) {
    Path2D p = new Path2D.Double();
    p.moveTo(x1, y);
    int turns = 4;
    for (int i = 1; i <= turns; i++) {
      p.lineTo(x1 + (x2 - x1) * (i - 0.5) / turns, y + (i % 2 == 0 ? 5 : -5));
    }
    p.lineTo(x2, y);
    g.draw(p);
  }

  private void arrow(double x1, double y1, double x2, double y2) {
    line(x1, y1, x2, y2);
    double angle = Math.atan2(x2 - x1, y1 - y2);
    double d = Math.hypot(x2 - x1, y2 - y1);
    g.fill(triangle(x2 - (x2 - x1) / d * 4, y2 - (y2 - y1) / d * 4, 4, angle));
  }

  private static Shape diamond(Box b) {
    Path2D p = new Path2D.Double();
    p.moveTo(b.centreX(), b.y());
    p.lineTo(b.right(), b.centreY());
    p.lineTo(b.centreX(), b.bottom());
    p.lineTo(b.x(), b.centreY());
    p.closePath();
    return p;
  }

  /** The broken line, the medium, stands across the flow. */
  private void filter(Box b, boolean levelFlow) {
    body(diamond(b));
    g.setStroke(DASHED);
    if (levelFlow) {
      line(b.centreX(), b.y(), b.centreX(), b.bottom());
    } else {
      line(b.x(), b.centreY(), b.right(), b.centreY());
    }
    g.setStroke(THIN);
  }

  /** How full the element is, as a share of the upper half of its symbol, from the medium up. */
  private void load(Box b) {
    double share = Math.max(0, Math.min(1, readings.load()));
    double high = b.h() / 2 * share;
    g.setPaint(readings.load() > 1 ? theme.limit() : theme.reference());
    Area full = new Area(diamond(b));
    full.intersect(new Area(new Rectangle2D.Double(b.x(), b.centreY() - high, b.w(), high)));
    g.fill(full);
    outline(diamond(b));
    g.setStroke(DASHED);
    line(b.x(), b.centreY(), b.right(), b.centreY());
    g.setStroke(THIN);
  }

  /** A spring-loaded check valve that opens downward. */
  private void bypass(Box b) {
    boolean open = readings.bypassShare() > 0;
    g.setPaint(theme.paper());
    g.fill(new Rectangle2D.Double(b.x(), b.y() + 1, b.w(), b.h() - 2));
    g.setPaint(open ? theme.limit() : theme.ink());
    double x = b.centreX();
    double seat = b.y() + 14;
    line(x, b.y(), x, seat - 6);
    line(x, seat - 6, x - 9, seat + 6);
    line(x, seat - 6, x + 9, seat + 6);
    double ball = open ? seat + 8 : seat + 3.4;
    Shape circle = new Ellipse2D.Double(x - 5, ball - 5, 10, 10);
    g.draw(circle);
    if (open) {
      g.fill(circle);
    }
    Path2D spring = new Path2D.Double();
    spring.moveTo(x, ball + 5);
    double from = ball + 5;
    double length = b.bottom() - from;
    for (int i = 1; i <= 4; i++) {
      spring.lineTo(x + (i % 2 == 0 ? 5 : -5), from + length * (i - 0.5) / 4);
    }
    spring.lineTo(x, b.bottom());
    g.draw(spring);
  }

  private void indicator(Box b) {
    boolean tripped = readings.tripped();
    Shape circle = new Ellipse2D.Double(b.x(), b.y(), b.w(), b.h());
    body(circle);
    if (tripped) {
      g.setPaint(theme.limit());
      g.fill(circle);
      g.setPaint(theme.paper());
    }
    arrow(b.x() + 5, b.bottom() - 5, b.right() - 4, b.y() + 4);
  }

  private void breather(Box b) {
    Box d = new Box(b.x() + 2, b.bottom() - 36, 36, 36);
    body(diamond(d));
    g.setStroke(DASHED);
    line(d.x(), d.centreY(), d.right(), d.centreY());
    g.setStroke(THIN);
    // open to the air
    line(d.centreX(), d.y(), d.centreX(), d.y() - 8);
    g.draw(triangle(d.centreX(), d.y() - 12, 6, Math.PI));
  }

  private void ingress(Box b) {
    g.setPaint(theme.ink());
    g.fill(triangle(b.centreX(), b.centreY(), 5, Math.PI));
  }

  /** The dot where lines join; lines that only cross have none. */
  static Shape joint(Spot at) {
    return new Ellipse2D.Double(at.x() - 2.6, at.y() - 2.6, 5.2, 5.2);
  }

  static Color faded(Color c, int alpha) {
    return new Color(c.getRed(), c.getGreen(), c.getBlue(), alpha);
  }
}
