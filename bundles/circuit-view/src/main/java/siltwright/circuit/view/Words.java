package siltwright.circuit.view;

import java.text.MessageFormat;
import java.util.Arrays;
import java.util.Locale;
import java.util.ResourceBundle;

/** Words of the view, from its resource bundle. */
final class Words {
  private Words() {}

  /** Returns the bundle in the language of the desktop, or else in English. */
  static ResourceBundle bundle() {
    return ResourceBundle.getBundle(
        "siltwright.circuit.view.words", Locale.getDefault(), Words.class.getClassLoader());
  }

  /** Returns a text with its places filled in. */
  static String text(ResourceBundle texts, String key, Object... with) {
    return new MessageFormat(texts.getString(key), Locale.ROOT)
        .format(Arrays.stream(with).map(String::valueOf).toArray());
  }
}
