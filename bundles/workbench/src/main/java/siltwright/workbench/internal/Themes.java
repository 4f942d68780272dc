package siltwright.workbench.internal;

import com.formdev.flatlaf.FlatDarkLaf;
import com.formdev.flatlaf.FlatLaf;
import com.formdev.flatlaf.FlatLightLaf;
import java.awt.Dimension;
import java.awt.Toolkit;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.util.Locale;
import java.util.Map;
import java.util.concurrent.TimeUnit;
import javax.swing.UIManager;
import javax.swing.UnsupportedLookAndFeelException;
import siltwright.workbench.parts.ThemeColors;

/** Light, dark, or as the system is. */
enum Themes {
  LIGHT,
  DARK,
  SYSTEM;

  private static final int LONGEST_ASK_MS = 800;

  /** Returns whether this is a dark theme now. */
  boolean isDark() {
    return this == DARK || this == SYSTEM && systemIsDark();
  }

  /** Puts the look and feel on; open windows follow. */
  void install() {
    boolean dark = isDark();
    FlatLaf.setGlobalExtraDefaults(
        dark
            ? Map.of(
                "@accentColor", "#6aa9e6",
                "@background", "#20262e",
                "@foreground", "#e8ecf1",
                "@disabledForeground", "#8a94a1")
            : Map.of(
                "@accentColor", "#1b5fa8",
                "@background", "#f4f6f8",
                "@foreground", "#1d2530",
                "@disabledForeground", "#6b7480"));
    try {
      UIManager.setLookAndFeel(dark ? new FlatDarkLaf() : new FlatLightLaf());
    } catch (UnsupportedLookAndFeelException e) {
      throw new IllegalStateException("FlatLaf runs everywhere", e);
    }
    ThemeColors.install(dark);
    UIManager.put("Component.arrowType", "chevron");
    UIManager.put("Component.focusWidth", 1);
    UIManager.put("ScrollBar.width", 12);
    UIManager.put("Tree.leftChildIndent", 4);
    UIManager.put("Tree.rightChildIndent", 9);
    UIManager.put("Table.showHorizontalLines", true);
    UIManager.put("Table.intercellSpacing", new Dimension(0, 1));
    UIManager.put("TabbedPane.tabHeight", 28);
    UIManager.put("SplitPane.dividerSize", 6);
    UIManager.put("TitlePane.unifiedBackground", false);
  }

  private static boolean systemIsDark() {
    String system = System.getProperty("os.name", "").toLowerCase(Locale.ROOT);
    if (system.contains("windows")) {
      return asked(
              "reg",
              "query",
              "HKCU\\Software\\Microsoft\\Windows\\CurrentVersion\\Themes\\Personalize",
              "/v",
              "AppsUseLightTheme")
          .endsWith("0x0");
    }
    if (system.contains("mac")) {
      return asked("defaults", "read", "-g", "AppleInterfaceStyle").equals("Dark");
    }
    Object theme = Toolkit.getDefaultToolkit().getDesktopProperty("gnome.Net/ThemeName");
    return theme != null && theme.toString().toLowerCase(Locale.ROOT).contains("dark");
  }

  private static String asked(String... command) {
    try {
      Process process = new ProcessBuilder(command).redirectErrorStream(true).start();
      if (!process.waitFor(LONGEST_ASK_MS, TimeUnit.MILLISECONDS)) {
        process.destroyForcibly();
        return "";
      }
      return new String(process.getInputStream().readAllBytes(), StandardCharsets.UTF_8).strip();
    } catch (IOException e) {
      return "";
    } catch (InterruptedException e) {
      Thread.currentThread().interrupt();
      return "";
    }
  }
}
