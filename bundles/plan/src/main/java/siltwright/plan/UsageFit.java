package siltwright.plan;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import java.util.function.Function;
import org.apache.commons.math3.distribution.FDistribution;

/**
 * Estimates the use of each machine of a fleet from the steps of its hour meter.
 *
 * <pre>
 *   step j of machine i:  h_ij ~ mean r_i S_ij, variance φ r_i S_ij,   S_ij = ∫ s over its days
 *   own mean:             r_i = Σ_j h_ij / Σ_j S_ij,   v_i = φ r_c/Σ_j S_ij
 *   dispersion of class:  φ = Σ_i Σ_j (h_ij − r_i S_ij)²/(r_i S_ij) / Σ_i (n_i − 1)
 *   spread in the class:  τ² = max(0, (Q − (k − 1))/(Σ w − Σ w²/Σ w)),  w_i = 1/v_i,
 *                         Q = Σ w_i (r_i − r_w)²,  r_w = Σ w r/Σ w
 *   shrunk:               (τ² r_i + v_i r_c)/(τ² + v_i),  variance τ² v_i/(τ² + v_i)
 * </pre>
 *
 * <p>So a machine with few readings is taken to be much like its class, and one with many is
 * itself. The season is common to a site, and to the whole fleet where a site has too few readings;
 * an F test at 1 % must find it.
 *
 * <p>Sources: spread by moments as in DerSimonian and Laird, Controlled Clinical Trials 7 (1986)
 * 177; shrinkage as in Morris, J. Am. Stat. Assoc. 78 (1983) 47. Season: own derivation in
 * docs/plan.md.
 */
public final class UsageFit {
  private static final double LEAST_SPAN_DAYS = 300;
  private static final int LEAST_STEPS = 24;
  private static final double LARGEST_AMPLITUDE = 0.9;
  private static final double SEASON_LEVEL = 0.01;

  /** Steps needed for a dispersion of a class's own. */
  private static final int LEAST_FREEDOM = 8;

  /** Where nothing can be learned: the hours of a day scatter as a share of itself. */
  private static final double POOR_RELATIVE = 0.3;

  private static final double POOR_DISPERSION_H = 4;

  private UsageFit() {}

  /**
   * A machine and the steps of its meter.
   *
   * @param id its id
   * @param machineClass its class
   * @param site its site
   * @param steps steps of its meter; none where there are no readings
   */
  public record Source(String id, String machineClass, String site, List<MeterLog.Step> steps) {
    public Source {
      steps = List.copyOf(steps);
    }
  }

  /**
   * Mean and spread of a group of estimates.
   *
   * @param mean mean, weighted by what is known
   * @param spread2 variance between the members, τ²
   * @param meanVariance variance of the mean
   */
  record Group(double mean, double spread2, double meanVariance) {}

  /**
   * Estimates.
   *
   * @param machines the machines
   * @param standardPerDayH hours a day where neither machine nor fleet has readings
   * @return use by id
   */
  public static Map<String, Usage> of(List<Source> machines, double standardPerDayH) {
    Map<String, Season> seasons = seasons(machines);
    Map<String, Double> dispersion = dispersion(machines, seasons);
    Map<String, Group> groups = new HashMap<>();
    Group fleet = group(machines, seasons, dispersion, standardPerDayH);
    by(machines, Source::machineClass)
        .forEach(
            (c, members) ->
                groups.put(
                    c,
                    members.stream().anyMatch(m -> meanDays(m, seasons) > 0)
                        ? group(members, seasons, dispersion, standardPerDayH)
                        : fleet));
    Map<String, Usage> usage = new HashMap<>();
    for (Source m : machines) {
      Group g = groups.get(m.machineClass());
      double phi = dispersion.get(m.machineClass());
      double days = meanDays(m, seasons);
      // A class of one has no spread of its own to learn: take the fleet's, relative.
      double spread2 = Math.max(g.spread2(), 1e-4 * g.mean() * g.mean());
      double mean;
      double variance;
      double own;
      if (days == 0) {
        mean = g.mean();
        variance = spread2 + g.meanVariance();
        own = 0;
      } else {
        double v = phi * g.mean() / days;
        own = spread2 / (spread2 + v);
        mean = own * hours(m) / days + (1 - own) * g.mean();
        variance = own * v + (1 - own) * (1 - own) * g.meanVariance();
      }
      usage.put(
          m.id(),
          new Usage(Math.max(mean, 1e-3), Math.sqrt(variance), phi, seasons.get(m.site()), own));
    }
    return usage;
  }

