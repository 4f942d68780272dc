package siltwright.analysis;

/** Numbers for programs: no digit lost, and whole ones written without a point. */
public final class ExactNumber {
  // Below this every whole number is a double of its own.
  private static final double LARGEST_WHOLE = 1e15;

  private ExactNumber() {}

  /** Returns a number with all its digits. */
  public static String text(double value) {
    return whole(value) ? Long.toString((long) value) : Double.toString(value);
  }

  /** Returns whether a number can be written as a whole number without loss. */
  public static boolean whole(double value) {
    return value == Math.rint(value) && Math.abs(value) < LARGEST_WHOLE;
  }
}
