package siltwright.analysis;

import java.util.List;
import java.util.Optional;

/**
 * One of a few words.
 *
 * @param name name
 * @param choices words to choose from
 * @param standardValue word when none is given, one of the choices
 * @param meaning meaning
 */
public record ChoiceParameter(
    String name, List<String> choices, String standardValue, String meaning)
    implements Parameter<String> {
  public ChoiceParameter {
    choices = List.copyOf(choices);
  }

  @Override
  public Optional<String> standard() {
    return Optional.of(standardValue);
  }

  @Override
  public String form() {
    return "one of " + String.join(", ", choices);
  }

  @Override
  public String read(String text) {
    if (!choices.contains(text)) {
      throw new IllegalArgumentException(form());
    }
    return text;
  }
}
