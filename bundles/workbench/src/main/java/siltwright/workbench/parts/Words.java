package siltwright.workbench.parts;

import java.text.MessageFormat;
import java.util.Locale;
import java.util.ResourceBundle;

/** Texts of the shared components. */
final class Words {
  private static final ResourceBundle TEXTS =
      ResourceBundle.getBundle("siltwright.workbench.parts.words", Locale.getDefault());

  private Words() {}

  static String of(String key, Object... arguments) {
    return MessageFormat.format(TEXTS.getString(key), arguments);
  }
}
