package siltwright.life;

import org.apache.commons.math3.special.Beta;

/**
 * How many components must be watched, and how long, to show a life.
 *
 * <p>Sources: the success-run theorem and the binomial and chi-square plans of the handbooks
 * (common practice, no source at hand).
 */
public final class DemonstrationPlan {
  private DemonstrationPlan() {}

  /**
   * Returns how many components without a failure show a reliability; round up.
   *
   * <pre>  n = ln(1 - C)/(m^b ln R)  </pre>
   *
   * @param reliability R to be shown at the mission time
   * @param confidence C
   * @param testToMission m, test time over mission time
   * @param shape Weibull shape b
   */
  public static double withoutFailure(
      double reliability, double confidence, double testToMission, double shape) {
    share(reliability, "reliability");
    share(confidence, "confidence");
    LowerBound.requireShape(shape);
    return Math.log1p(-confidence) / (Math.pow(testToMission, shape) * Math.log(reliability));
  }

  /** Returns the smallest number of components that show a reliability if so many fail at most. */
  public static int components(double reliability, double confidence, int failuresAllowed) {
    share(confidence, "confidence");
    int n = failuresAllowed + 1;
    int step = 1;
    while (attainedConfidence(n + step, reliability, failuresAllowed) < confidence) {
      n += step;
      step *= 2;
    }
    for (; step >= 1; step /= 2) {
      if (attainedConfidence(n + step, reliability, failuresAllowed) < confidence) {
        n += step;
      }
    }
    return attainedConfidence(n, reliability, failuresAllowed) < confidence ? n + 1 : n;
  }

  /** Returns the confidence that a number of components gives if so many fail. */
  public static double attainedConfidence(int components, double reliability, int failures) {
    share(reliability, "reliability");
    if (failures < 0 || components <= failures) {
      throw new IllegalArgumentException(
          "failures are " + failures + ", expected from 0 to below " + components);
    }
    return Beta.regularizedBeta(1 - reliability, failures + 1, components - failures);
  }

  /** Returns the test length that shows a mean life, in mean lives, if so many fail. */
  public static double testLength(int failures, double confidence) {
    share(confidence, "confidence");
    return LowerBound.halfChiSquare(confidence, failures);
  }

  private static void share(double value, String name) {
    if (!(value > 0 && value < 1)) {
      throw new IllegalArgumentException(name + " is " + value + ", expected between 0 and 1");
    }
  }
}
