package siltwright.plan;

import java.util.Arrays;
import java.util.List;
import java.util.stream.IntStream;
import siltwright.analysis.Progress;

/**
 * A cost that no plan undercuts.
 *
 * <pre>
 *   trips to site s on day d ≥ x_id for each machine i of it, and ≥ Σ_i x_id w_i/W_s
 *   bound = Σ_i min over chains of i (excess + Σ_d u_id),
 *   u_id = α_id + γ_id + (β_sd + δ_ad) w_i/W_s,
 *   Σ_i α_id + β_sd ≤ K_s,   Σ_i γ_id + δ_ad ≤ K_a,   all ≥ 0
 * </pre>
 *
 * <p>x_id whether i is changed on d, w_i its work and W_s what a technician can do at s in a day, K
 * the price of a trip on the site's own and on the area's shared stretch. W_s is the day less all
 * driving, so Σ x_id w_i/W_s bounds the trips to the area too. Overtime, at least 0, is left out.
 * Any such α, β, γ, δ give a bound; subgradient steps raise it.
 */
final class LowerBound {
  private static final double STEP = 1.0;

  /** A hair less is shared out, so that rounding never makes it more than the trip costs. */
  private static final double ROUNDING = 1e-5;

  private final List<Task> tasks;
  private final Network network;
  private final int days;
  private final float[][] site;
  private final float[][] area;
  private final float[][] siteWork;
  private final float[][] areaWork;
  private final int[][] chains;
  private final double[] least;
  private final int[][] siteMembers;
  private final int[][] areaMembers;

  LowerBound(List<Task> tasks, Network network, int days) {
    this.tasks = tasks;
    this.network = network;
    this.days = days;
    int n = tasks.size();
    site = new float[n][days];
    area = new float[n][days];
    siteWork = new float[network.sites().size()][days];
    areaWork = new float[network.areas().size()][days];
    chains = new int[n][];
    least = new double[n];
    siteMembers = new int[network.sites().size()][];
    areaMembers = new int[network.areas().size()][];
    for (int s = 0; s < siteMembers.length; s++) {
      int at = s;
      siteMembers[s] = IntStream.range(0, n).filter(i -> tasks.get(i).site() == at).toArray();
    }
    for (int a = 0; a < areaMembers.length; a++) {
      int at = a;
      areaMembers[a] =
          IntStream.range(0, n)
              .filter(i -> network.sites().get(tasks.get(i).site()).area() == at)
              .toArray();
    }
  }

  /**
   * Returns the best bound found.
   *
   * @param rounds rounds of ascent
   * @param planMoney cost of a plan, towards which the steps are measured
   * @param progress told how far it is
   */
  double money(int rounds, double planMoney, Progress progress) {
    begin();
    double best = 0;
    double step = STEP;
    int idle = 0;
    for (int r = 0; r < rounds; r++) {
      progress.check(0.6 + 0.35 * r / rounds, "bound");
      IntStream.range(0, tasks.size()).parallel().forEach(this::solve);
      double bound = Arrays.stream(least).sum();
      if (bound > best) {
        best = bound;
        idle = 0;
      } else if (++idle == 3) {
        step /= 2;
        idle = 0;
      }
      ascend(step * Math.max(planMoney - bound, 1e-3 * planMoney));
    }
    return best;
  }

  /**
   * Shares each trip out: by work where those of a place fill more than a day of work, else evenly.
   */
  private void begin() {
    for (int s = 0; s < siteMembers.length; s++) {
      share(site, siteWork[s], siteMembers[s], network.siteMoney(s));
    }
    for (int a = 0; a < areaMembers.length; a++) {
      share(area, areaWork[a], areaMembers[a], network.areaMoney(a));
    }
  }

  private void share(float[][] to, float[] byWork, int[] members, double money) {
    double whole = money * (1 - ROUNDING);
    if (Arrays.stream(members).mapToDouble(this::part).sum() > 1) {
      Arrays.fill(byWork, (float) whole);
    } else {
      for (int i : members) {
        Arrays.fill(to[i], (float) (whole / members.length));
      }
    }
  }

