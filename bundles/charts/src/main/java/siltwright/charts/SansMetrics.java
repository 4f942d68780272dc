package siltwright.charts;

import java.awt.Font;
import java.awt.FontMetrics;

/**
 * Widths of a common sans serif, so that a text in SVG stands where it was meant to whatever fonts
 * the machine has that made it: the reader's machine has others anyway, most of them with nearly
 * these widths.
 *
 * <p>Source: advance widths measured in Liberation Sans 2 (metric-compatible with its like), in
 * thousandths of the font size; a little is added for fonts that run wider.
 */
final class SansMetrics extends FontMetrics {
  private static final long serialVersionUID = 1;
  private static final double SPARE = 1.04;
  private static final int ASCENT = 905;
  private static final int DESCENT = 212;
  private static final int OTHER = 570;
  private static final int SMALL = 365;
  private static final char FIRST = ' ';

  /** From the space to the tilde. */
  private static final short[] PLAIN = {
    278, 278, 355, 556, 556, 889, 667, 191, 333, 333, 389, 584, 278, 333, 278, 278, 556, 556, 556,
    556, 556, 556, 556, 556, 556, 556, 278, 278, 584, 584, 584, 556, 1015, 667, 667, 722, 722, 667,
    611, 778, 722, 278, 500, 667, 556, 833, 722, 778, 667, 778, 722, 667, 611, 722, 667, 944, 667,
    667, 611, 278, 278, 278, 469, 556, 333, 556, 556, 500, 556, 556, 278, 556, 556, 222, 222, 500,
    222, 833, 556, 556, 556, 556, 333, 500, 278, 556, 500, 722, 500, 500, 500, 334, 260, 334, 584
  };

  private static final short[] BOLD = {
    278, 333, 474, 556, 556, 889, 722, 238, 333, 333, 389, 584, 278, 333, 278, 278, 556, 556, 556,
    556, 556, 556, 556, 556, 556, 556, 333, 333, 584, 584, 584, 611, 975, 722, 722, 722, 722, 667,
    611, 778, 722, 278, 556, 722, 611, 833, 722, 778, 667, 778, 722, 667, 611, 722, 667, 944, 667,
    667, 611, 333, 278, 333, 584, 556, 333, 556, 611, 556, 611, 556, 333, 611, 611, 278, 278, 556,
    278, 889, 611, 611, 611, 611, 389, 556, 333, 611, 556, 778, 556, 556, 500, 389, 280, 389, 584
  };

  private final short[] widths;

  SansMetrics(Font font) {
    super(font);
    widths = font.isBold() ? BOLD : PLAIN;
  }

  /** Returns the width of a text in pixels. */
  double width(String text) {
    int sum = 0;
    for (char c : text.toCharArray()) {
      if (c >= FIRST && c < FIRST + widths.length) {
        sum += widths[c - FIRST];
      } else {
        sum += "²³⁰¹⁴⁵⁶⁷⁸⁹⁻°·\u202f\u2009".indexOf(c) >= 0 ? SMALL : OTHER;
      }
    }
    return SPARE * sum * font.getSize2D() / 1000;
  }

  @Override
  public int stringWidth(String text) {
    return (int) Math.ceil(width(text));
  }

  @Override
  public int charsWidth(char[] data, int off, int len) {
    return stringWidth(new String(data, off, len));
  }

  @Override
  public int charWidth(char ch) {
    return stringWidth(String.valueOf(ch));
  }

  @Override
  public int getAscent() {
    return Math.round(ASCENT * font.getSize2D() / 1000);
  }

  @Override
  public int getDescent() {
    return Math.round(DESCENT * font.getSize2D() / 1000);
  }
}
