package siltwright.charts.screen;

import java.util.Locale;
import java.util.ResourceBundle;

/** Texts of this bundle in the user's language. */
final class Words {
  private static final ResourceBundle TEXTS =
      ResourceBundle.getBundle("siltwright.charts.screen.words", Locale.getDefault());

  private Words() {}

  static String of(String key) {
    return TEXTS.getString(key);
  }
}
