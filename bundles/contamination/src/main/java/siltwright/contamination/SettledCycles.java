package siltwright.contamination;

import java.util.Arrays;
import java.util.List;
import siltwright.model.SizeBands;

/**
 * Finds repeating cycles quickly where the oil settles far faster than the element loads.
 *
 * <p>The counts of the course are told by the load alone, n = n_s (1 + ε)/(1 + 2ε), n_s the count
 * at which supply and removal balance, ε = n_s' (dx/dt)/(a n_s) its lag and x the load in
 * capacities; so the course is a few rows of closed forms over ln h, joined by cubics, and a
 * wash-out a sum over a few moments that lie evenly over the powers of time (the trapezoidal rule,
 * which converges geometrically for them). Where the two time scales do not part, it says that it
 * cannot tell; {@link SteppedCycles} can.
 *
 * <p>Source: docs/theory.md, how it is solved (own derivation).
 *
 * <p>Not for use by several threads. Filling a cycle allocates nothing.
 */
final class SettledCycles {
  private static final int J = SizeBands.COUNT;

  /**
   * How finely it is computed.
   *
   * @param logDropStep change of ln h from row to row
   * @param lag lag behind the settled count, relative, up to which a count follows the load
   * @param first first moment of a wash-out, in time constants of the fastest band
   * @param last last moment of a wash-out, in time constants of the slowest band
   * @param logMoment ln of the ratio of one moment to the next
   * @param sameStart load at the start, as hours of an interval, within which it is found
   * @param sameShare share of a release that ends in the element, within which it is found
   * @param parts change of ln B1 by what comes in meanwhile up to which the two part
   * @param slowdown flow that meets a clean element over that at the end of a wash-out, at most
   * @param rough whether to go on where counts lag further behind, and to begin with what the cycle
   *     before found, so that the order of cycles matters within the other numbers here
   */
  record Grain(
      double logDropStep,
      double lag,
      double first,
      double last,
      double logMoment,
      double sameStart,
      double sameShare,
      double parts,
      double slowdown,
      boolean rough) {
    static final Grain FINE = new Grain(0.1, 0.03, 0.05, 12, 0.4, 1e-9, 1e-6, 0.05, 4, false);
    static final Grain COARSE = new Grain(0.5, 0.3, 0.25, 5, 1.0, 1e-4, 1e-2, 0.3, 1e3, true);
  }

  /** Time constants of a wash-out that an interval must have. */
  private static final double OVER = 12;

  /** Time constants after which nothing is left of a release: e^-37 is below rounding. */
  private static final double NOTHING_LEFT = 37;

  /** Pieces of a row in which the wear leaves its floor or meets it. */
  private static final int PIECES = 8;

  /** Change of the share of a release that ends in the element that makes no difference. */
  private static final double UNCHANGED = 1e-5;

  private static final int STEP_SWEEPS = 4;

  /** Rows that there is room for at first. */
  private static final int FIRST_ROWS = 24;

  private static final int ITERATIONS = 20;

  /** Load that no element without a bypass is asked for, in capacities. */
  private static final double FAR_SHARE = 1e6;

  // A row of the course: x, t, dt/dx, flow that meets the element and its slope in x, then blocks
  // of J: counts, their slopes in x, doses, and what the element would keep if the counts stood
  // still; then blocks of components
  private static final int X = 0;
  private static final int T = 1;
  private static final int DT = 2;
  private static final int DDT = 3;
  private static final int MET = 4;
  private static final int DMET = 5;
  private static final int N = 6;
  private static final int DN = N + J;
  private static final int DOSE = DN + J;
  private static final int KEPT = DOSE + J;
  private static final int COMPONENTS = KEPT + J;

  private final Circuit c;
  private final Grain grain;
  private final Wear[] wear;
  private final int level;
  private final int levelSlope;
  private final int exposure;
  private final int pace;
  private final int paceSlope;
  private final int width;
  private double[] rows;
  private int count;
  private boolean settles = true;

  // How far the course has been followed: ln h, the opening passed last, whether a row behind it
  // is there, whether it ends
  private double[] opens;
  private double logDrop;
  private int opening;
  private boolean within;
  private boolean ended;
  private boolean lagging;
  private double hoursMet;

