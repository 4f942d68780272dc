package siltwright.workbench.internal;

import java.awt.BasicStroke;
import java.awt.Color;
import java.awt.Graphics2D;
import java.awt.Image;
import java.awt.RenderingHints;
import java.awt.geom.Line2D;
import java.awt.geom.Path2D;
import java.awt.geom.RoundRectangle2D;
import java.awt.image.BufferedImage;
import java.util.List;
import java.util.stream.Stream;

/**
 * The program's sign: the filter symbol of ISO 1219-1, a square on its corner with a dashed line.
 */
final class BenchIcon {
  private BenchIcon() {}

  static List<Image> images() {
    return Stream.of(16, 24, 32, 48, 64, 128).map(BenchIcon::image).toList();
  }

  static Image image(int size) {
    BufferedImage image = new BufferedImage(size, size, BufferedImage.TYPE_INT_ARGB);
    Graphics2D g2 = image.createGraphics();
    g2.setRenderingHint(RenderingHints.KEY_ANTIALIASING, RenderingHints.VALUE_ANTIALIAS_ON);
    g2.setRenderingHint(RenderingHints.KEY_STROKE_CONTROL, RenderingHints.VALUE_STROKE_PURE);
    g2.scale(size / 32.0, size / 32.0);
    g2.setColor(new Color(0x1b4f8f));
    g2.fill(new RoundRectangle2D.Double(1, 1, 30, 30, 8, 8));
    g2.setColor(Color.WHITE);
    g2.setStroke(new BasicStroke(2.2f, BasicStroke.CAP_BUTT, BasicStroke.JOIN_MITER));
    Path2D diamond = new Path2D.Double();
    diamond.moveTo(16, 6);
    diamond.lineTo(26, 16);
    diamond.lineTo(16, 26);
    diamond.lineTo(6, 16);
    diamond.closePath();
    g2.draw(diamond);
    g2.setStroke(
        new BasicStroke(
            2, BasicStroke.CAP_BUTT, BasicStroke.JOIN_MITER, 10, new float[] {3.4f, 2.4f}, 0));
    g2.draw(new Line2D.Double(16, 6, 16, 26));
    g2.dispose();
    return image;
  }
}
