package siltwright.analysis;

import java.util.Optional;

/**
 * A whole number with a range.
 *
 * @param name name
 * @param low lowest value
 * @param high highest value
 * @param standardValue value when none is given
 * @param meaning meaning
 */
public record WholeParameter(String name, long low, long high, long standardValue, String meaning)
    implements Parameter<Long> {
  @Override
  public Optional<Long> standard() {
    return Optional.of(standardValue);
  }

  @Override
  public String form() {
    return "a whole number from " + low + " to " + high;
  }

  @Override
  public Long read(String text) {
    try {
      long value = Long.parseLong(text);
      if (value >= low && value <= high) {
        return value;
      }
    } catch (NumberFormatException e) {
      throw new IllegalArgumentException(form(), e);
    }
    throw new IllegalArgumentException(form());
  }
}
