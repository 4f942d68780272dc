package siltwright.card.view;

import siltwright.workbench.parts.Wording;

/** Texts of this bundle. */
final class Words {
  private static final Wording TEXTS = new Wording(Words.class, "words");

  private Words() {}

  static String of(String key, Object... parts) {
    return TEXTS.of(key, parts);
  }
}
