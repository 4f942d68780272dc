package siltwright.analysis;

import java.util.Optional;

/**
 * Something that is on or off; off unless given.
 *
 * @param name name
 * @param meaning what it does when on
 */
public record FlagParameter(String name, String meaning) implements Parameter<Boolean> {
  @Override
  public Optional<Boolean> standard() {
    return Optional.of(false);
  }

  @Override
  public String form() {
    return "true or false";
  }

  @Override
  public Boolean read(String text) {
    return switch (text) {
      case "true" -> true;
      case "false" -> false;
      default -> throw new IllegalArgumentException(form());
    };
  }
}