  private final double[] met = new double[4];
  private final double[] q = new double[J];
  private final double[] a = new double[J];
  private final double[] caught = new double[J];
  private final double[] supplied = new double[J];
  private final boolean[] wayOut = new boolean[J];
  private double slowest;
  private double cleanFlow;

  // Moments of a wash-out, over the oil that has met the element, and what is left of each band
  private int moments;
  private double[] weightH;
  private double[] decay;

  // of the wash-out followed last: weights over the hours, what is left of each band, weighted
  // settled count of each component
  private double[] hours;

  private double[] left;
  private double[] levelAt;
  private double[] ownHours;
  private double[] ownLeft;
  private double slowdown;

  /** What a change adds to the counts, as far as it washes out within the interval. */
  private final double[] y = new double[J];

  private final double[] share = new double[J];
  private final double[] washDose = new double[J];
  private double[] handling;
  private final double[] nFrom = new double[J];
  private final double[] nTo = new double[J];
  private final double[] kept = new double[J];
  private final double[] lastKeptPerH = new double[J];

  /** Share of a release that washes out within the interval. */
  private final double[] gone = new double[J];

  private final double[] lag = new double[J];
  private final double[] shed = new double[J];
  private final double[] scratch = new double[J];

  /** Oil that met the element while a unit of a band was there, h of the clean element's flow. */
  private final double[] taken = new double[J];

  private double washedH;
  // of the cycle found last: load after the wash-out and before the change, and their rows
  private double found;
  private double end;
  private int startRow;
  private int endRow;

  /** What a change adds to the counts that a clean element settles at. */
  private final double[] released = new double[J];

  // The cubic between two rows
  private int piece;
  private double value0;
  private double value1;
  private double slope0;
  private double slope1;
  private double rate0;
  private double rate1;

  /**
   * Prepares.
   *
   * @param circuit the circuit, in the long run
   * @param wear wear of its components
   * @param grain how finely
   */
  SettledCycles(Circuit circuit, List<Wear> wear, Grain grain) {
    c = circuit;
    this.grain = grain;
    this.wear = wear.toArray(Wear[]::new);
    int components = this.wear.length;
    level = COMPONENTS;
    levelSlope = level + components;
    exposure = levelSlope + components;
    pace = exposure + components;
    paceSlope = pace + components;
    width = paceSlope + components;
    rows = new double[FIRST_ROWS * width];
    clean();
    if (settles) {
      begin();
      moments();
    }
  }

  /** Counts and rates with a clean element. */
  private void clean() {
    c.met(0, met);
    cleanFlow = met[1];
    double least = Double.POSITIVE_INFINITY;
    double mass = 0;
    for (int j = 0; j < J; j++) {
      supplied[j] = c.reservoirPerH[j] + c.returnPerH[j];
      a[j] = c.relaxationPerH(j, met[1]);
      wayOut[j] = a[j] > 0;
      if (wayOut[j]) {
        q[j] = c.supplyPerMlH(j, met[0]) / a[j];
        caught[j] = 1 - c.sinkMlPerH[j] / (a[j] * c.volumeMl);
        least = Math.min(least, a[j]);
        share[j] = caught[j];
        lastKeptPerH[j] = keptPerH(j);
        mass += c.loadingG(j) * lastKeptPerH[j];
      } else if (supplied[j] > 0) {
        settles = false;
      }
    }
    slowest = least;
    settles &= mass > 0 && Double.isFinite(least);
  }

  /** Whether something takes out each band that comes in, by a change too. */
  boolean hasWayOut(double[] handling) {
    for (int j = 0; j < J; j++) {
      if (!wayOut[j] && (supplied[j] > 0 || handling[j] > 0)) {
        return false;
      }
    }
    return true;
  }

  private double keptPerH(int j) {
    return supplied[j] - c.sinkMlPerH[j] * q[j];
  }

  /** Begins the course with the clean element. */
  private void begin() {
    opens = c.opensAtLogDrop();
    settles = row(0, 0, 0);
    if (!settles) {
      return;
    }
    if (opens.length == 0) {
      row(FAR_SHARE, 0, 0);
      ended = true;
    } else if (opens[0] > 0) {
      logDrop = opens[0];
      row(c.loading.massShareAt(Math.exp(logDrop)), logDrop, 0);
    }
  }

