package siltwright.launcher;

import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Locale;

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
