package siltwright.paper.training;

import java.awt.BasicStroke;
import java.awt.Color;
import java.awt.Font;
import java.awt.Graphics2D;
import java.awt.geom.Path2D;
import java.awt.geom.Rectangle2D;
import java.util.ArrayList;
import java.util.List;
import siltwright.paper.Fonts;

/** Draws text that keeps its width, lines, boxes and arrows on a slide. */
final class Brush {
  static final Color INK = new Color(0x1d2530);
  static final Color QUIET = new Color(0x56606d);
  static final Color OIL = new Color(0xe4ebf2);
  static final Color DIRT = new Color(0x9c4a10);
  static final Color CLEAN = new Color(0x1b4f8f);

  private static final Font PLAIN = Fonts.drawing(false);
  private static final Font BOLD = Fonts.drawing(true);
  private static final double LEADING = 1.25;
  private static final double HEAD = 2.6;

  private final Graphics2D g2;

  Brush(Graphics2D g2) {
    this.g2 = g2;
  }

  /**
   * Draws a text, broken into lines that fit; words too long for a line are cut where it ends.
   *
   * @param x left end
   * @param y base line of the first line
   * @param width widest line
   * @param size size of the letters
   * @return base line of the line after it
   */
  double text(
      String text, double x, double y, double width, double size, boolean bold, Color color) {
    g2.setFont((bold ? BOLD : PLAIN).deriveFont((float) size));
    g2.setPaint(color);
    double at = y;
    for (String line : lines(text, width)) {
      g2.drawString(line, (float) x, (float) at);
      at += LEADING * size;
    }
    return at;
  }

  /** Draws one line that ends at x. */
  void right(String text, double x, double y, double size, Color color) {
    g2.setFont(PLAIN.deriveFont((float) size));
    g2.setPaint(color);
    g2.drawString(text, (float) (x - width(text)), (float) y);
  }

  private List<String> lines(String text, double width) {
    List<String> lines = new ArrayList<>();
    StringBuilder line = new StringBuilder();
    for (String word : text.split(" ")) {
      String rest = word;
      if (!line.isEmpty() && width(line + " " + rest) > width) {
        lines.add(line.toString());
        line.setLength(0);
      }
      while (line.isEmpty() && width(rest) > width && rest.length() > 1) {
        int fits = rest.length() - 1;
        while (fits > 1 && width(rest.substring(0, fits)) > width) {
          fits--;
        }
        lines.add(rest.substring(0, fits));
        rest = rest.substring(fits);
      }
      line.append(line.isEmpty() ? "" : " ").append(rest);
    }
    lines.add(line.toString());
    return lines;
  }

  private int width(String text) {
    return g2.getFontMetrics().stringWidth(text);
  }

  /** Draws a line through points, x and y in turn. */
  void line(double stroke, Color color, double... points) {
    g2.setStroke(new BasicStroke((float) stroke, BasicStroke.CAP_BUTT, BasicStroke.JOIN_ROUND));
    g2.setPaint(color);
    g2.draw(path(points));
  }

  /** Draws a line through points that ends in a head. */
  void arrow(double stroke, Color color, double... points) {
    int n = points.length;
    double dx = points[n - 2] - points[n - 4];
    double dy = points[n - 1] - points[n - 3];
    double length = Math.hypot(dx, dy);
    double head = HEAD * Math.max(stroke, 3);
    double[] shaft = points.clone();
    shaft[n - 2] -= dx / length * head * 0.9;
    shaft[n - 1] -= dy / length * head * 0.9;
    line(stroke, color, shaft);
    double tipX = points[n - 2];
    double tipY = points[n - 1];
    double backX = tipX - dx / length * head;
    double backY = tipY - dy / length * head;
    double sideX = -dy / length * head * 0.5;
    double sideY = dx / length * head * 0.5;
    Path2D tip = path(tipX, tipY, backX + sideX, backY + sideY, backX - sideX, backY - sideY);
    tip.closePath();
    g2.fill(tip);
  }

  /** Draws a triangle that points up to a place, as in a pump's symbol (ISO 1219-1). */
  void triangle(Color color, double x, double y, double size) {
    Path2D shape = path(x, y, x + size / 2, y + size * 0.85, x - size / 2, y + size * 0.85);
    shape.closePath();
    g2.setPaint(color);
    g2.fill(shape);
  }

  void fill(Color color, double x, double y, double width, double height) {
    g2.setPaint(color);
    g2.fill(new Rectangle2D.Double(x, y, width, height));
  }

  void frame(double stroke, double x, double y, double width, double height) {
    g2.setStroke(new BasicStroke((float) stroke));
    g2.setPaint(INK);
    g2.draw(new Rectangle2D.Double(x, y, width, height));
  }

  private static Path2D path(double... points) {
    Path2D path = new Path2D.Double();
    path.moveTo(points[0], points[1]);
    for (int i = 2; i < points.length; i += 2) {
      path.lineTo(points[i], points[i + 1]);
    }
    return path;
  }
}