  /** Follows the course until a column has passed a value; whether it gets there. */
  private boolean reaches(int column, double value) {
    while (!(rows[(count - 1) * width + column] > value)) {
      if (ended) {
        return false;
      }
      goOn();
    }
    return true;
  }

  /** Adds the next row: at once behind an opening, where the slopes are others, else a step on. */
  private void goOn() {
    boolean behind = !within;
    if (behind) {
      while (opening + 1 < opens.length && opens[opening + 1] <= logDrop) {
        opening++;
      }
      within = true;
    }
    double to = opening + 1 < opens.length ? opens[opening + 1] : Double.POSITIVE_INFINITY;
    double between = Math.min((opens[opening] + to) / 2, opens[opening] + 1);
    if (!behind) {
      double left = to - logDrop;
      double step = grain.logDropStep();
      logDrop = step < left / 2 ? logDrop + step : step < left ? logDrop + left / 2 : to;
      within = logDrop < to;
    }
    ended = !row(c.loading.massShareAt(Math.exp(logDrop)), logDrop, between);
  }

  /**
   * Adds a row.
   *
   * @param x load, in capacities
   * @param s ln h there
   * @param between ln h of a place on the same side of every opening
   * @return whether the course goes on
   */
  private boolean row(double x, double s, double between) {
    c.metAndSlopes(Math.exp(s), Math.exp(between), met);
    double hours = met[0];
    double flow = met[1];
    double hoursSlope = met[2];
    double flowSlope = met[3];
    double perX = flowSlope == 0 ? 0 : c.loading.logSlope(x);
    hoursSlope *= perX;
    flowSlope *= perX;
    if ((count + 1) * width > rows.length) {
      rows = Arrays.copyOf(rows, 2 * rows.length);
    }
    int at = count * width;
    double kept = 0;
    double keptSlope = 0;
    double held = c.capacityG;
    for (int j = 0; j < J; j++) {
      double n = 0;
      double slope = 0;
      if (wayOut[j]) {
        double rate = c.relaxationPerH(j, flow);
        n = c.supplyPerMlH(j, hours) / rate;
        slope = -(c.caughtPerMlH(j) * hoursSlope + n * c.capturePerMl(j) * flowSlope) / rate;
        lag[j] = n > 0 ? slope / (n * rate) : 0;
      }
      rows[at + N + j] = n;
      rows[at + DN + j] = slope;
      double mass = c.loadingG(j);
      kept += mass * (supplied[j] - c.sinkMlPerH[j] * n);
      keptSlope -= mass * c.sinkMlPerH[j] * slope;
      held += mass * c.volumeMl * slope;
    }
    if (!(kept > 0)) {
      return false;
    }
    double hoursPerX = held / kept;
    for (int j = 0; j < J && !lagging; j++) {
      lagging = Math.abs(lag[j]) > grain.lag() * hoursPerX;
    }
    if (lagging && (count == 0 || !grain.rough())) {
      return false;
    }
    rows[at + X] = x;
    rows[at + MET] = flow;
    rows[at + DMET] = flowSlope;
    if (lagging) {
      stepTo(at, hours);
    } else {
      settle(at, hoursPerX, kept, keptSlope);
    }
    hoursMet = hours;
    count++;
    return flow >= CycleSweep.LITTLE_MET * c.meanFlowMlPerH;
  }

  /** Counts that follow the load with a small lag, and the sums up to them. */
  private void settle(int at, double firstHoursPerX, double kept, double keptSlope) {
    double held = c.capacityG;
    for (int j = 0; j < J; j++) {
      double behind = lag[j] / firstHoursPerX;
      rows[at + N + j] *= (1 + behind) / (1 + 2 * behind);
      rows[at + DN + j] /= 1 + 2 * behind;
      held += c.loadingG(j) * c.volumeMl * rows[at + DN + j];
    }
    double hoursPerX = held / kept;
    rows[at + DT] = hoursPerX;
    rows[at + DDT] = -hoursPerX * keptSlope / kept;
    wear(at);
    if (count > 0) {
      integrate(at - width, at);
    }
  }

