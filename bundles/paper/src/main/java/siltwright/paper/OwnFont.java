package siltwright.paper;

import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import org.apache.fontbox.FontBoxFont;
import org.apache.fontbox.ttf.TTFParser;
import org.apache.fontbox.ttf.TrueTypeFont;
import org.apache.pdfbox.io.RandomAccessReadBuffer;
import org.apache.pdfbox.pdmodel.font.CIDFontMapping;
import org.apache.pdfbox.pdmodel.font.FontMapper;
import org.apache.pdfbox.pdmodel.font.FontMapping;
import org.apache.pdfbox.pdmodel.font.PDCIDSystemInfo;
import org.apache.pdfbox.pdmodel.font.PDFontDescriptor;

/** Gives the bundle's own font for any that is not in the file, whatever the system has. */
final class OwnFont implements FontMapper {
  private TrueTypeFont font;

  private synchronized TrueTypeFont font() {
    if (font == null) {
      try (InputStream in = Fonts.open(false)) {
        font = new TTFParser().parse(new RandomAccessReadBuffer(in));
      } catch (IOException e) {
        throw new UncheckedIOException(e);
      }
    }
    return font;
  }

  @Override
  public FontMapping<TrueTypeFont> getTrueTypeFont(String name, PDFontDescriptor descriptor) {
    return new FontMapping<>(font(), false);
  }

  @Override
  public FontMapping<FontBoxFont> getFontBoxFont(String name, PDFontDescriptor descriptor) {
    return new FontMapping<>(font(), false);
  }

  @Override
  public CIDFontMapping getCIDFont(
      String name, PDFontDescriptor descriptor, PDCIDSystemInfo system) {
    return new CIDFontMapping(null, font(), false);
  }
}
