package siltwright.workbench.parts;

import java.text.MessageFormat;
import java.util.Locale;
import java.util.ResourceBundle;

/** The texts of a bundle in the user's language. Numbers in them are written as everywhere. */
public final class Wording {
  private final ResourceBundle texts;

  /**
   * Reads texts.
   *
   * @param beside a class in whose package and bundle they are
   * @param name name of the file without its ending
   */
  public Wording(Class<?> beside, String name) {
    texts =
        ResourceBundle.getBundle(
            beside.getPackageName() + "." + name, Locale.getDefault(), beside.getClassLoader());
  }

  /** Returns whether there is a text with a key. */
  public boolean has(String key) {
    return texts.containsKey(key);
  }

  /** Returns the text with a key; parts are put in where there are any. */
  public String of(String key, Object... parts) {
    String text = texts.getString(key);
    return parts.length == 0 ? text : new MessageFormat(text, Locale.ROOT).format(parts);
  }
}