  /**
   * Counts that no longer follow the load: a step from the row before with the mean rate, and the
   * hours in which the element takes that much on.
   */
  private void stepTo(int to, double hours) {
    int from = to - width;
    double step = rows[from + DT] * (rows[to + X] - rows[from + X]);
    for (int i = 0; i < STEP_SWEEPS; i++) {
      double mass = c.capacityG * (rows[to + X] - rows[from + X]);
      double massPerH = 0;
      for (int j = 0; j < J; j++) {
        if (wayOut[j]) {
          double first = c.relaxationPerH(j, rows[from + MET]);
          double last = c.relaxationPerH(j, rows[to + MET]);
          double ratio = last / first;
          double rate = Math.abs(ratio - 1) < 1e-6 ? first : (last - first) / Math.log(ratio);
          double supply = (c.supplyPerMlH(j, hoursMet) + c.supplyPerMlH(j, hours)) / 2;
          double n = rows[from + N + j];
          double settled = supply / rate;
          rows[to + N + j] = settled + (n - settled) * Math.exp(-rate * step);
          double rise = rows[to + N + j] - n;
          double dose = (supply * step - rise) / rate;
          rows[to + DOSE + j] = rows[from + DOSE + j] + dose;
          rows[to + KEPT + j] = rows[from + KEPT + j] + supplied[j] * step - c.sinkMlPerH[j] * dose;
          mass += c.loadingG(j) * (c.sinkMlPerH[j] * dose + c.volumeMl * rise);
          massPerH += c.loadingG(j) * supplied[j];
        }
      }
      step = mass / massPerH;
    }
    rows[to + T] = rows[from + T] + step;
    double keptPerH = 0;
    for (int j = 0; j < J; j++) {
      double n = rows[to + N + j];
      double rise = c.supplyPerMlH(j, hours) - c.relaxationPerH(j, rows[to + MET]) * n;
      rows[to + DN + j] = rise;
      keptPerH += c.loadingG(j) * (supplied[j] - c.sinkMlPerH[j] * n - c.volumeMl * rise);
    }
    rows[to + DT] = c.capacityG / keptPerH;
    rows[to + DDT] = 0;
    for (int j = 0; j < J; j++) {
      rows[to + DN + j] *= rows[to + DT];
    }
    wear(to);
    for (int i = 0; i < wear.length; i++) {
      rows[to + exposure + i] =
          rows[from + exposure + i]
              + step / 2 * (rows[from + pace + i] + rows[to + pace + i])
              + step
                  * step
                  / 12
                  * (rows[from + paceSlope + i] / rows[from + DT]
                      - rows[to + paceSlope + i] / rows[to + DT]);
    }
  }

  /** Weighted counts of a row and the wear by them. */
  private void wear(int at) {
    for (int i = 0; i < wear.length; i++) {
      double sum = 0;
      double slope = 0;
      for (int j = 0; j < J; j++) {
        sum += wear[i].weight(j) * rows[at + N + j];
        slope += wear[i].weight(j) * rows[at + DN + j];
      }
      double k = wear[i].power(sum);
      rows[at + level + i] = sum;
      rows[at + levelSlope + i] = slope;
      rows[at + pace + i] = k;
      rows[at + paceSlope + i] = wear[i].slope(sum, k) * slope;
    }
  }

  /** Time, doses and exposures at a row, by the trapezoidal rule with its ends' slopes. */
  private void integrate(int from, int to) {
    double half = (rows[to + X] - rows[from + X]) / 2;
    double third = half * half / 3;
    double first = rows[from + DT];
    double last = rows[to + DT];
    double firstSlope = rows[from + DDT];
    double lastSlope = rows[to + DDT];
    rows[to + T] = rows[from + T] + half * (first + last) + third * (firstSlope - lastSlope);
    for (int j = 0; j < J; j++) {
      rows[to + DOSE + j] =
          rows[from + DOSE + j]
              + half * (rows[from + N + j] * first + rows[to + N + j] * last)
              + third
                  * (rows[from + DN + j] * first
                      + rows[from + N + j] * firstSlope
                      - rows[to + DN + j] * last
                      - rows[to + N + j] * lastSlope);
      double sink = c.sinkMlPerH[j];
      if (sink > 0) {
        double k0 = supplied[j] - sink * rows[from + N + j];
        double k1 = supplied[j] - sink * rows[to + N + j];
        rows[to + KEPT + j] =
            rows[from + KEPT + j]
                + half * (k0 * first + k1 * last)
                + third
                    * (k0 * firstSlope
                        - sink * rows[from + DN + j] * first
                        - k1 * lastSlope
                        + sink * rows[to + DN + j] * last);
      }
    }
    for (int i = 0; i < wear.length; i++) {
      double k0 = rows[from + pace + i];
      double k1 = rows[to + pace + i];
      if (wear[i].meetsFloor(k0, k1)) {
        rows[to + exposure + i] = acrossFloor(i, from, rows[to + X]);
        continue;
      }
      rows[to + exposure + i] =
          rows[from + exposure + i]
              + half * (k0 * first + k1 * last)
              + third
                  * (rows[from + paceSlope + i] * first
                      + k0 * firstSlope
                      - rows[to + paceSlope + i] * last
                      - k1 * lastSlope);
    }
  }

