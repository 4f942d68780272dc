package siltwright.life.internal;

import java.util.Arrays;
import java.util.Optional;
import siltwright.life.KaplanMeier;
import siltwright.life.LifeData;
import siltwright.life.Turnbull;

/**
 * Survival without a law: Kaplan and Meier's curve, or Turnbull's where failures are known within
 * intervals.
 *
 * @param timesH hours from which a share survives, rising
 * @param survival share surviving from then on
 * @param low lower end of its 95 % band, not a number where there is none
 * @param high upper end
 * @param kaplanMeier the estimate behind it, if it is Kaplan and Meier's
 */
record Curve(
    double[] timesH,
    double[] survival,
    double[] low,
    double[] high,
    Optional<KaplanMeier> kaplanMeier) {
  private static final int MOST_POINTS = 600;
  private static final int MOST_TURNBULL = 5000;

  static Curve of(LifeData data) {
    if (!data.hasIntervals()) {
      KaplanMeier km = KaplanMeier.of(data);
      double[][] band = km.band(KaplanMeier.Band.LOG_LOG, Laws.CONFIDENCE);
      return new Curve(km.timesH(), km.survival(), band[0], band[1], Optional.of(km));
    }
    if (data.hasLateEntry() || data.rows() > MOST_TURNBULL) {
      double[] none = {};
      return new Curve(none, none, none, none, Optional.empty());
    }
    Turnbull t = Turnbull.of(data);
    int n = t.rightH().length;
    while (n > 0 && Double.isInfinite(t.rightH()[n - 1])) {
      n--;
    }
    double[] none = new double[n];
    Arrays.fill(none, Double.NaN);
    return new Curve(
        Arrays.copyOf(t.rightH(), n),
        Arrays.copyOf(t.survivalAfter(), n),
        none,
        none,
        Optional.empty());
  }

  /** Returns whether there is a curve: not of intervals with late entry, or of very many. */
  boolean known() {
    return kaplanMeier.isPresent() || timesH.length > 0;
  }

  /** Returns Kaplan and Meier's curve alone. */
  static Curve withoutBand(KaplanMeier km) {
    double[] none = new double[km.timesH().length];
    Arrays.fill(none, Double.NaN);
    return new Curve(km.timesH(), km.survival(), none, none, Optional.of(km));
  }

  /** Returns the curve with so many points that a picture can show them. */
  Curve thinned() {
    int n = timesH.length;
    if (n <= MOST_POINTS) {
      return this;
    }
    int[] at = new int[MOST_POINTS];
    Arrays.setAll(at, i -> (int) ((long) i * (n - 1) / (MOST_POINTS - 1)));
    return new Curve(
        pick(timesH, at), pick(survival, at), pick(low, at), pick(high, at), kaplanMeier);
  }

  private static double[] pick(double[] from, int[] at) {
    return Arrays.stream(at).mapToDouble(i -> from[i]).toArray();
  }

  /** Returns the share failed at each time, halfway up the step, where a plot puts its points. */
  double[] plottedShares() {
    double[] shares = new double[timesH.length];
    for (int i = 0; i < shares.length; i++) {
      shares[i] = 1 - 0.5 * ((i == 0 ? 1 : survival[i - 1]) + survival[i]);
    }
    return shares;
  }
}
