package siltwright.model.json;

import com.fasterxml.jackson.databind.node.TextNode;
import java.math.BigDecimal;
import java.util.Optional;

/**
 * One change of a fleet file's text.
 *
 * @param pointer JSON pointer (RFC 6901) of the value; its parent must be there. Behind the last
 *     item of a list, {@code -} or the next index adds one
 * @param json the new value as JSON; empty takes the value away, with its key
 */
public record Edit(String pointer, Optional<String> json) {
  /** Returns an edit that puts a number, with all its digits. */
  public static Edit number(String pointer, double value) {
    BigDecimal exact = BigDecimal.valueOf(value).stripTrailingZeros();
    int size = exact.precision() - exact.scale();
    return json(pointer, Math.abs(size) > 20 ? exact.toString() : exact.toPlainString());
  }

  /** Returns an edit that puts a text. */
  public static Edit text(String pointer, String value) {
    return json(pointer, new TextNode(value).toString());
  }

  /** Returns an edit that puts yes or no. */
  public static Edit flag(String pointer, boolean value) {
    return json(pointer, Boolean.toString(value));
  }

  /** Returns an edit that puts a value written as JSON. */
  public static Edit json(String pointer, String json) {
    return new Edit(pointer, Optional.of(json));
  }

  /** Returns an edit that takes a value away. */
  public static Edit removal(String pointer) {
    return new Edit(pointer, Optional.empty());
  }
}