  /** Exposure up to a load behind a row with which the wear leaves its floor or meets it. */
  private double acrossFloor(int i, int at, double x) {
    double step = (x - rows[at + X]) / PIECES;
    double sum = 0;
    for (int k = 0; k < PIECES; k++) {
      double here = rows[at + X] + (k + 0.5) * step;
      within(here, at / width);
      sum += wear[i].power(cubic(level + i, levelSlope + i)) * hoursPerX(here);
    }
    return rows[at + exposure + i] + step * sum;
  }

  /** Moments of a wash-out and what each band has left there. */
  private void moments() {
    double fastest = 0;
    for (int j = 0; j < J; j++) {
      fastest = Math.max(fastest, a[j]);
    }
    double first = grain.first() / fastest;
    double step = grain.logMoment();
    moments = 2 + (int) Math.ceil(Math.log(grain.last() / slowest / first) / step);
    weightH = new double[moments];
    ownHours = new double[moments];
    levelAt = new double[wear.length * moments];
    decay = new double[moments * J];
    ownLeft = new double[moments * J];
    // The moments before the first go on for ever; what is there is a straight line from time zero.
    double before = 1 / Math.expm1(step);
    double beforeLinear = 1 / Math.expm1(2 * step);
    weightH[0] = step * first * (before - beforeLinear);
    Arrays.fill(decay, 0, J, 1);
    for (int k = 1; k < moments; k++) {
      double u = first * Math.exp((k - 1) * step);
      weightH[k] = step * u * (k == 1 ? 1 + beforeLinear : 1);
      for (int j = 0; j < J; j++) {
        decay[k * J + j] = Math.exp(-a[j] * u);
      }
    }
  }

  /**
   * Finds the cycle that repeats itself with an interval and a release.
   *
   * @param intervalH hours from change to change, above 0
   * @param backFlush φ, 0 up to below 1
   * @param handling particles of each band let in at a change, length 6
   * @param out filled
   * @return whether it was found
   */
  boolean fill(double intervalH, double backFlush, double[] handling, Cycle out) {
    if (!find(intervalH, backFlush, handling)) {
      return false;
    }
    complete(backFlush, out);
    return true;
  }

  /**
   * Finds the cycle as far as what the element holds in it, which {@link #retainedG} tells.
   *
   * @return whether it was found
   */
  boolean find(double intervalH, double backFlush, double[] handling) {
    if (!settles || intervalH < OVER / slowest) {
      return false;
    }
    this.handling = handling;
    for (int j = 0; j < J; j++) {
      if (!grain.rough()) {
        share[j] = caught[j];
        lastKeptPerH[j] = keptPerH(j);
      }
      gone[j] = wayOut[j] && a[j] * intervalH < NOTHING_LEFT ? -Math.expm1(-a[j] * intervalH) : 1;
      y[j] =
          wayOut[j]
              ? (handling[j] + backFlush * lastKeptPerH[j] * intervalH)
                  / (c.volumeMl * (1 - backFlush * share[j]))
              : 0;
    }
    double opening = c.openingG[0] / c.capacityG;
    double start = shed();
    double missBefore = 0;
    double startBefore = Double.NaN;
    for (int i = 0; i < ITERATIONS; i++) {
      if (!around(start, intervalH, backFlush)) {
        return false;
      }
      double miss = shed() - start;
      if (Math.abs(miss) * rows[DT] <= grain.sameStart() * intervalH) {
        if (start <= opening) {
          washShut();
          return isFound(start, intervalH);
        }
        if (!reaches(X, shed())) {
          return false;
        }
        double change = washOpening();
        if (!(washedH <= intervalH && slowdown <= grain.slowdown() && partsClearly(start))) {
          return false;
        }
        if (change <= grain.sameShare()) {
          double after = change > UNCHANGED ? shed() : start;
          return (change <= UNCHANGED || around(after, intervalH, backFlush))
              && isFound(after, intervalH);
        }
        startBefore = Double.NaN;
        start = shed();
        continue;
      }
      double slope = (miss - missBefore) / (start - startBefore);
      double next = slope < 0 && i > 0 ? start - miss / slope : start + miss;
      startBefore = start;
      missBefore = miss;
      start = Math.max(0, next);
    }
    return false;
  }

