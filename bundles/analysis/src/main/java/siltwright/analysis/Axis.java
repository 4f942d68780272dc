package siltwright.analysis;

/**
 * An axis of a figure.
 *
 * @param label what is on it
 * @param unit unit, empty for none
 * @param scale how it runs
 */
public record Axis(String label, String unit, Scale scale) {
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

  /** Returns an axis by powers of ten. */
  public static Axis log(String label, String unit) {
    return new Axis(label, unit, Scale.LOG);
  }
}
