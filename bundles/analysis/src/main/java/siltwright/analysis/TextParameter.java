package siltwright.analysis;

import java.util.Optional;

/**
 * A text whose form the analysis itself checks.
 *
 * @param name name
 * @param form what a value looks like
 * @param standard value when none is given
 * @param required whether a value must be given
 * @param meaning meaning
 */
public record TextParameter(
    String name, String form, Optional<String> standard, boolean required, String meaning)
    implements Parameter<String> {
  /** Returns a parameter that must be given. */
  public static TextParameter required(String name, String form, String meaning) {
    return new TextParameter(name, form, Optional.empty(), true, meaning);
  }

  /** Returns a parameter that may be left out; its meaning says what holds then. */
  public static TextParameter optional(String name, String form, String meaning) {
    return new TextParameter(name, form, Optional.empty(), false, meaning);
  }

  @Override
  public String read(String text) {
    return text;
  }
}