  private void solve(int i) {
    Task task = tasks.get(i);
    double[] price = new double[days];
    double part = part(i);
    float[] bySite = siteWork[task.site()];
    float[] byArea = areaWork[network.sites().get(task.site()).area()];
    for (int d = 0; d < days; d++) {
      price[d] = site[i][d] + area[i][d] + part * (bySite[d] + byArea[d]);
    }
    int[] chain = new int[days + 1];
    least[i] = task.cheapest(-1, Task.END, price, new double[days], new int[days], chain);
    chains[i] = chain;
  }

  /** w_i/W_s. */
  private double part(int i) {
    return (double) tasks.get(i).workMin() / network.workMin(tasks.get(i).site());
  }

  private void ascend(double lack) {
    boolean[][] x = new boolean[tasks.size()][days];
    for (int i = 0; i < x.length; i++) {
      for (int n = 0; chains[i][n] != Task.END; n++) {
        x[i][chains[i][n]] = true;
      }
    }
    double norm = 0;
    for (int s = 0; s < siteMembers.length; s++) {
      norm += slope(siteMembers[s], x, network.siteMoney(s));
    }
    for (int a = 0; a < areaMembers.length; a++) {
      norm += slope(areaMembers[a], x, network.areaMoney(a));
    }
    if (norm == 0) {
      return;
    }
    double step = lack / norm;
    IntStream.range(0, siteMembers.length)
        .parallel()
        .forEach(s -> raise(site, siteMembers[s], x, network.siteMoney(s), step, siteWork[s]));
    IntStream.range(0, areaMembers.length)
        .parallel()
        .forEach(a -> raise(area, areaMembers[a], x, network.areaMoney(a), step, areaWork[a]));
  }

  /** Square of the slope in the directions that the simplex leaves free. */
  private double slope(int[] members, boolean[][] x, double money) {
    if (money <= 0) {
      return 0;
    }
    double norm = 0;
    for (int d = 0; d < days; d++) {
      int count = 0;
      double byWork = 0;
      for (int i : members) {
        if (x[i][d]) {
          count++;
          byWork += part(i);
        }
      }
      double sum = count + byWork;
      norm += count + byWork * byWork - sum * sum / (members.length + 1);
    }
    return Math.max(0, norm);
  }

  private void raise(
      float[][] to, int[] members, boolean[][] x, double money, double step, float[] byWork) {
    if (money <= 0) {
      return;
    }
    int last = members.length;
    double[] u = new double[last + 1];
    double[] sorted = new double[last + 1];
    for (int d = 0; d < days; d++) {
      double sum = 0;
      boolean any = false;
      for (int m = 0; m < last; m++) {
        int i = members[m];
        u[m] = to[i][d];
        if (x[i][d]) {
          u[m] += step;
          sum += part(i);
          any = true;
        }
      }
      if (any) {
        u[last] = byWork[d] + step * sum;
        project(u, sorted, money);
        for (int m = 0; m < last; m++) {
          to[members[m]][d] = (float) u[m];
        }
        byWork[d] = (float) u[last];
      }
    }
  }

  /** Nearest point with no negative part whose sum is at most a whole. */
  static void project(double[] u, double[] sorted, double whole) {
    double limit = whole * (1 - ROUNDING);
    double sum = 0;
    for (double v : u) {
      sum += Math.max(0, v);
    }
    double shift = 0;
    if (sum > limit) {
      System.arraycopy(u, 0, sorted, 0, u.length);
      Arrays.sort(sorted);
      double above = 0;
      for (int n = 1; n <= u.length; n++) {
        above += sorted[u.length - n];
        shift = (above - limit) / n;
        if (n == u.length || sorted[u.length - n - 1] <= shift) {
          break;
        }
      }
    }
    for (int i = 0; i < u.length; i++) {
      u[i] = Math.max(0, u[i] - shift);
    }
  }
}
