package siltwright.workbench.parts;

import java.awt.BasicStroke;
import java.awt.Color;
import java.awt.Component;
import java.awt.Graphics;
import java.awt.Graphics2D;
import java.awt.RenderingHints;
import java.awt.geom.Ellipse2D;
import java.awt.geom.Line2D;
import java.awt.geom.Path2D;
import javax.swing.Icon;
import javax.swing.UIManager;
import siltwright.analysis.Finding.Severity;

/**
 * How much a finding matters, by shape as well as by colour: a ring for a note, a triangle for a
 * caution, a filled square on its corner for a warning.
 */
public final class SeverityIcon implements Icon {
  private static final int SIZE = 16;

  private final Severity severity;

  /** Makes an icon; null gives an empty one of the same size. */
  public SeverityIcon(Severity severity) {
    this.severity = severity;
  }

  @Override
  public int getIconWidth() {
    return SIZE;
  }

  @Override
  public int getIconHeight() {
    return SIZE;
  }

  @Override
  public void paintIcon(Component c, Graphics g, int x, int y) {
    if (severity == null) {
      return;
    }
    Graphics2D g2 = (Graphics2D) g.create();
    g2.setRenderingHint(RenderingHints.KEY_ANTIALIASING, RenderingHints.VALUE_ANTIALIAS_ON);
    g2.setRenderingHint(RenderingHints.KEY_STROKE_CONTROL, RenderingHints.VALUE_STROKE_PURE);
    g2.translate(x, y);
    // On a selection the sign has the colour of the text: it is told by its shape.
    boolean selected = !ThemeColors.isDark() && Color.WHITE.equals(c.getForeground());
    Color color = selected ? Color.WHITE : color(severity);
    g2.setColor(color);
    g2.setStroke(new BasicStroke(1.6f, BasicStroke.CAP_ROUND, BasicStroke.JOIN_ROUND));
    switch (severity) {
      case NOTE -> {
        g2.draw(new Ellipse2D.Double(2.5, 2.5, 11, 11));
        g2.draw(new Line2D.Double(8, 7.5, 8, 11));
        g2.fill(new Ellipse2D.Double(7.1, 4.4, 1.8, 1.8));
      }
      case CAUTION -> {
        Path2D triangle = new Path2D.Double();
        triangle.moveTo(8, 2);
        triangle.lineTo(14.5, 13.5);
        triangle.lineTo(1.5, 13.5);
        triangle.closePath();
        g2.draw(triangle);
        g2.draw(new Line2D.Double(8, 6.5, 8, 9.6));
        g2.fill(new Ellipse2D.Double(7.1, 11, 1.8, 1.8));
      }
      case WARNING -> {
        Path2D diamond = new Path2D.Double();
        diamond.moveTo(8, 0.8);
        diamond.lineTo(15.2, 8);
        diamond.lineTo(8, 15.2);
        diamond.lineTo(0.8, 8);
        diamond.closePath();
        g2.fill(diamond);
        boolean bright = ThemeColors.isDark() || selected;
        g2.setColor(bright ? Color.BLACK : Color.WHITE);
        g2.draw(new Line2D.Double(8, 4.4, 8, 8.6));
        g2.fill(new Ellipse2D.Double(7, 10.4, 2, 2));
      }
    }
    g2.dispose();
  }

  private static Color color(Severity severity) {
    return UIManager.getColor(
        switch (severity) {
          case NOTE -> ThemeColors.NOTE;
          case CAUTION -> ThemeColors.CAUTION;
          case WARNING -> ThemeColors.WARNING;
        });
  }
}
