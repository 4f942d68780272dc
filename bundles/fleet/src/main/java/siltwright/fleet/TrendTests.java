package siltwright.fleet;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.SplittableRandom;
import org.apache.commons.math3.stat.StatUtils;
import siltwright.life.SignificanceTest;

/**
 * Whether events get more or less frequent with age.
 *
 * <p>Given its number in a window (from, to], events that come by chance at a constant rate lie
 * evenly in it, whatever the rate of the machine. So u = (t - from)/(to - from) is even on 0 to 1,
 * and windows of different machines may be pooled though the machines differ. An event that ended a
 * window is left out: it had to be there.
 */
public final class TrendTests {
  private static final int MOST_ORDERED = 5000;
  private static final int ORDERS = 1999;

  private TrendTests() {}

  /**
   * Laplace's test.
   *
   * @param z above 0: more frequent with age
   * @param pValue two-sided
   * @param events events that count
   */
  public record Laplace(double z, double pValue, int events) {}

  /**
   * Laplace's test: how far events lie behind the middle of their windows.
   *
   * <pre>  z = sum (t - (from + to)/2) / sqrt(sum (to - from)²/12)  over the events that count
   * </pre>
   *
   * <p>Source: D. R. Cox, P. A. W. Lewis, The Statistical Analysis of Series of Events, 1966,
   * chapter 3 (from memory).
   */
  public static Laplace laplace(EventData data) {
    double sum = 0;
    double variance = 0;
    int n = 0;
    for (int e = 0; e < data.events(); e++) {
      int w = data.eventWindow(e);
      if (counts(data, e)) {
        double length = data.toH(w) - data.fromH(w);
        sum += data.atH(e) - 0.5 * (data.fromH(w) + data.toH(w));
        variance += length * length / 12;
        n++;
      }
    }
    double z = sum / Math.sqrt(variance);
    return new Laplace(z, Tails.twoSided(z), n);
  }

  /**
   * The military handbook's test, strongest against a power law.
   *
   * <pre>  2 sum -ln u ~ chi2 with 2 degrees of freedom an event  </pre>
   *
   * <p>Small: more frequent with age. Source: MIL-HDBK-189, 1981 (from memory).
   *
   * @return the chi-square, two-sided
   */
  public static SignificanceTest militaryHandbook(EventData data) {
    double sum = 0;
    int n = 0;
    for (int e = 0; e < data.events(); e++) {
      int w = data.eventWindow(e);
      if (counts(data, e)) {
        sum -= Math.log((data.atH(e) - data.fromH(w)) / (data.toH(w) - data.fromH(w)));
        n++;
      }
    }
    double x = 2 * sum;
    double p =
        n == 0
            ? Double.NaN
            : 2 * Math.min(Tails.chiSquareLower(x, 2.0 * n), Tails.chiSquareUpper(x, 2.0 * n));
    return new SignificanceTest(x, 2 * n, Math.min(1, p));
  }

  /**
   * Laplace's test that allows for machines whose events are no chance: they cluster, or come at
   * other rates in other machines.
   *
   * <pre>  z = sum u_i / sqrt(sum u_i²),  u_i = sum over events of machine i of t - (from + to)/2
   * </pre>
   *
   * <p>Needs some ten machines. Source: J. F. Lawless, C. Çığşar, R. J. Cook, Lifetime Data
   * Analysis 18 (2012) 158-179 (from memory; agrees with the value that J. T. Kvaløy, B. H.
   * Lindqvist, Technometrics 62 (2020) 101-115, table 4, print for six loaders).
   */
  public static Laplace generalisedLaplace(EventData data) {
    double[] u = new double[data.machines().size()];
    int n = 0;
    for (int e = 0; e < data.events(); e++) {
      int w = data.eventWindow(e);
      if (counts(data, e)) {
        u[data.eventMachine(e)] += data.atH(e) - 0.5 * (data.fromH(w) + data.toH(w));
        n++;
      }
    }
    double sum = 0;
    double squares = 0;
    for (double v : u) {
      sum += v;
      squares += v * v;
    }
    double z = sum / Math.sqrt(squares);
    return new Laplace(z, Tails.twoSided(z), n);
  }

