package siltwright.element;

import java.util.Arrays;

/**
 * The life of one element so far: its pressure drop at the reference against a clock of mass.
 *
 * <pre>  m(t) = ∫ feed dt,  or t itself where no feed is known  </pre>
 *
 * <p>Life is a mass, not a time: elements of one kind reach a drop after the same mass at any feed.
 * The {@link #level} is what the noise leaves: the end of a straight line through the last tenth of
 * the run, and never falling. It looks back only, so that a forecast made at a moment uses nothing
 * of what came later.
 */
public final class LoadingRun {
  /** Share of the rows so far through which the line is laid. */
  private static final double WINDOW = 0.1;

  private static final int LEAST_WINDOW = 15;

  private final String name;
  private final double[] times;
  private final double[] mass;
  private final double[] dropKPa;
  private final double[] level;
  private final double feed;
  private final boolean fed;

  private LoadingRun(
      String name,
      double[] times,
      double[] mass,
      double[] dropKPa,
      double[] level,
      double feed,
      boolean fed) {
    this.name = name;
    this.times = times;
    this.mass = mass;
    this.dropKPa = dropKPa;
    this.level = level;
    this.feed = feed;
    this.fed = fed;
  }

  /**
   * Makes the run of a log that begins with a new element.
   *
   * @param log the log
   * @param reference at what its drops are compared; rows with too little flow only move the clock
   */
  public static LoadingRun of(DropLog log, Reference reference) {
    int n = log.times().length;
    double[] times = new double[n];
    double[] mass = new double[n];
    double[] drop = new double[n];
    boolean fed = log.feed().length > 0;
    double m = 0;
    int kept = 0;
    // The first row's dirt came in before it, at its feed, where the clock starts at zero.
    double before = Math.min(0, log.times()[0]);
    double lastFeed = fed ? firstKnown(log.feed()) : 1;
    for (int i = 0; i < n; i++) {
      double now = fed && !Double.isNaN(log.feed()[i]) ? log.feed()[i] : lastFeed;
      m += 0.5 * (lastFeed + now) * (log.times()[i] - before);
      before = log.times()[i];
      lastFeed = now;
      double p = reference.dropKPa(log, i);
      if (!Double.isNaN(p)) {
        times[kept] = log.times()[i];
        mass[kept] = m;
        drop[kept++] = p;
      }
    }
    times = Arrays.copyOf(times, kept);
    mass = Arrays.copyOf(mass, kept);
    drop = Arrays.copyOf(drop, kept);
    return new LoadingRun(log.name(), times, mass, drop, levels(drop), recentFeed(log, fed), fed);
  }

  private static double firstKnown(double[] values) {
    return Arrays.stream(values).filter(v -> !Double.isNaN(v)).findFirst().orElse(0);
  }

  /** Feed of the last quarter of the log: what goes on if nothing else is said. */
  private static double recentFeed(DropLog log, boolean fed) {
    if (!fed) {
      return 1;
    }
    int n = log.feed().length;
    return Arrays.stream(log.feed(), n - Math.max(1, n / 4), n)
        .filter(v -> !Double.isNaN(v))
        .average()
        .orElse(Double.NaN);
  }

  /** Ends of trailing lines, never falling. */
  private static double[] levels(double[] y) {
    int n = y.length;
    double[] out = new double[n];
    // Sums up to each row, so that every window costs the same.
    double[] s = new double[n + 1];
    double[] st = new double[n + 1];
    for (int i = 0; i < n; i++) {
      s[i + 1] = s[i] + y[i];
      st[i + 1] = st[i] + y[i] * i;
    }
    double highest = Double.NEGATIVE_INFINITY;
    for (int i = 0; i < n; i++) {
      int least = Math.min(LEAST_WINDOW, Math.max(1, (i + 1) / 4));
      int w = Math.max(least, (int) (WINDOW * (i + 1)));
      int a = i + 1 - w;
      double mean = (s[i + 1] - s[a]) / w;
      double centre = 0.5 * (a + i);
      double spread = w * ((double) w * w - 1) / 12;
      double slope = w < 5 ? 0 : ((st[i + 1] - st[a]) - centre * (s[i + 1] - s[a])) / spread;
      double end = w < 5 ? mean : mean + slope * (i - centre);
      highest = Math.max(highest, end);
      out[i] = highest;
    }
    return out;
  }

  /** Returns the name of the log. */
  public String name() {
    return name;
  }

  /** Returns the number of rows with flow enough. */
  public int rows() {
    return times.length;
  }

  /** Returns the time of a row, in the log's unit. */
  public double time(int row) {
    return times[row];
  }

  /** Returns the mass that came in up to a row, in feed times time. */
  public double mass(int row) {
    return mass[row];
  }

  /** Returns the pressure drop of a row at the reference, kPa. */
  public double dropKPa(int row) {
    return dropKPa[row];
  }

  /** Returns the pressure drop of a row at the reference with its noise taken out, kPa. */
  public double level(int row) {
    return level[row];
  }

  /** Returns the feed of late; 1 where no feed is known. */
  public double feed() {
    return feed;
  }

  /** Returns whether the feed is known, so that the clock is one of mass. */
  public boolean fed() {
    return fed;
  }

  /**
   * Returns the first row, up to a last one, whose level is at least so high; the last one if none
   * is.
   */
  int rowAt(double levelKPa, int last) {
    int at = Arrays.binarySearch(level, 0, last + 1, levelKPa);
    if (at >= 0) {
      while (at > 0 && level[at - 1] == levelKPa) {
        at--;
      }
      return at;
    }
    return Math.min(last, -at - 1);
  }

  /**
   * Returns the mass at which the drop reached a limit; not a number if it did not. A run that was
   * ended within 3 % of the limit counts as having reached it.
   */
  double massAtLimit(double limitKPa) {
    for (int i = 0; i < dropKPa.length; i++) {
      if (dropKPa[i] >= limitKPa && level[i] >= 0.8 * limitKPa) {
        return mass[i];
      }
    }
    int last = dropKPa.length - 1;
    return last >= 0 && level[last] >= 0.97 * limitKPa ? mass[last] : Double.NaN;
  }
}
