package siltwright.fleet;

import java.io.Serializable;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.Collections;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import org.apache.commons.math3.linear.Array2DRowRealMatrix;
import org.apache.commons.math3.linear.SingularValueDecomposition;
import siltwright.life.Interval;
import siltwright.life.SignificanceTest;

/**
 * Groups of machines compared by events that are never all in one place. A part holds whole
 * machines. First each part gives a {@link Look}: sums, and how many machines enter, leave and have
 * events at each hour of a grid. Together these are the risk sets; with them each part gives its
 * machines' {@link Spread}.
 *
 * <pre>
 *   rate = K/H;   its variance by machines = n/(n - 1) sum of (k_i - rate H_i)²/H²
 *               = n/(n - 1) [sum k² - 2 rate sum k H + rate² sum H²]/H²
 *   dispersion = [sum of k_i²/(rate H_i) - K]/(n - 1)     (Pearson's chi-square of {@link PoissonRates#alike})
 *   mean by an age and its robust variance as {@link MeanCumulative}, with D(t) = sum of d/r²:
 *     bracket of a machine = sum of 1/r over its events - [D(to) - D(from)] over its windows
 *   all alike: the robust score test of {@link RateModel#compare}
 * </pre>
 *
 * <p>On hours that are multiples of the grid these are the numbers of the classes named, but for
 * rounding; others are rounded to it. Sums are taken in the order in which parts are added.
 */
public final class EventsInParts {
  private static final int LONGEST = 1 << 22;

  private final double gridH;
  private final List<String> groups = new ArrayList<>();
  private final Map<String, Sums> sums = new HashMap<>();
  private final Map<String, double[][]> counts = new HashMap<>();
  private Tables tables;
  private double[] squares;
  private double[][] outer;

  /**
   * Sums over the machines of a group.
   *
   * @param machines machines, n
   * @param events events, K
   * @param hoursH hours watched, H
   * @param marks sum of the marks
   * @param squares sum of k²
   * @param products sum of k H
   * @param hoursSquared sum of H²
   * @param overHours sum of k²/H
   */
  public record Sums(
      double machines,
      double events,
      double hoursH,
      double marks,
      double squares,
      double products,
      double hoursSquared,
      double overHours)
      implements Serializable {
    private Sums plus(Sums o) {
      return new Sums(
          machines + o.machines,
          events + o.events,
          hoursH + o.hoursH,
          marks + o.marks,
          squares + o.squares,
          products + o.products,
          hoursSquared + o.hoursSquared,
          overHours + o.overHours);
    }

    /** Returns events per hour. */
    public double ratePerH() {
      return events / hoursH;
    }

    /** Returns the variance of the rate with the machine as what varies. */
    public double rateVariance() {
      double r = ratePerH();
      double rest = squares - 2 * r * products + r * r * hoursSquared;
      return machines / (machines - 1) * Math.max(0, rest) / (hoursH * hoursH);
    }

    /** Returns how much more machines vary than chance lets them. */
    public double dispersion() {
      return events == 0 ? Double.NaN : (overHours / ratePerH() - events) / (machines - 1);
    }
  }

  /**
   * What a part says of a group first.
   *
   * @param group the group
   * @param sums of its machines
   * @param counts machines that begin, machines that end, events: at each place of the grid from 0
   */
  public record Look(String group, Sums sums, double[][] counts) implements Serializable {}

  /**
   * The risk sets of all parts, for each group: over the grid, risk and events summed as they are
   * needed.
   *
   * @param gridH the grid, h
   * @param groups the groups
   * @param risk machines at risk by group and place
   * @param drift D by group and place
   * @param shareRisk share of the group in those at risk, by group and place
   * @param hazard sum of d/r of all groups together
   * @param shareHazard sum of share times d/r, by group and place
   * @param at place of the age at which means are compared
   */
  public record Tables(
      double gridH,
      List<String> groups,
      double[][] risk,
      double[][] drift,
      double[][] shareRisk,
      double[] hazard,
      double[][] shareHazard,
      int at)
      implements Serializable {}

  /**
   * What the machines of a part add to variances.
   *
   * @param squares sum of squared brackets, by group
   * @param outer sum of u u', by group and group
   */
  public record Spread(double[] squares, double[][] outer) implements Serializable {}

  /**
   * Prepares a comparison.
   *
   * @param gridH the grid, h, above 0
   */
  public EventsInParts(double gridH) {
    this.gridH = gridH;
  }

  private static int place(double hoursH, double gridH) {
    long place = Math.round(hoursH / gridH);
    if (place > LONGEST) {
      throw new IllegalArgumentException(
          hoursH + " h are more than " + LONGEST + " times the grid of " + gridH + " h");
    }
    return (int) place;
  }

