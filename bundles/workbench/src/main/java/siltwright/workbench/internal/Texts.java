package siltwright.workbench.internal;

import java.util.Locale;
import java.util.Optional;
import siltwright.workbench.parts.Wording;

/** Texts of the window in the user's language. */
final class Texts {
  private static final Wording TEXTS = new Wording(Texts.class, "texts");

  private Texts() {}

  /** Returns the text with a key, with its arguments put in. */
  static String of(String key, Object... arguments) {
    return TEXTS.of(key, arguments);
  }

  /** Returns the text with a key, if there is one. */
  static Optional<String> find(String key) {
    return TEXTS.has(key) ? Optional.of(TEXTS.of(key)) : Optional.empty();
  }

  /**
   * Returns a camel-case or hyphenated name as words: its own text where there is one under {@code
   * word.NAME}, else the name taken apart.
   */
  static String words(String name) {
    return find("word." + name)
        .orElseGet(
            () -> {
              String apart =
                  name.replaceAll("([a-z0-9])([A-Z])", "$1 $2")
                      .replace('-', ' ')
                      .toLowerCase(Locale.ROOT);
              return apart.isEmpty()
                  ? apart
                  : Character.toUpperCase(apart.charAt(0)) + apart.substring(1);
            });
  }
}
