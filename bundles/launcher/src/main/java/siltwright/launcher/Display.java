package siltwright.launcher;

import java.awt.AWTError;
import java.awt.Font;
import java.awt.Graphics2D;
import java.awt.Toolkit;
import java.awt.image.BufferedImage;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Locale;
import javax.swing.UIManager;

/** Whether a window can be opened, found out without touching the window toolkit. */
final class Display {
  private Display() {}

  static boolean isThere() {
    return fault() == null;
  }

  /** Throws what is missing, if anything is. */
  static void check() throws LaunchException {
    String fault = fault();
    if (fault != null) {
      throw new LaunchException(fault);
    }
  }

  /**
   * Wakes the window toolkit, its fonts and its standard look beside the start of the framework,
   * which has none of them to do with: together they take as long as that.
   *
   * @return the thread that does so; the window waits for its end, since two that make the same
   *     parts of the toolkit at once can wait for each other for ever
   */
  static Thread prepare() {
    Thread thread =
        new Thread("siltwright-display") {
          @Override
          public void run() {
            try {
              Toolkit.getDefaultToolkit();
              UIManager.getLookAndFeel();
              Graphics2D g2 = new BufferedImage(8, 8, BufferedImage.TYPE_INT_RGB).createGraphics();
              g2.setFont(new Font(Font.DIALOG, Font.PLAIN, 13));
              g2.drawString("Siltwright", 0, 8);
              g2.dispose();
            } catch (AWTError | RuntimeException | LinkageError e) {
              // the window itself will say what is wrong
            }
          }
        };
    thread.setDaemon(true);
    thread.start();
    return thread;
  }

  private static String fault() {
    if (Boolean.getBoolean("java.awt.headless")) {
      return "no window can be opened: java.awt.headless is set";
    }
    String system = System.getProperty("os.name", "").toLowerCase(Locale.ROOT);
    if (system.contains("windows") || system.contains("mac")) {
      return null;
    }
    if (System.getenv("DISPLAY") == null || System.getenv("DISPLAY").isEmpty()) {
      return "no window can be opened: there is no display (DISPLAY is not set)";
    }
    Path toolkit = Path.of(System.getProperty("java.home"), "lib", "libawt_xawt.so");
    return Files.exists(toolkit)
        ? null
        : "no window can be opened: this Java is a headless one, without " + toolkit;
  }
}