  private static <K> Map<K, List<Source>> by(List<Source> machines, Function<Source, K> key) {
    Map<K, List<Source>> parts = new TreeMap<>();
    machines.forEach(m -> parts.computeIfAbsent(key.apply(m), k -> new ArrayList<>()).add(m));
    return parts;
  }

  private static double hours(Source m) {
    return m.steps().stream().mapToDouble(MeterLog.Step::hours).sum();
  }

  private static double meanDays(Source m, Map<String, Season> seasons) {
    Season s = seasons.get(m.site());
    return m.steps().stream().mapToDouble(p -> s.meanDays(p.fromDay(), p.toDay())).sum();
  }

  private static Map<String, Double> dispersion(
      List<Source> machines, Map<String, Season> seasons) {
    double[] all = squares(machines, seasons);
    double fleet = all[1] >= 1 ? all[0] / all[1] : POOR_DISPERSION_H;
    Map<String, Double> dispersion = new HashMap<>();
    by(machines, Source::machineClass)
        .forEach(
            (c, members) -> {
              double[] own = squares(members, seasons);
              double phi = own[1] >= LEAST_FREEDOM ? own[0] / own[1] : fleet;
              dispersion.put(c, Math.max(phi, 1e-3));
            });
    return dispersion;
  }

  /** Squares of the steps about their machine's mean, over what is expected, and their freedom. */
  private static double[] squares(List<Source> machines, Map<String, Season> seasons) {
    double sum = 0;
    double freedom = 0;
    for (Source m : machines) {
      Season s = seasons.get(m.site());
      double mean = hours(m) / meanDays(m, seasons);
      if (m.steps().size() < 2 || !(mean > 0)) {
        continue;
      }
      for (MeterLog.Step p : m.steps()) {
        double expected = mean * s.meanDays(p.fromDay(), p.toDay());
        sum += (p.hours() - expected) * (p.hours() - expected) / expected;
      }
      freedom += m.steps().size() - 1;
    }
    return new double[] {sum, freedom};
  }

  private static Group group(
      List<Source> members,
      Map<String, Season> seasons,
      Map<String, Double> dispersion,
      double standardPerDayH) {
    List<Source> known = members.stream().filter(m -> meanDays(m, seasons) > 0).toList();
    if (known.isEmpty()) {
      double sd = POOR_RELATIVE * standardPerDayH;
      return new Group(standardPerDayH, sd * sd, 0);
    }
    double[] r = known.stream().mapToDouble(m -> hours(m) / meanDays(m, seasons)).toArray();
    double pooled =
        known.stream().mapToDouble(UsageFit::hours).sum()
            / known.stream().mapToDouble(m -> meanDays(m, seasons)).sum();
    double[] v =
        known.stream()
            .mapToDouble(
                m ->
                    Math.max(1e-12, dispersion.get(m.machineClass()) * pooled)
                        / meanDays(m, seasons))
            .toArray();
    Group g = group(r, v);
    if (r.length == 1) {
      double sd = POOR_RELATIVE * g.mean();
      return new Group(g.mean(), sd * sd, g.meanVariance());
    }
    return g;
  }

