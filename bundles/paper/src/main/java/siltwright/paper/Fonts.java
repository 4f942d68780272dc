package siltwright.paper;

import java.awt.Font;
import java.awt.FontFormatException;
import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;

/**
 * The font of every sheet, carried along so that a sheet looks the same wherever it is made: DejaVu
 * Sans Condensed 2.37, free to embed (licence beside it).
 */
public final class Fonts {
  /** Its name in style sheets. */
  public static final String FAMILY = "Sheet";

  /** Its own name, which fonts for drawings have. */
  static final String DRAWN = "DejaVu Sans Condensed";

  private static final String REGULAR = "DejaVuSansCondensed.ttf";
  private static final String BOLD = "DejaVuSansCondensed-Bold.ttf";

  private Fonts() {}

  /** Opens the font file. */
  static InputStream open(boolean bold) {
    return Fonts.class.getResourceAsStream(bold ? BOLD : REGULAR);
  }

  /** Returns the font for drawings, of size 1. */
  public static Font drawing(boolean bold) {
    try (InputStream in = open(bold)) {
      return Font.createFont(Font.TRUETYPE_FONT, in).deriveFont(bold ? Font.BOLD : Font.PLAIN);
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    } catch (FontFormatException e) {
      throw new IllegalStateException("the font of the bundle is broken", e);
    }
  }
}
