package siltwright.closure;

import siltwright.samples.CountError;

/**
 * How far what is recorded lies from what the balance says, as standard deviations of logarithms.
 * Own choice, common practice, no source; docs/closure-study.md shows what they do if they are
 * wrong by a factor of two.
 *
 * @param count of counts; its part that all counts share is carried to all machines alike
 * @param life of hours to the indicator, from element to element
 * @param reading of drops over the filter
 * @param capacity of the element's capacity, alike in all machines of a class
 */
public record Errors(CountError count, double life, double reading, double capacity) {
  /** What holds where nothing else is known. */
  public static final Errors STANDARD = new Errors(CountError.STANDARD, 0.12, 0.10, 0.05);

  /** Returns the same with every spread times a factor. */
  public Errors times(double factor) {
    return new Errors(count.times(factor), life * factor, reading * factor, capacity * factor);
  }
}
