package siltwright.analysis;

import java.util.List;

/**
 * An axis of a figure.
 *
 * @param label what is on it
 * @param unit unit, empty for none
 * @param scale how it runs
 * @param names what stands at 1, 2 and so on from the top down or from the left, where it tells
 *     things apart instead of measuring; else empty
 */
public record Axis(String label, String unit, Scale scale, List<String> names) {
  public Axis {
    names = List.copyOf(names);
  }

  /** Makes an axis of numbers. */
  public Axis(String label, String unit, Scale scale) {
    this(label, unit, scale, List.of());
  }

  /** How an axis runs. */
  public enum Scale {
    /** Evenly. */
    LINEAR,
    /** By powers of ten. */
    LOG,
    /** So that a Weibull distribution function is a straight line against a log axis. */
    WEIBULL,
    /** So that a normal distribution function is a straight line. */
    NORMAL
  }

  /** Returns an even axis. */
  public static Axis linear(String label, String unit) {
    return new Axis(label, unit, Scale.LINEAR);
  }

  /** Returns an axis of names at 1, 2 and so on. */
  public static Axis names(String label, List<String> names) {
    return new Axis(label, "1", Scale.LINEAR, names);
  }

  /** Returns an axis by powers of ten. */
  public static Axis log(String label, String unit) {
    return new Axis(label, unit, Scale.LOG);
  }
}
