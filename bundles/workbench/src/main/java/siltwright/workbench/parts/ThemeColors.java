package siltwright.workbench.parts;

import java.awt.Color;
import java.util.Map;
import java.util.TreeMap;
import javax.swing.UIManager;
import siltwright.charts.ChartTheme;

/**
 * Colours of the window beyond those of the look and feel, as defaults under these keys. Texts keep
 * a contrast of at least 4.5:1 to the background, signs 3:1 (WCAG 2.1, 1.4.3 and 1.4.11).
 */
public final class ThemeColors {
  /** Text that is not the matter itself, such as units. */
  public static final String QUIET = "Siltwright.quiet";

  /** Text and outline of what is wrong. */
  public static final String FAULT = "Siltwright.fault";

  /** Sign of a note. */
  public static final String NOTE = "Siltwright.note";

  /** Sign of a caution. */
  public static final String CAUTION = "Siltwright.caution";

  /** Sign of a warning. */
  public static final String WARNING = "Siltwright.warning";

  /** Background of what is computed again. */
  public static final String STALE = "Siltwright.stale";

  private static final String DARK = "Siltwright.dark";

  private ThemeColors() {}

  /** Returns the colours of a theme. */
  public static Map<String, Color> of(boolean dark) {
    Map<String, Color> colors = new TreeMap<>();
    colors.put(QUIET, new Color(dark ? 0xa4aebb : 0x56606d));
    colors.put(FAULT, new Color(dark ? 0xff9a92 : 0xb3261e));
    colors.put(NOTE, new Color(dark ? 0x9cc8f2 : 0x1b4f8f));
    colors.put(CAUTION, new Color(dark ? 0xf0b755 : 0x9a5b00));
    colors.put(WARNING, new Color(dark ? 0xff7b72 : 0xb3261e));
    colors.put(STALE, new Color(dark ? 0x3a331f : 0xfff4d6));
    return colors;
  }

  /** Puts the colours of a theme among the defaults. */
  public static void install(boolean dark) {
    of(dark).forEach(UIManager::put);
    UIManager.put(DARK, dark);
  }

  /** Returns whether the theme is a dark one. */
  public static boolean isDark() {
    return UIManager.getBoolean(DARK);
  }

  /** Returns the chart colours that go with the theme. */
  public static ChartTheme chart() {
    return isDark() ? ChartTheme.DARK : ChartTheme.LIGHT;
  }
}
