package siltwright.element;

/**
 * How much more an element takes, with an interval of 90 %.
 *
 * @param value mass (or time, where no feed is known) until the limit is reached
 * @param low lower end
 * @param high upper end
 */
public record Remaining(double value, double low, double high) {
  /** Nothing left. */
  public static final Remaining NONE = new Remaining(0, 0, 0);

  private static final double Z90 = 1.6448536269514722;

  /** Returns the time that this mass takes at a feed. */
  public Remaining atFeed(double feed) {
    return new Remaining(value / feed, low / feed, high / feed);
  }

  /**
   * Returns the same with a spread of the feed to come added: logarithms of relative half widths
   * add as squares, each side for itself.
   *
   * @param factor95 95 % of the chance lies between the feed over it and the feed times it; 1 adds
   *     nothing
   */
  public Remaining withFeedSpread(double factor95) {
    if (factor95 <= 1 || value <= 0) {
      return this;
    }
    double feed = Z90 * Math.log(factor95) / 1.959963984540054;
    return new Remaining(value, spread(low, -feed), spread(high, feed));
  }

  private double spread(double end, double feed) {
    if (end <= 0 || Double.isInfinite(end)) {
      return end;
    }
    double own = Math.log(end / value);
    return value * Math.exp(Math.signum(feed) * Math.hypot(own, feed));
  }
}