  /** Load that the wash-out y gives the element, in capacities. */
  private double shed() {
    double mass = 0;
    for (int j = 0; j < J; j++) {
      mass += c.loadingG(j) * y[j] * share[j];
    }
    return mass * c.volumeMl / c.capacityG;
  }

  /**
   * Finds what a cycle adds to the counts that begins with a load.
   *
   * @return whether the course goes that far
   */
  private boolean around(double start, double t, double phi) {
    if (!reaches(X, start)) {
      return false;
    }
    startRow = rowBefore(X, start);
    within(start, startRow);
    double begin = cubic(T, DT);
    for (int j = 0; j < J; j++) {
      nFrom[j] = cubic(N + j, DN + j);
      kept[j] = c.sinkMlPerH[j] > 0 ? -settledKept(j) : supplied[j] * t;
    }
    if (!reaches(T, begin + t)) {
      return false;
    }
    endRow = rowBefore(T, begin + t);
    end = loadAt(endRow, begin + t);
    within(end, endRow);
    // once more, so that hours and what comes in during them agree to rounding
    end -= (cubic(T, DT) - begin - t) / hoursPerX(end);
    within(end, endRow);
    if (cubic(MET, DMET) < CycleSweep.LITTLE_MET * c.meanFlowMlPerH) {
      return false;
    }
    for (int j = 0; j < J; j++) {
      nTo[j] = cubic(N + j, DN + j) + notYet(j, begin + t);
      if (c.sinkMlPerH[j] > 0) {
        kept[j] += settledKept(j);
      }
      kept[j] -= c.volumeMl * (nTo[j] - nFrom[j]);
      y[j] =
          (nTo[j] - nFrom[j] + (phi * kept[j] + handling[j]) / c.volumeMl) / (1 - phi * share[j]);
    }
    return true;
  }

  /**
   * What is left of the count with which a band came to an opening: behind it the lag is another,
   * which the count only takes on in a few time constants.
   */
  private double notYet(int j, double t) {
    int ahead = piece - width;
    if (ahead < 0 || rows[ahead + X] < rows[piece + X]) {
      return 0;
    }
    double z = c.relaxationPerH(j, rows[piece + MET]) * (t - rows[piece + T]);
    return z > OVER ? 0 : (rows[ahead + N + j] - rows[piece + N + j]) * Math.exp(-z);
  }

  /** Load of the course at a time in a row, in capacities. */
  private double loadAt(int row, double t) {
    int at = row * width;
    double h = rows[at + width + T] - rows[at + T];
    double s = (t - rows[at + T]) / h;
    double r = 1 - s;
    return rows[at + X] * r * r * (1 + 2 * s)
        + rows[at + width + X] * s * s * (1 + 2 * r)
        + h * s * r * (r / rows[at + DT] - s / rows[at + width + DT]);
  }

  /** A wash-out with the bypass shut: its doses and wear. */
  private void washShut() {
    for (int j = 0; j < J; j++) {
      washDose[j] = wayOut[j] ? 1 / a[j] : 0;
    }
    washedH = 0;
    hours = weightH;
    left = decay;
    for (int i = 0; i < wear.length; i++) {
      Arrays.fill(levelAt, i * moments, (i + 1) * moments, rows[level + i]);
    }
  }

