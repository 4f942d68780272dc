package siltwright.paper;

import com.google.zxing.BarcodeFormat;
import com.google.zxing.EncodeHintType;
import com.google.zxing.WriterException;
import com.google.zxing.common.BitMatrix;
import com.google.zxing.qrcode.QRCodeWriter;
import com.google.zxing.qrcode.decoder.ErrorCorrectionLevel;
import java.awt.Color;
import java.awt.geom.Rectangle2D;
import java.util.Map;

/**
 * A text as a QR code (ISO/IEC 18004) that is still read with a quarter of it under grease: error
 * correction level Q, four modules of quiet zone.
 */
public final class ScanCode {
  private static final int QUIET_MODULES = 4;

  private ScanCode() {}

  /**
   * Returns the code of a text.
   *
   * @param text the text; stands in UTF-8
   * @param title what it holds, for those who listen
   * @throws IllegalArgumentException if the text is too long for a code
   */
  public static Drawing of(String text, String title) {
    BitMatrix bits;
    try {
      bits =
          new QRCodeWriter()
              .encode(
                  text,
                  BarcodeFormat.QR_CODE,
                  0,
                  0,
                  Map.of(
                      EncodeHintType.ERROR_CORRECTION,
                      ErrorCorrectionLevel.Q,
                      EncodeHintType.CHARACTER_SET,
                      "UTF-8",
                      EncodeHintType.MARGIN,
                      QUIET_MODULES));
    } catch (WriterException e) {
      throw new IllegalArgumentException("too long for a code: " + text, e);
    }
    return new Drawing(
        "code",
        title,
        text,
        bits.getWidth(),
        bits.getHeight(),
        g2 -> {
          g2.setPaint(Color.BLACK);
          for (int y = 0; y < bits.getHeight(); y++) {
            for (int x = 0; x < bits.getWidth(); x++) {
              if (bits.get(x, y)) {
                int from = x;
                while (x + 1 < bits.getWidth() && bits.get(x + 1, y)) {
                  x++;
                }
                // Bars overlap by a hair: renderers leave white lines between those that only meet.
                g2.fill(new Rectangle2D.Double(from, y, x - from + 1, 1.02));
              }
            }
          }
        });
  }
}