  /**
   * Lewis' and Robinson's test for one window: Laplace's over the coefficient of variation of the
   * hours between events, so that events that cluster or keep apart do not pass for a trend.
   *
   * <p>Source: P. A. W. Lewis, D. W. Robinson, in Reliability and Biometry, SIAM 1974, 167-182
   * (from memory; agrees with the value that Kvaløy and Lindqvist 2020 print for one loader).
   *
   * @throws IllegalArgumentException if there is more than one window or there are fewer than three
   *     events
   */
  public static Laplace lewisRobinson(EventData data) {
    if (data.windows() != 1 || data.events() < 3) {
      throw new IllegalArgumentException("needs one window with three events");
    }
    double[] at = data.times().clone();
    Arrays.sort(at);
    // What lay before a late begin is not known, so the first gap is whole only from 0 h.
    int first = data.fromH(0) == 0 ? 0 : 1;
    double sum = 0;
    double squares = 0;
    int n = at.length - first;
    for (int i = first; i < at.length; i++) {
      double gap = at[i] - (i == 0 ? 0 : at[i - 1]);
      sum += gap;
      squares += gap * gap;
    }
    double mean = sum / n;
    double variance = (squares - n * mean * mean) / (n - 1);
    Laplace plain = laplace(data);
    double z = plain.z() / (Math.sqrt(variance) / mean);
    return new Laplace(z, Tails.twoSided(z), plain.events());
  }

  /**
   * Whether hours between events get shorter with age, several machines combined, each of which is
   * renewed at every event in its own way: at its own rate, with gaps that cluster or keep apart.
   *
   * <pre>
   *   w_i = sum over its n gaps x_1, x_2, … of ((n + 1)/2 - j) x_j/s_i,  s_i their deviation
   *   z = sum w_i / sqrt(sum n (n² - 1)/12)
   * </pre>
   *
   * <p>If there is no trend, the whole gaps of a window may stand in any order, whatever their law
   * and however long the window. So the p-value is the share of orders, drawn anew within each
   * window, that give as great a sum; it holds exactly for any number of machines. Above {@value
   * #MOST_ORDERED} gaps the normal law is as good. The sum is Laplace's over the gaps' own spread,
   * as P. A. W. Lewis and D. W. Robinson have it for one machine; own derivation.
   *
   * @param seed seed of the orders
   * @return z above 0: more frequent with age; not a number without two unlike gaps in any window
   */
  public static Laplace gapOrder(EventData data, long seed) {
    List<double[]> gaps = gaps(data);
    double sum = 0;
    double variance = 0;
    int n = 0;
    for (double[] x : gaps) {
      sum += order(x);
      // Of ranks and gaps both at random: sum of squared ranks times the gaps' variance, 1.
      variance += x.length * (x.length * (double) x.length - 1) / 12;
      n += x.length;
    }
    double z = sum / Math.sqrt(variance);
    if (n > MOST_ORDERED || Double.isNaN(z)) {
      return new Laplace(z, Tails.twoSided(z), n);
    }
    double seen = Math.abs(sum) * (1 - 1e-12);
    SplittableRandom random = new SplittableRandom(seed);
    int great = 1;
    for (int draw = 0; draw < ORDERS; draw++) {
      double drawn = 0;
      for (double[] x : gaps) {
        for (int i = x.length - 1; i > 0; i--) {
          int j = random.nextInt(i + 1);
          double swapped = x[i];
          x[i] = x[j];
          x[j] = swapped;
        }
        drawn += order(x);
      }
      great += Math.abs(drawn) >= seen ? 1 : 0;
    }
    return new Laplace(z, great / (ORDERS + 1.0), n);
  }

  private static double order(double[] gaps) {
    double sum = 0;
    for (int j = 0; j < gaps.length; j++) {
      sum += (0.5 * (gaps.length - 1) - j) * gaps[j];
    }
    return sum;
  }

  /** Returns the whole gaps of each window over their standard deviation, where they differ. */
  private static List<double[]> gaps(EventData data) {
    List<List<Double>> at = new ArrayList<>();
    for (int w = 0; w < data.windows(); w++) {
      // What lay before a late begin is not known, so the first gap is whole only from 0 h.
      at.add(new ArrayList<>(data.fromH(w) == 0 ? List.of(0.0) : List.of()));
    }
    for (int e = 0; e < data.events(); e++) {
      at.get(data.eventWindow(e)).add(data.atH(e));
    }
    List<double[]> gaps = new ArrayList<>();
    for (List<Double> times : at) {
      times.sort(null);
      double[] x = new double[Math.max(0, times.size() - 1)];
      Arrays.setAll(x, j -> times.get(j + 1) - times.get(j));
      double deviation = Math.sqrt(StatUtils.variance(x));
      if (x.length > 1 && deviation > 0) {
        gaps.add(Arrays.stream(x).map(v -> v / deviation).toArray());
      }
    }
    return gaps;
  }

  static boolean counts(EventData data, int event) {
    int w = data.eventWindow(event);
    return data.atH(event) < data.toH(w);
  }
}