  /**
   * Wear of a component by the wash-out, beyond that of the oil that has settled.
   *
   * @param calm relative wear then
   */
  private double washWear(int i, double calm) {
    Wear w = wear[i];
    for (int j = 0; j < J; j++) {
      scratch[j] = w.weight(j) * released[j];
    }
    final double[] counts = scratch;
    final double[] remaining = left;
    final double[] weights = hours;
    double sum = 0;
    double earlier = 0;
    for (int k = 0; k < moments; k++) {
      double x = levelAt[i * moments + k];
      for (int j = 0; j < J; j++) {
        x += counts[j] * remaining[k * J + j];
      }
      sum += weights[k] * (w.power(x) - calm);
      if (k > 2 && x <= w.floor() && earlier > w.floor()) {
        sum -= weights[k - 1] * pastFloor(w, earlier, x);
      }
      earlier = x;
    }
    return sum;
  }

  /**
   * What the trapezoidal rule counts too much between two moments of which the later is at the
   * floor of the wear: h²/2 (θ² - θ + 1/6) times the jump of the slope of u κ over ln u (Euler and
   * Maclaurin); over the first's weight.
   *
   * @param x weighted count at the first
   * @param later weighted count at the second
   */
  private double pastFloor(Wear w, double x, double later) {
    double run = Math.log(x / later);
    double at = Math.log(x / w.floor()) / run;
    double jump = Math.exp(at * grain.logMoment()) * w.floorSlope() * run;
    return jump / 2 * (at * at - at + 1.0 / 6);
  }

  /**
   * Follows a wash-out that opens the bypass, over the oil that has met the element.
   *
   * @return largest change of the share of a release that ends in the element
   */
  private double washOpening() {
    Arrays.fill(washDose, 0);
    Arrays.fill(taken, 0);
    double late = 0;
    for (int j = 0; j < J; j++) {
      shed[j] = c.loadingG(j) * y[j] * share[j] * c.volumeMl / c.capacityG;
    }
    int row = 0;
    hours = ownHours;
    left = ownLeft;
    for (int k = 0; k < moments; k++) {
      double load = 0;
      for (int j = 0; j < J; j++) {
        left[k * J + j] = decay[k * J + j];
        load += shed[j] * (1 - decay[k * J + j]);
      }
      while (rows[(row + 1) * width + X] <= load) {
        row++;
      }
      within(load, row);
      slowdown = cleanFlow / cubic(MET, DMET);
      double lateHere = late + weightH[k] / 2 * (slowdown - 1);
      late += weightH[k] * (slowdown - 1);
      hours[k] = weightH[k] * slowdown;
      for (int j = 0; j < J; j++) {
        int at = k * J + j;
        if (c.sinkMlPerH[j] > 0) {
          left[at] *= Math.exp(-c.sinkMlPerH[j] / c.volumeMl * lateHere);
        }
        washDose[j] += hours[k] * left[at];
        taken[j] += weightH[k] * left[at];
      }
      for (int i = 0; i < wear.length; i++) {
        levelAt[i * moments + k] = cubic(level + i, levelSlope + i);
      }
    }
    washedH = late + grain.last() / slowest;
    double change = 0;
    for (int j = 0; j < J; j++) {
      double sinkPerH = c.sinkMlPerH[j] / c.volumeMl;
      if (sinkPerH > 0) {
        double next = c.capturePerMl(j) * cleanFlow * taken[j];
        // element and sinks together take all of it
        double all = next + sinkPerH * washDose[j];
        next /= all;
        washDose[j] /= all;
        change = Math.max(change, Math.abs(next - share[j]));
        share[j] = next;
      }
    }
    return change;
  }

  /** Whether what comes in during the wash-out changes the bypass little. */
  private boolean partsClearly(double start) {
    double end = start + washedH / rows[DT];
    if (!reaches(X, end)) {
      return false;
    }
    within(start, rowBefore(X, start));
    double before = cubic(MET, DMET);
    within(end, rowBefore(X, end));
    return Math.abs(Math.log(before / cubic(MET, DMET))) <= grain.parts();
  }

  /** Returns the mass in the element before the change of the cycle found last, g. */
  double retainedG() {
    double mass = 0;
    for (int j = 0; j < J; j++) {
      mass += c.loadingG(j) * (kept[j] + c.volumeMl * y[j] * share[j]);
    }
    return mass;
  }

