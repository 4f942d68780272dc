package siltwright.model;

import java.util.Optional;

/**
 * The life of a component by a law that its file names.
 *
 * @param law id of the law
 * @param survival what the law gives; empty where the file was read without laws, by somebody who
 *     prices no wear
 */
public record NamedLife(String law, Optional<Survival> survival) {
  Survival known() {
    return survival.orElseThrow(
        () -> new IllegalStateException("read without the life law " + law));
  }

  /** Returns whether it follows the shape that the component's life states. */
  boolean followsShape() {
    return BasicLife.named(law).isPresent();
  }

  NamedLife withShape(double shape) {
    return BasicLife.named(law)
        .map(basic -> new NamedLife(law, Optional.of(basic.of(shape))))
        .orElse(this);
  }
}
