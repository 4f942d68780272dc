package siltwright.model;

import java.util.Optional;

/**
 * Life of a component on the exposure clock: hours at the reference cleanliness. Weibull where no
 * other law is named.
 *
 * @param shape Weibull shape β; another law makes of it what it says
 * @param scaleH Weibull scale η, h; for every law the hours in which exposure is counted
 * @param law law that the file names, where it names one
 */
public record ComponentLife(double shape, double scaleH, Optional<NamedLife> law) {
  /** Makes a Weibull life. */
  public ComponentLife(double shape, double scaleH) {
    this(shape, scaleH, Optional.empty());
  }

  /** Returns the survival over exposure in scales. */
  public Survival survival() {
    return law.isEmpty() ? BasicLife.WEIBULL.of(shape) : law.get().known();
  }

  /** Returns this life by another law. */
  public ComponentLife withLaw(NamedLife other) {
    return new ComponentLife(shape, scaleH, Optional.of(other));
  }

  /** Returns this life with another shape; a law that an add-on brings stays as it is. */
  public ComponentLife withShape(double other) {
    return new ComponentLife(other, scaleH, law.map(l -> l.withShape(other)));
  }

  /** Returns this life with another scale. */
  public ComponentLife withScaleH(double other) {
    return new ComponentLife(shape, other, law);
  }

  /** Returns whether another shape makes another life. */
  boolean followsShape() {
    return law.isEmpty() || law.get().followsShape();
  }
}