  /** Keeps what the next cycle may begin with. */
  private boolean isFound(double start, double intervalH) {
    found = start;
    for (int j = 0; j < J; j++) {
      lastKeptPerH[j] = kept[j] / intervalH;
    }
    return true;
  }

  private void complete(double phi, Cycle out) {
    out.massG = 0;
    within(found, startRow);
    for (int j = 0; j < J; j++) {
      out.start[j] = nFrom[j] + y[j] / gone[j];
      released[j] = out.start[j] - rows[N + j];
      out.dose[j] = y[j] * washDose[j] - dose(j);
    }
    for (int i = 0; i < wear.length; i++) {
      double calm = wear[i].power(cubic(level + i, levelSlope + i));
      out.exposureH[i] = washWear(i, calm) - exposure(i, found);
    }
    within(end, endRow);
    for (int j = 0; j < J; j++) {
      out.dose[j] += dose(j);
      out.retained[j] = kept[j] + c.volumeMl * y[j] * share[j];
      out.end[j] = nTo[j] + y[j] / gone[j] * (1 - gone[j]);
      out.released[j] = phi * out.retained[j] + handling[j];
      out.massG += c.loadingG(j) * out.retained[j];
    }
    for (int i = 0; i < wear.length; i++) {
      out.exposureH[i] += exposure(i, end);
    }
  }

  /** The row before a value that a column takes before its last row. */
  private int rowBefore(int column, double value) {
    return rowBefore(rows, width, count, column, value);
  }

  /** The same for any rows of a width, by halves. */
  static int rowBefore(double[] rows, int width, int count, int column, double value) {
    int low = 0;
    int high = count - 1;
    while (high - low > 1) {
      int middle = (low + high) >>> 1;
      if (rows[middle * width + column] <= value) {
        low = middle;
      } else {
        high = middle;
      }
    }
    return low;
  }

  /** Sets the weights of the cubic through values and slopes of a row and the next at a load. */
  private void within(double x, int row) {
    piece = row * width;
    double h = rows[piece + width + X] - rows[piece + X];
    double s = (x - rows[piece + X]) / h;
    double r = 1 - s;
    value0 = r * r * (1 + 2 * s);
    value1 = s * s * (1 + 2 * r);
    slope0 = h * s * r * r;
    slope1 = -h * s * s * r;
    rate0 = slope0 * rows[piece + DT];
    rate1 = slope1 * rows[piece + width + DT];
  }

  /** The cubic of two columns at the load that was set last. */
  private double cubic(int value, int slope) {
    return rows[piece + value] * value0
        + rows[piece + width + value] * value1
        + rows[piece + slope] * slope0
        + rows[piece + width + slope] * slope1;
  }

  /**
   * What the element keeps of a band up to the load that was set last, but for the counts' rise.
   */
  private double settledKept(int j) {
    double sink = c.sinkMlPerH[j];
    int next = piece + width;
    return rows[piece + KEPT + j] * value0
        + rows[next + KEPT + j] * value1
        + (supplied[j] - sink * rows[piece + N + j]) * rate0
        + (supplied[j] - sink * rows[next + N + j]) * rate1;
  }

  /** dt/dx at a load, between the rows that were set last. */
  private double hoursPerX(double x) {
    double share = (x - rows[piece + X]) / (rows[piece + width + X] - rows[piece + X]);
    return rows[piece + DT] + share * (rows[piece + width + DT] - rows[piece + DT]);
  }

  private double dose(int j) {
    return overTime(DOSE + j, N + j);
  }

  private double exposure(int i, double x) {
    if (wear[i].meetsFloor(rows[piece + pace + i], rows[piece + width + pace + i])) {
      int at = piece;
      double sum = acrossFloor(i, at, x);
      within(x, at / width);
      return sum;
    }
    return overTime(exposure + i, pace + i);
  }

  /** The cubic of a column and its rate over time at the load that was set last. */
  private double overTime(int value, int rate) {
    return rows[piece + value] * value0
        + rows[piece + width + value] * value1
        + rows[piece + rate] * rate0
        + rows[piece + width + rate] * rate1;
  }
}
