package siltwright.paper;

import java.awt.Color;
import java.awt.Graphics2D;
import java.nio.charset.StandardCharsets;
import java.util.function.Consumer;
import siltwright.charts.Charts;

/**
 * A picture that is drawn, not photographed, so that it is sharp at any size.
 *
 * @param name name, which makes the ids in its SVG
 * @param title what it shows
 * @param caption how to read it, for those who listen, too
 * @param widthPx width of its canvas, px
 * @param heightPx height of its canvas, px
 * @param painter draws it
 */
public record Drawing(
    String name,
    String title,
    String caption,
    int widthPx,
    int heightPx,
    Consumer<Graphics2D> painter) {

  /** Returns it as an SVG element for a page. */
  public String svg() {
    return Charts.svg(name, title, caption, painter, widthPx, heightPx);
  }

  /** Returns it as an SVG file. */
  public byte[] svgFile() {
    return ("<?xml version=\"1.0\" encoding=\"UTF-8\"?>\n" + svg() + "\n")
        .getBytes(StandardCharsets.UTF_8);
  }

  /**
   * Returns it as a PNG file on white paper.
   *
   * @param scale pixels of the file per px
   */
  public byte[] png(double scale) {
    return Charts.png(painter, Color.WHITE, widthPx, heightPx, scale);
  }
}