  /**
   * Mean and spread of estimates.
   *
   * @param r the estimates
   * @param v their variances
   */
  static Group group(double[] r, double[] v) {
    double w = 0;
    double wr = 0;
    double w2 = 0;
    for (int i = 0; i < r.length; i++) {
      w += 1 / v[i];
      wr += r[i] / v[i];
      w2 += 1 / (v[i] * v[i]);
    }
    double mean = wr / w;
    double q = 0;
    for (int i = 0; i < r.length; i++) {
      q += (r[i] - mean) * (r[i] - mean) / v[i];
    }
    double spread2 = r.length < 2 ? 0 : Math.max(0, (q - (r.length - 1)) / (w - w2 / w));
    double sum = 0;
    double weighted = 0;
    for (int i = 0; i < r.length; i++) {
      sum += 1 / (v[i] + spread2);
      weighted += r[i] / (v[i] + spread2);
    }
    return new Group(weighted / sum, spread2, 1 / sum);
  }

  private static Map<String, Season> seasons(List<Source> machines) {
    Season fleet = season(machines);
    Map<String, Season> seasons = new HashMap<>();
    by(machines, Source::site)
        .forEach((site, members) -> seasons.put(site, enough(members) ? season(members) : fleet));
    return seasons;
  }

  private static boolean enough(List<Source> machines) {
    long from = Long.MAX_VALUE;
    long to = Long.MIN_VALUE;
    int steps = 0;
    for (Source m : machines) {
      for (MeterLog.Step p : m.steps()) {
        from = Math.min(from, p.fromDay());
        to = Math.max(to, p.toDay());
        steps++;
      }
    }
    return steps >= LEAST_STEPS && to - from >= LEAST_SPAN_DAYS;
  }

  /** Weighted least squares of what the steps lack to their machine's mean. */
  private static Season season(List<Source> machines) {
    if (!enough(machines)) {
      return Season.NONE;
    }
    Season season = Season.NONE;
    double without = Double.NaN;
    double with = Double.NaN;
    int steps = 0;
    int means = 0;
    // A machine's mean depends on the season that its readings cover, so both are found by turns.
    for (int round = 0; round < 8; round++) {
      double cc = 0;
      double ss = 0;
      double cs = 0;
      double yc = 0;
      double ys = 0;
      double yy = 0;
      double rest = 0;
      steps = 0;
      means = 0;
      for (Source m : machines) {
        double days = 0;
        for (MeterLog.Step p : m.steps()) {
          days += season.meanDays(p.fromDay(), p.toDay());
        }
        double r = days > 0 ? hours(m) / days : 0;
        if (!(r > 0)) {
          continue;
        }
        means++;
        for (MeterLog.Step p : m.steps()) {
          double length = p.toDay() - p.fromDay();
          double c = r * Season.waveOfCosine(p.fromDay(), p.toDay());
          double s = r * Season.waveOfSine(p.fromDay(), p.toDay());
          double y = p.hours() - r * length;
          double weight = 1 / (r * length);
          cc += weight * c * c;
          ss += weight * s * s;
          cs += weight * c * s;
          yc += weight * y * c;
          ys += weight * y * s;
          yy += weight * y * y;
          double left = y - season.cosine() * c - season.sine() * s;
          rest += weight * left * left;
          steps++;
        }
      }
      if (round == 0) {
        without = yy;
      }
      with = rest;
      double determinant = cc * ss - cs * cs;
      if (!(determinant > 1e-9 * cc * ss)) {
        return Season.NONE;
      }
      Season next =
          new Season((yc * ss - ys * cs) / determinant, (ys * cc - yc * cs) / determinant);
      double size = next.amplitude();
      season =
          size <= LARGEST_AMPLITUDE
              ? next
              : new Season(
                  next.cosine() * LARGEST_AMPLITUDE / size, next.sine() * LARGEST_AMPLITUDE / size);
    }
    int freedom = steps - means - 2;
    if (freedom < 3 || !(with < without)) {
      return Season.NONE;
    }
    double f = (without - with) / 2 / (with / freedom);
    boolean found =
        with <= 1e-12 * without
            || 1 - new FDistribution(2, freedom).cumulativeProbability(f) < SEASON_LEVEL;
    return found ? season : Season.NONE;
  }
}
