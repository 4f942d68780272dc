package siltwright.analysis;

import java.math.BigDecimal;
import java.util.Optional;

/**
 * A number with a unit and a range.
 *
 * @param name name
 * @param unit unit; 1 for a ratio, which is not shown
 * @param low lowest value
 * @param high highest value
 * @param standard value when none is given
 * @param required whether a value must be given
 * @param meaning meaning
 */
public record NumberParameter(
    String name,
    String unit,
    double low,
    double high,
    Optional<Double> standard,
    boolean required,
    String meaning)
    implements Parameter<Double> {
  /** Returns a parameter with a standard value. */
  public static NumberParameter of(
      String name, String unit, double low, double high, double standard, String meaning) {
    return new NumberParameter(name, unit, low, high, Optional.of(standard), false, meaning);
  }

  /** Returns a parameter that may be left out; its meaning says what holds then. */
  public static NumberParameter optional(
      String name, String unit, double low, double high, String meaning) {
    return new NumberParameter(name, unit, low, high, Optional.empty(), false, meaning);
  }

  @Override
  public String form() {
    return "a number from "
        + plain(low)
        + " to "
        + plain(high)
        + (Numbers.shown(unit).isEmpty() ? "" : " " + unit);
  }

  @Override
  public Double read(String text) {
    double value;
    try {
      value = Double.parseDouble(text);
    } catch (NumberFormatException e) {
      throw new IllegalArgumentException(form(), e);
    }
    if (!(value >= low && value <= high)) {
      throw new IllegalArgumentException(form());
    }
    return value;
  }

  private static String plain(double v) {
    return BigDecimal.valueOf(v).stripTrailingZeros().toPlainString();
  }
}
