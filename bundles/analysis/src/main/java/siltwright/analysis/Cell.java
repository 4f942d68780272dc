package siltwright.analysis;

import java.util.LinkedHashMap;
import java.util.Map;

/** What a result holds in one place. Units stand beside it, in its value or column. */
public sealed interface Cell {
  /**
   * A number; not a number or infinite means that there is none.
   *
   * @param value the number
   */
  record Num(double value) implements Cell {}

  /**
   * A text.
   *
   * @param text the text
   */
  record Text(String text) implements Cell {}

  /**
   * A yes or no.
   *
   * @param yes which
   */
  record Flag(boolean yes) implements Cell {}

  /**
   * From one number to another.
   *
   * @param low lower end
   * @param high upper end
   */
  record Range(double low, double high) implements Cell {}

  /** Several numbers in an order that the label states, such as the size bands. */
  record Numbers(double... values) implements Cell {
    public Numbers {
      values = values.clone();
    }
  }

  /**
   * Several numbers by name, such as duty states.
   *
   * @param values numbers in order
   */
  record Named(Map<String, Double> values) implements Cell {
    public Named {
      values = new LinkedHashMap<>(values);
    }
  }

  /**
   * Several cells by name, such as an estimate's intervals. For programs: people get tables.
   *
   * @param cells cells in order
   */
  record Parts(Map<String, Cell> cells) implements Cell {
    public Parts {
      cells = new LinkedHashMap<>(cells);
    }
  }

  /** Nothing, for a reason that a finding or a neighbouring cell tells. */
  record None() implements Cell {}

  /** Returns whether there is more in it than fits in a line of an overview. */
  default boolean isLong() {
    return this instanceof Numbers || this instanceof Named || this instanceof Parts;
  }

  /** Returns a number. */
  static Cell of(double value) {
    return Double.isFinite(value) ? new Num(value) : new None();
  }

  /** Returns a text. */
  static Cell of(String text) {
    return new Text(text);
  }
}
