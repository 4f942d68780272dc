package siltwright.charts.screen;

import java.awt.BasicStroke;
import java.awt.Font;
import java.awt.FontMetrics;
import java.awt.Graphics2D;
import java.awt.geom.Ellipse2D;
import java.awt.geom.Line2D;
import java.awt.geom.Rectangle2D;
import java.awt.geom.RoundRectangle2D;
import javax.swing.UIManager;
import siltwright.charts.ChartTheme;

/** Paints what lies upon the paper of a figure: the handle, and what is read. */
final class FigureMarks {
  private final FigurePanel panel;

  FigureMarks(FigurePanel panel) {
    this.panel = panel;
  }

  /** Paints the handle that stands at an x. */
  void paintHandle(Graphics2D g2, double handle, ChartTheme colours) {
    double x = panel.xPixel(handle);
    for (int i = 0; i < panel.panels(); i++) {
      Rectangle2D a = panel.area(i);
      if (x >= a.getX() && x <= a.getMaxX()) {
        g2.setColor(colours.ink());
        g2.setStroke(new BasicStroke(2));
        g2.draw(new Line2D.Double(x, a.getY(), x, a.getMaxY()));
        g2.fill(
            new RoundRectangle2D.Double(
                x - FigurePanel.GRIP, a.getMaxY() - 18, 2 * FigurePanel.GRIP, 18, 5, 5));
        g2.setColor(colours.paper());
        g2.setStroke(new BasicStroke(1));
        g2.draw(new Line2D.Double(x - 1.5, a.getMaxY() - 14, x - 1.5, a.getMaxY() - 4));
        g2.draw(new Line2D.Double(x + 1.5, a.getMaxY() - 14, x + 1.5, a.getMaxY() - 4));
      }
    }
  }

  /** Paints a reading: a line, its dots, and a box with its values. */
  void paintReading(Graphics2D g2, Reading r, ChartTheme colours) {
    Font font = panel.getFont() == null ? UIManager.getFont("Label.font") : panel.getFont();
    Font bold = font.deriveFont(Font.BOLD);
    FontMetrics metrics = g2.getFontMetrics(font);
    double x = panel.xPixel(r.x());
    g2.setColor(colours.quiet());
    g2.setStroke(new BasicStroke(1));
    for (int i = 0; i < panel.panels(); i++) {
      Rectangle2D a = panel.area(i);
      if (x >= a.getX() && x <= a.getMaxX()) {
        g2.drawLine((int) x, (int) a.getY(), (int) x, (int) a.getMaxY());
      }
    }
    int width = g2.getFontMetrics(bold).stringWidth(r.heading());
    int values = 0;
    int labels = 0;
    for (Reading.Line line : r.lines()) {
      labels = Math.max(labels, metrics.stringWidth(line.label()));
      values = Math.max(values, metrics.stringWidth(line.text()));
      dot(g2, line, x, colours);
    }
    width = Math.max(width, labels + 12 + values);
    int row = metrics.getHeight();
    int w = width + 16;
    int h = row * (r.lines().size() + 1) + 12;
    int left = (int) (x + 14 + w < panel.getWidth() ? x + 14 : Math.max(4, x - 14 - w));
    int top = (int) Math.max(4, Math.min(panel.getHeight() - h - 4.0, panel.area(0).getY() + 6));
    g2.setColor(colours.paper());
    g2.fillRoundRect(left, top, w, h, 8, 8);
    g2.setColor(colours.quiet());
    g2.drawRoundRect(left, top, w, h, 8, 8);
    g2.setColor(colours.ink());
    g2.setFont(bold);
    g2.drawString(r.heading(), left + 8, top + 6 + metrics.getAscent());
    g2.setFont(font);
    int at = top + 6 + row + metrics.getAscent();
    for (Reading.Line line : r.lines()) {
      g2.setColor(colours.quiet());
      g2.drawString(line.label(), left + 8, at);
      g2.setColor(colours.ink());
      g2.drawString(line.text(), left + w - 8 - metrics.stringWidth(line.text()), at);
      at += row;
    }
  }

  private void dot(Graphics2D g2, Reading.Line line, double x, ChartTheme colours) {
    if (line.panel() < panel.panels() && Double.isFinite(line.y())) {
      Rectangle2D a = panel.area(line.panel());
      double y = panel.yPixel(line.panel(), line.y());
      if (a.contains(x, y)) {
        g2.setColor(colours.paper());
        g2.fill(new Ellipse2D.Double(x - 4.5, y - 4.5, 9, 9));
        g2.setColor(colours.ink());
        g2.fill(new Ellipse2D.Double(x - 3, y - 3, 6, 6));
      }
    }
  }
}
