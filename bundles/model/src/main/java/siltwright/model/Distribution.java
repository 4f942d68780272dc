package siltwright.model;

/** How well a number is known. The number in the model is the median or the mode. */
public sealed interface Distribution {
  /**
   * Lognormal round the model's value as its median.
   *
   * @param factor95 above 1: 95 % of the chance lies between the value over it and the value times
   *     it
   */
  record LogNormal(double factor95) implements Distribution {}

  /**
   * Triangular with the model's value as its mode.
   *
   * @param low lower end, at most the value
   * @param high upper end, at least the value
   */
  record Triangular(double low, double high) implements Distribution {}

  /**
   * Uniform.
   *
   * @param low lower end
   * @param high upper end
   */
  record Uniform(double low, double high) implements Distribution {}

  /**
   * Several numbers together, lognormal round the model's values as their medians.
   *
   * @param logCovariance covariance of the natural logarithms, square, symmetric, positive
   *     definite; copied
   */
  record JointLogNormal(double[][] logCovariance) implements Distribution {
    public JointLogNormal {
      double[][] copy = new double[logCovariance.length][];
      for (int i = 0; i < copy.length; i++) {
        copy[i] = logCovariance[i].clone();
      }
      logCovariance = copy;
    }
  }
}