  private static int begin(EventData data, int window, double gridH) {
    return place(data.fromH(window), gridH);
  }

  private static int end(EventData data, int window, double gridH) {
    return Math.max(begin(data, window, gridH) + 1, place(data.toH(window), gridH));
  }

  private static int event(EventData data, int event, double gridH) {
    int w = data.eventWindow(event);
    return Math.max(
        begin(data, w, gridH) + 1, Math.min(end(data, w, gridH), place(data.atH(event), gridH)));
  }

  /**
   * Looks at a group's machines in a part.
   *
   * @param data all windows and events of these machines
   */
  public static Look look(String group, EventData data, double gridH) {
    double[] k = data.countByMachine();
    double[] h = data.hoursByMachine();
    double[] marks = data.markByMachine();
    Sums all = new Sums(0, 0, 0, 0, 0, 0, 0, 0);
    for (int m = 0; m < k.length; m++) {
      all =
          all.plus(
              new Sums(
                  1,
                  k[m],
                  h[m],
                  marks[m],
                  k[m] * k[m],
                  k[m] * h[m],
                  h[m] * h[m],
                  k[m] * k[m] / h[m]));
    }
    int last = 0;
    for (int w = 0; w < data.windows(); w++) {
      last = Math.max(last, end(data, w, gridH));
    }
    double[][] counts = new double[3][last + 1];
    for (int w = 0; w < data.windows(); w++) {
      counts[0][begin(data, w, gridH)]++;
      counts[1][end(data, w, gridH)]++;
    }
    for (int e = 0; e < data.events(); e++) {
      counts[2][event(data, e, gridH)]++;
    }
    return new Look(group, all, counts);
  }

  /** Adds what a part says first. */
  public void add(Look look) {
    sums.merge(look.group(), look.sums(), Sums::plus);
    counts.merge(
        look.group(),
        look.counts(),
        (a, b) -> {
          double[][] sum = new double[3][Math.max(a[0].length, b[0].length)];
          for (int j = 0; j < sum.length; j++) {
            System.arraycopy(a[j], 0, sum[j], 0, a[j].length);
            for (int i = 0; i < b[j].length; i++) {
              sum[j][i] += b[j][i];
            }
          }
          return sum;
        });
  }

  /**
   * Returns the risk sets, once all parts have been added.
   *
   * @param wantedAtH age at which means are compared, h; not a number for the greatest at which
   *     each group has a fifth of its machines at risk, at least five
   */
  public Tables tables(double wantedAtH) {
    groups.addAll(sums.keySet());
    Collections.sort(groups);
    int g = groups.size();
    int n = 1;
    for (double[][] c : counts.values()) {
      n = Math.max(n, c[0].length);
    }
    double[][] risk = new double[g][n];
    double[][] events = new double[g][];
    double[][] drift = new double[g][n];
    double[][] share = new double[g][n];
    double[][] shareHazard = new double[g][n];
    double[] hazard = new double[n];
    int at = n - 1;
    for (int k = 0; k < g; k++) {
      double[][] c = counts.get(groups.get(k));
      events[k] = Arrays.copyOf(c[2], n);
      int enough = 0;
      double now = 0;
      for (int s = 1; s < n; s++) {
        now += s <= c[0].length ? c[0][s - 1] : 0;
        now -= s <= c[1].length ? c[1][s - 1] : 0;
        risk[k][s] = now;
        drift[k][s] = drift[k][s - 1] + (events[k][s] == 0 ? 0 : events[k][s] / (now * now));
        if (now >= Math.max(5, sums.get(groups.get(k)).machines() / 5)) {
          enough = s;
        }
      }
      at = Math.min(at, enough);
    }
    for (int s = 1; s < n; s++) {
      double r = 0;
      double d = 0;
      for (int k = 0; k < g; k++) {
        r += risk[k][s];
        d += events[k][s];
      }
      double more = d == 0 ? 0 : d / r;
      hazard[s] = hazard[s - 1] + more;
      for (int k = 0; k < g; k++) {
        share[k][s] = r == 0 ? 0 : risk[k][s] / r;
        shareHazard[k][s] = shareHazard[k][s - 1] + share[k][s] * more;
      }
    }
    if (!Double.isNaN(wantedAtH)) {
      at = Math.min(n - 1, place(wantedAtH, gridH));
    }
    tables = new Tables(gridH, List.copyOf(groups), risk, drift, share, hazard, shareHazard, at);
    squares = new double[g];
    outer = new double[g][g];
    return tables;
  }

