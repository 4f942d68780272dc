package siltwright.plan;

/**
 * How use varies over a year, round a mean of 1.
 *
 * <pre>  s(t) = 1 + a cos ωt + b sin ωt,   ω = 2π/365.2425 per day  </pre>
 *
 * @param cosine a
 * @param sine b
 */
public record Season(double cosine, double sine) {
  /** No season. */
  public static final Season NONE = new Season(0, 0);

  private static final double OMEGA = 2 * Math.PI / 365.2425;

  /** Returns ∫ s dt from one day to another, in mean days; days count from any fixed day. */
  public double meanDays(double from, double to) {
    return to - from + cosine * waveOfCosine(from, to) + sine * waveOfSine(from, to);
  }

  static double waveOfCosine(double from, double to) {
    return (Math.sin(OMEGA * to) - Math.sin(OMEGA * from)) / OMEGA;
  }

  static double waveOfSine(double from, double to) {
    return (Math.cos(OMEGA * from) - Math.cos(OMEGA * to)) / OMEGA;
  }

  /** Returns how far use swings from its mean, as a share of it. */
  public double amplitude() {
    return Math.hypot(cosine, sine);
  }
}
