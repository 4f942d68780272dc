package siltwright.workbench.internal;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.awt.image.BufferedImage;
import java.io.IOException;
import java.nio.file.Path;
import javax.imageio.ImageIO;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/**
 * The desktop shows the same sign as the window: the pictures that the package carries are those
 * that the window draws. {@code -Dsiltwright.icons=store} stores them anew.
 */
class BenchIconTest {
  private static final Path ICONS = Path.of("../../features/src/main/linux/icons");

  /** What another release of Java may round otherwise, of 255. */
  private static final int ROUNDING = 2;

  @ParameterizedTest
  @ValueSource(ints = {16, 24, 32, 48, 64, 128, 256})
  void desktopShowsTheSignOfTheWindow(int size) throws IOException {
    BufferedImage drawn = (BufferedImage) BenchIcon.image(size);
    Path file = ICONS.resolve(size + ".png");
    if ("store".equals(System.getProperty("siltwright.icons"))) {
      assertTrue(ImageIO.write(drawn, "png", file.toFile()));
    }
    BufferedImage kept = ImageIO.read(file.toFile());
    assertEquals(size, kept.getWidth());
    assertEquals(size, kept.getHeight());
    int largest = 0;
    for (int x = 0; x < size; x++) {
      for (int y = 0; y < size; y++) {
        for (int shift = 0; shift < Integer.SIZE; shift += Byte.SIZE) {
          int difference =
              (drawn.getRGB(x, y) >>> shift & 255) - (kept.getRGB(x, y) >>> shift & 255);
          largest = Math.max(largest, Math.abs(difference));
        }
      }
    }
    assertTrue(largest <= ROUNDING, file + " differs by " + largest + " of 255");
  }
}