  /**
   * Returns what a group's machines in a part add to variances.
   *
   * @param data as {@link #look} had it
   */
  public static Spread spread(String group, EventData data, Tables tables) {
    int g = tables.groups().size();
    int own = tables.groups().indexOf(group);
    int machines = data.machines().size();
    double[] bracket = new double[machines];
    double[][] u = new double[machines][g];
    double[] drift = tables.drift()[own];
    for (int w = 0; w < data.windows(); w++) {
      int m = data.windowMachine(w);
      int from = begin(data, w, tables.gridH());
      int to = end(data, w, tables.gridH());
      bracket[m] -= drift[Math.min(tables.at(), to)] - drift[Math.min(tables.at(), from)];
      u[m][own] -= tables.hazard()[to] - tables.hazard()[from];
      for (int k = 0; k < g; k++) {
        u[m][k] += tables.shareHazard()[k][to] - tables.shareHazard()[k][from];
      }
    }
    for (int e = 0; e < data.events(); e++) {
      int m = data.eventMachine(e);
      int s = event(data, e, tables.gridH());
      bracket[m] += s <= tables.at() ? 1 / tables.risk()[own][s] : 0;
      u[m][own]++;
      for (int k = 0; k < g; k++) {
        u[m][k] -= tables.shareRisk()[k][s];
      }
    }
    double[] squares = new double[g];
    double[][] outer = new double[g][g];
    for (double b : bracket) {
      squares[own] += b * b;
    }
    RateModel.addOuter(outer, u);
    return new Spread(squares, outer);
  }

  /** Adds what the machines of a part add to variances. */
  public void add(Spread spread) {
    for (int k = 0; k < squares.length; k++) {
      squares[k] += spread.squares()[k];
      for (int j = 0; j < squares.length; j++) {
        outer[k][j] += spread.outer()[k][j];
      }
    }
  }

  /** Returns the groups, sorted. */
  public List<String> groups() {
    return List.copyOf(groups);
  }

  /** Returns the sums of a group. */
  public Sums sums(String group) {
    return sums.get(group);
  }

  /** Returns the age at which means are compared, h. */
  public double atH() {
    return tables.at() * gridH;
  }

  /** Returns the mean number of events by that age. */
  public double mean(String group) {
    int k = groups.indexOf(group);
    double[] events = counts.get(group)[2];
    double mean = 0;
    for (int s = 1; s <= Math.min(tables.at(), events.length - 1); s++) {
      mean += events[s] == 0 ? 0 : events[s] / tables.risk()[k][s];
    }
    return mean;
  }

  /** Returns its robust variance. */
  public double meanVariance(String group) {
    return squares[groups.indexOf(group)];
  }

  /**
   * A ratio of rates.
   *
   * @param ratio first over second
   * @param interval with the machine as what varies, symmetric in its logarithm
   * @param pValue two-sided, against a ratio of 1
   * @param byChance what would hold if events came by chance alone
   */
  public record Ratio(
      double ratio, Interval interval, double pValue, PoissonRates.Ratio byChance) {}

  /** Compares the rates of two groups. */
  public Ratio ratio(String first, String second, double confidence) {
    Sums a = sums.get(first);
    Sums b = sums.get(second);
    double ratio = a.ratePerH() / b.ratePerH();
    double error =
        Math.sqrt(
            a.rateVariance() / (a.ratePerH() * a.ratePerH())
                + b.rateVariance() / (b.ratePerH() * b.ratePerH()));
    double factor = Math.exp(Tails.normalQuantile(confidence) * error);
    return new Ratio(
        ratio,
        new Interval(ratio / factor, ratio * factor),
        Tails.twoSided(Math.log(ratio) / error),
        PoissonRates.ratio(
            Math.round(a.events()), a.hoursH(), Math.round(b.events()), b.hoursH(), confidence));
  }

  /** Tests whether all groups have events equally often, age allowed for. */
  public SignificanceTest alike() {
    int p = groups.size() - 1;
    double[] score = new double[p];
    double[][] v = new double[p][p];
    for (int k = 0; k < p; k++) {
      double all = tables.shareHazard()[k + 1].length - 1;
      double expected = 0;
      for (int s = 1; s <= all; s++) {
        double d = 0;
        for (String group : groups) {
          double[] events = counts.get(group)[2];
          d += s < events.length ? events[s] : 0;
        }
        expected += tables.shareRisk()[k + 1][s] * d;
      }
      score[k] = sums.get(groups.get(k + 1)).events() - expected;
      for (int j = 0; j < p; j++) {
        v[k][j] = outer[k + 1][j + 1];
      }
    }
    SingularValueDecomposition svd = new SingularValueDecomposition(new Array2DRowRealMatrix(v));
    double[] solved = svd.getSolver().solve(new Array2DRowRealMatrix(score)).getColumn(0);
    double chiSquare = 0;
    for (int k = 0; k < p; k++) {
      chiSquare += score[k] * solved[k];
    }
    return Tails.test(chiSquare, svd.getRank());
  }
}
