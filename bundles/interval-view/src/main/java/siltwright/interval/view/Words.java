package siltwright.interval.view;

import java.text.MessageFormat;
import java.util.Locale;
import java.util.ResourceBundle;

/** Texts of this bundle in the user's language. */
final class Words {
  private static final ResourceBundle TEXTS =
      ResourceBundle.getBundle("siltwright.interval.view.words", Locale.getDefault());

  private Words() {}

  static String of(String key, Object... parts) {
    String text = TEXTS.getString(key);
    return parts.length == 0 ? text : new MessageFormat(text, Locale.ROOT).format(parts);
  }
}
