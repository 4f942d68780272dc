package siltwright.contamination;

import java.util.Arrays;
import java.util.List;
import siltwright.model.Bands;
import siltwright.model.ChangeProcedure;
import siltwright.model.SizeBands;

/**
 * Finds the repeating cycle of any interval from one pass over the longest.
 *
 * <p>The oil has two clocks: a release washes out in minutes, the element loads over hundreds of
 * hours. Between releases the counts follow the load, so one <i>course</i> without any release,
 * stepped once and kept, serves every interval and procedure. A release then
 *
 * <ul>
 *   <li>adds its own wash-out, y_j exp(-a_j t), in closed form, and
 *   <li>gives the new element the mass it sheds anew, which only moves the start on the course.
 * </ul>
 *
 * <p>While the bypass is shut this is exact, whatever the interval. Once it has opened it holds
 * where the wash-out is over long before; a release big enough to change the bypass while it washes
 * out, or an interval of a few time constants, is stepped in full instead.
 *
 * <p>Not for use by several threads. Filling a cycle allocates nothing once the course is long
 * enough.
 */
public final class CycleSweep {
  private static final int J = SizeBands.COUNT;

  /** Time constants after which a wash-out is over: e^-18 = 1.5e-8. */
  private static final double OVER = 18;

  /** The same where even what is left of a large release must be lost in the counts. */
  private static final double JOINS = 26;

  /** Change of ln B1 over a wash-out up to which its rates count as constant at their mean mass. */
  private static final double SMALL_CHANGE = 0.03;

  /** The same where the bypass begins to open meanwhile, which is a kink. */
  private static final double SMALL_OPENING = 0.003;

  private static final int ITERATIONS = 60;
  private static final int CYCLES = 30;
  private static final int MOST_STEPS = 1_500;
  private static final double CLOSE = 1e-10;

  /** Mass, relative, by which the start of a stepped cycle may still be away. */
  private static final double REPEATED = 1e-6;

  /** Relative distance to the course at which a stepped cycle has joined it. */
  private static final double JOINED = 1e-4;

  /** Wash-outs within a step of the course from which on a count follows the load closely. */
  private static final double CLOSELY = 8;

  /** Pieces of a step in which the wear leaves its floor or meets it. */
  private static final int PIECES = 8;

  /** Share of the flow below which the element counts as passed by. */
  private static final double LITTLE_MET = 1e-3;

  private static final double NODE_GROWTH = 2;

  /** No course is followed further than this, h. */
  private static final double FAR_H = 1e6;

  // Gauss-Legendre, four nodes on (0, 1)
  private static final double[] NODE = {
    0.06943184420297371, 0.33000947820757187, 0.6699905217924281, 0.9305681557970263
  };
  private static final double[] NODE_WEIGHT = {
    0.17392742256872693, 0.32607257743127307, 0.32607257743127307, 0.17392742256872693
  };

  // A row of the course: t, M, dM/dt, then these blocks of J; FOLLOWED is the count over that at
  // which supply and removal balance
  private static final int T = 0;
  private static final int M = 1;
  private static final int DM = 2;
  private static final int N = 3;
  private static final int DN = N + J;
  private static final int KEPT = DN + J;
  private static final int DKEPT = KEPT + J;
  private static final int FOLLOWED = DKEPT + J;
  private static final int DOSE = FOLLOWED + J;
  private static final int EXPOSURE = DOSE + J;

  private final Circuit c;
  private final Wear[] wear;
  private final Balance course;
  private final int width;
  private double[] rows;
  private int count;

  private final double[] met = new double[2];
  private final double[] q = new double[J];
  private final double[] a = new double[J];
  private final double[] caught = new double[J];
  private final double[] rate = new double[J];
  private final double[] share = new double[J];
  private final double[] y = new double[J];
  private final double[] from = new double[EXPOSURE];
  private final double[] to = new double[EXPOSURE];
  private final double[] between = new double[EXPOSURE];
  private final double[] lastStart = new double[J];
  private final double[] lastStep = new double[J];
  private final double[] guess = new double[J];
  private final double[] handling = new double[J];
  private final double[] scratch = new double[J];
  private final double slowest;

  private final double[] nodeH;
  private final double[] nodeWeightH;
  private final double[] nodeDecay;
  private final double[] openDecay;
  private final Balance full;

  /**
   * Prepares a sweep.
   *
   * @param circuit the circuit, in the long run
   * @param wear wear of its components
   */
  public CycleSweep(Circuit circuit, List<Wear> wear) {
    c = circuit;
    this.wear = wear.toArray(Wear[]::new);
    course = new Balance(circuit, wear);
    full = new Balance(circuit, wear);
    width = EXPOSURE + 2 * this.wear.length;
    rows = new double[64 * width];
    c.met(0, met);
    double least = Double.POSITIVE_INFINITY;
    double most = 0;
    for (int j = 0; j < J; j++) {
      a[j] = c.relaxationPerH(j, met[1]);
      double supply = c.supplyPerMlH(j, met[0]);
      q[j] = supply == 0 ? 0 : supply / a[j];
      caught[j] = a[j] > 0 ? 1 - c.sinkMlPerH[j] / (a[j] * c.volumeMl) : 0;
      if (a[j] > 0) {
        least = Math.min(least, a[j]);
        most = Math.max(most, a[j]);
      }
    }
    slowest = least;
    int intervals =
        most == 0
            ? 0
            : 1 + (int) Math.ceil(Math.log(OVER * most / (0.4 * least)) / Math.log(NODE_GROWTH));
    nodeH = new double[4 * intervals];
    nodeWeightH = new double[nodeH.length];
    nodeDecay = new double[nodeH.length * J];
    openDecay = new double[nodeDecay.length];
    double low = 0;
    double high = 0.4 / most;
    for (int i = 0; i < intervals; i++) {
      for (int k = 0; k < 4; k++) {
        int node = 4 * i + k;
        nodeH[node] = low + (high - low) * NODE[k];
        nodeWeightH[node] = (high - low) * NODE_WEIGHT[k];
        for (int j = 0; j < J; j++) {
          nodeDecay[node * J + j] = Math.exp(-a[j] * nodeH[node]);
        }
      }
      low = high;
      high *= NODE_GROWTH;
    }
    course.counts(Arrays.stream(q).map(CycleSweep::finite).toArray());
    course.fresh();
    keep();
  }

  private static double finite(double count) {
    return Double.isFinite(count) ? count : 0;
  }

  /**
   * Finds the cycle that repeats itself with an interval and a procedure.
   *
   * @param intervalH hours from change to change, above 0
   * @param procedure the procedure of every change
   * @param out filled
   */
  public void fill(double intervalH, ChangeProcedure procedure, Cycle out) {
    fill(intervalH, procedure.backFlushShare(), procedure.handlingParticles(), out);
  }

  /**
   * Finds the cycle that repeats itself with an interval and a release.
   *
   * @param intervalH hours from change to change, above 0
   * @param backFlush φ, 0 up to below 1
   * @param handlingParticles particles of each band let in at a change
   * @param out filled
   */
  public void fill(double intervalH, double backFlush, Bands handlingParticles, Cycle out) {
    out.intervalH = intervalH;
    for (int j = 0; j < J; j++) {
      handling[j] = handlingParticles.get(j);
      if (a[j] == 0 && (c.supplyPerMlH(j, met0()) > 0 || handling[j] > 0)) {
        out.state = Cycle.State.NO_WAY_OUT;
        return;
      }
    }
    if (neverHeld(intervalH, backFlush)) {
      out.state = Cycle.State.OVERLOADED;
      return;
    }
    out.state = Cycle.State.REPEATS;
    for (int j = 0; j < J; j++) {
      guess[j] = handling[j] / c.volumeMl;
    }
    if (shutThroughout(intervalH, backFlush, out)
        || onTheCourse(intervalH, backFlush, out)
        || stepped(intervalH, JOINS / slowest, backFlush, out)
        || stepped(intervalH, intervalH, backFlush, out)) {
      return;
    }
    out.state = Cycle.State.OVERLOADED;
  }

  /**
   * Whether all that must end in the element from change to change is more than it holds before
   * next to no flow meets it any more.
   */
  private boolean neverHeld(double t, double phi) {
    double mass = c.retainedOfAllG(t, phi, handling);
    if (!c.bypassOpens || Double.isNaN(mass)) {
      return false;
    }
    c.met(mass, met);
    return met[1] < LITTLE_MET * c.meanFlowMlPerH;
  }

  private double met0() {
    c.met(0, met);
    return met[0];
  }

  /** Closed form of the whole cycle; false if the bypass opens in it. */
  private boolean shutThroughout(double t, double phi, Cycle out) {
    if (c.openingG[0] <= 0) {
      return false;
    }
    double mass = 0;
    for (int j = 0; j < J; j++) {
      double gone = -Math.expm1(-a[j] * t);
      double kept = c.reservoirPerH[j] + c.returnPerH[j] - c.sinkMlPerH[j] * q[j];
      y[j] =
          a[j] == 0
              ? 0
              : (handling[j] + phi * kept * t) / (c.volumeMl * gone * (1 - phi * caught[j]));
      out.retained[j] = kept * t + c.volumeMl * y[j] * gone * caught[j];
      out.start[j] = q[j] + y[j];
      out.end[j] = q[j] + y[j] * (1 - gone);
      out.dose[j] = q[j] * t + (a[j] == 0 ? 0 : y[j] * gone / a[j]);
      out.released[j] = phi * out.retained[j] + handling[j];
      mass += c.loadingG(j) * out.retained[j];
    }
    if (mass > c.openingG[0]) {
      return false;
    }
    out.massG = mass;
    for (int i = 0; i < wear.length; i++) {
      out.exposureH[i] = wear[i].relative(q) * t;
    }
    if (t >= OVER / slowest) {
      washOut(nodeDecay, out);
    } else {
      washOutUntil(t, out);
    }
    return true;
  }

  /** Adds the wear of the wash-out y to a cycle's exposures. */
  private void washOut(double[] decay, Cycle out) {
    for (int i = 0; i < wear.length; i++) {
      Wear w = wear[i];
      double base = 0;
      for (int j = 0; j < J; j++) {
        scratch[j] = w.weight(j) * y[j];
        base += w.weight(j) * q[j];
      }
      double calm = w.power(base);
      double sum = 0;
      for (int node = 0; node < nodeH.length; node++) {
        double x = base;
        int at = node * J;
        for (int j = 0; j < J; j++) {
          x += scratch[j] * decay[at + j];
        }
        sum += nodeWeightH[node] * (w.power(x) - calm);
      }
      out.exposureH[i] += sum;
    }
  }

  /** The same for a cycle that ends before the wash-out does. */
  private void washOutUntil(double t, Cycle out) {
    double low = 0;
    double high = Math.min(t, nodeH.length == 0 ? t : nodeH[3]);
    while (low < t) {
      for (int k = 0; k < 4; k++) {
        double at = low + (high - low) * NODE[k];
        double weight = (high - low) * NODE_WEIGHT[k];
        for (int j = 0; j < J; j++) {
          scratch[j] = q[j] + y[j] * Math.exp(-a[j] * at);
        }
        for (int i = 0; i < wear.length; i++) {
          out.exposureH[i] += weight * (wear[i].relative(scratch) - wear[i].relative(q));
        }
      }
      low = high;
      high = Math.min(t, high * NODE_GROWTH);
    }
  }

  /** A wash-out in closed form, then the course; false if the two do not part clearly. */
  private boolean onTheCourse(double t, double phi, Cycle out) {
    double over = OVER / slowest;
    if (t < over || !(rows[DM] > 0)) {
      return false;
    }
    Arrays.fill(y, 0);
    double shift = 0;
    double[] rates = a;
    double[] kept = caught;
    for (int i = 0; i < ITERATIONS; i++) {
      double mass = shedG(kept);
      double moved = timeOfMass(mass);
      if (!(t + moved < FAR_H)) {
        return false;
      }
      if (!c.shut(mass)) {
        meanRates(mass, kept);
        rates = rate;
        kept = share;
      } else {
        rates = a;
        kept = caught;
      }
      at(moved, from);
      at(t + moved, to);
      double change = 0;
      for (int j = 0; j < J; j++) {
        double rest = to[KEPT + j] - from[KEPT + j];
        double next =
            (to[N + j] - q[j] + (phi * rest + handling[j]) / c.volumeMl) / (1 - phi * kept[j]);
        change = Math.max(change, Math.abs(next - y[j]) / (Math.abs(next) + q[j] + 1e-300));
        y[j] = next;
      }
      System.arraycopy(y, 0, guess, 0, J);
      boolean settled = change < CLOSE && Math.abs(moved - shift) <= CLOSE * (t + moved);
      shift = moved;
      if (settled) {
        if (!partsClearly(over, kept)) {
          return false;
        }
        complete(t, shift, phi, rates, kept, out);
        return true;
      }
    }
    return false;
  }

  /** Mass of each band that the wash-out y gives the element, where it gives any, g. */
  private void shed(double[] kept, double[] massG) {
    for (int j = 0; j < J; j++) {
      massG[j] = Math.max(0, c.loadingG(j) * c.volumeMl * y[j] * kept[j]);
    }
  }

  /** Mass that the wash-out y gives the element, g. */
  private double shedG(double[] kept) {
    double mass = 0;
    for (int j = 0; j < J; j++) {
      mass += c.loadingG(j) * c.volumeMl * y[j] * kept[j];
    }
    return mass;
  }

  /** Whether the wash-out is over before the bypass matters, or changes little in it. */
  private boolean partsClearly(double over, double[] kept) {
    double after = shedG(kept) + rows[DM] * over;
    if (c.shut(after)) {
      return true;
    }
    c.met(0, met);
    double before = met[1];
    c.met(after, met);
    return Math.abs(Math.log(before / met[1])) <= (c.shut(0) ? SMALL_OPENING : SMALL_CHANGE);
  }

  /**
   * Rates that a wash-out meets on the way. Of the mass M_i that band i sheds with rate a_i, band j
   * meets M_i a_i / (a_i + a_j) on average; while it washes out with one rate, it meets all masses
   * from nothing to twice that average equally, so B1 is averaged over them.
   */
  private void meanRates(double mass, double[] kept) {
    shed(kept, scratch);
    for (int j = 0; j < J; j++) {
      double seen = 0;
      for (int i = 0; i < J; i++) {
        seen += a[i] + a[j] == 0 ? 0 : scratch[i] * a[i] / (a[i] + a[j]);
      }
      double reach = Math.min(seen, mass - seen);
      double flow = 0;
      for (int k = 0; k < NODE.length; k++) {
        c.met(seen + reach * (2 * NODE[k] - 1), met);
        flow += NODE_WEIGHT[k] * met[1];
      }
      rate[j] = c.relaxationPerH(j, flow);
      share[j] = rate[j] > 0 ? 1 - c.sinkMlPerH[j] / (rate[j] * c.volumeMl) : 0;
    }
  }

  /** The decay of each band at the nodes as the mass that the wash-out sheds moves the bypass. */
  private void followDecay(double[] kept) {
    shed(kept, scratch);
    double reached = 0;
    double last = 0;
    c.met(0, met);
    double lastFlow = met[1];
    for (int node = 0; node < nodeH.length; node++) {
      double mass = 0;
      for (int j = 0; j < J; j++) {
        mass += scratch[j] * (1 - nodeDecay[node * J + j]);
      }
      c.met(mass, met);
      reached += (nodeH[node] - last) * (lastFlow + met[1]) / 2;
      last = nodeH[node];
      lastFlow = met[1];
      for (int j = 0; j < J; j++) {
        openDecay[node * J + j] = Math.exp(-c.relaxationPerH(j, reached / last) * last);
      }
    }
  }

  private void complete(
      double t, double shift, double phi, double[] rates, double[] kept, Cycle out) {
    double mass = 0;
    int first = row(shift);
    int last = row(t + shift);
    for (int j = 0; j < J; j++) {
      out.retained[j] = c.volumeMl * y[j] * kept[j] + to[KEPT + j] - from[KEPT + j];
      out.start[j] = q[j] + y[j];
      out.end[j] = to[N + j];
      out.dose[j] =
          (rates[j] > 0 ? y[j] / rates[j] : 0)
              + cubic(last, t + shift, DOSE + j, N + j)
              - cubic(first, shift, DOSE + j, N + j);
      out.released[j] = phi * out.retained[j] + handling[j];
      mass += c.loadingG(j) * out.retained[j];
    }
    out.massG = mass;
    for (int i = 0; i < wear.length; i++) {
      out.exposureH[i] = exposure(i, last, t + shift) - exposure(i, first, shift);
    }
    if (rates == a) {
      washOut(nodeDecay, out);
    } else {
      followDecay(kept);
      washOut(openDecay, out);
    }
  }

  /**
   * A cycle stepped up to an hour and on the course from there, again and again until it repeats
   * itself; false if the two do not meet or it never does.
   */
  private boolean stepped(double t, double until, double phi, Cycle out) {
    boolean whole = until >= t;
    if (!whole && !(rows[DM] > 0) || until > t) {
      return false;
    }
    for (int j = 0; j < J; j++) {
      out.start[j] = finite(q[j]) + guess[j];
    }
    int steps = 0;
    for (int i = 0; i < CYCLES; i++) {
      full.counts(out.start);
      full.fresh();
      full.runTo(until);
      double shift = 0;
      if (!whole) {
        double joins = timeOfMass(full.massG);
        if (!(joins < FAR_H)) {
          return false;
        }
        at(joins, from);
        shift = joins - until;
        at(t + shift, to);
      }
      double away = 0;
      double all = 0;
      double turned = 0;
      double along = 0;
      for (int j = 0; j < J; j++) {
        if (whole) {
          out.end[j] = full.n[j];
          out.retained[j] = full.retained[j];
        } else {
          if (Math.abs(full.n[j] - from[N + j]) > JOINED * from[N + j]) {
            return false;
          }
          out.end[j] = to[N + j];
          out.retained[j] = full.retained[j] + to[KEPT + j] - from[KEPT + j];
        }
        out.released[j] = phi * out.retained[j] + handling[j];
        double miss = out.end[j] + out.released[j] / c.volumeMl - out.start[j];
        double still = whole ? Math.exp(-c.relaxationPerH(j, full.metMl / t) * t) : 0;
        double slope = still + phi * caught[j] * (1 - still);
        y[j] = miss / Math.max(1e-6, 1 - slope);
        away += c.loadingG(j) * Math.abs(y[j]);
        all += c.loadingG(j) * out.start[j];
        double turn = c.loadingG(j) * (y[j] - lastStep[j]);
        turned += turn * turn;
        along += turn * c.loadingG(j) * y[j];
      }
      c.met(full.massG, met);
      if (i > 2 && met[1] < LITTLE_MET * c.meanFlowMlPerH) {
        return false;
      }
      if (away <= REPEATED * all) {
        finish(t, until, shift, out);
        return true;
      }
      steps += full.steps;
      if (steps > MOST_STEPS) {
        return false;
      }
      // Each band's own slope is known; what the bands do to each other through the load shows in
      // how the last step turned out.
      double share = i == 0 || turned == 0 ? 0 : Math.max(-4, Math.min(0.9, along / turned));
      for (int j = 0; j < J; j++) {
        double here = out.start[j];
        double next = here + y[j] - share * (here + y[j] - lastStart[j] - lastStep[j]);
        lastStart[j] = here;
        lastStep[j] = y[j];
        out.start[j] = Math.max(0, next);
      }
    }
    return false;
  }

  private void finish(double t, double until, double shift, Cycle out) {
    boolean whole = until >= t;
    int first = whole ? 0 : row(until + shift);
    int last = whole ? 0 : row(t + shift);
    out.massG = 0;
    for (int j = 0; j < J; j++) {
      out.massG += c.loadingG(j) * out.retained[j];
      out.dose[j] = full.dose[j];
      if (!whole) {
        out.dose[j] +=
            cubic(last, t + shift, DOSE + j, N + j) - cubic(first, until + shift, DOSE + j, N + j);
      }
    }
    for (int i = 0; i < wear.length; i++) {
      out.exposureH[i] = full.exposureH[i];
      if (!whole) {
        out.exposureH[i] += exposure(i, last, t + shift) - exposure(i, first, until + shift);
      }
    }
  }

  /** Keeps where the course is now as its last row. */
  private void keep() {
    if ((count + 1) * width > rows.length) {
      rows = Arrays.copyOf(rows, 2 * rows.length);
    }
    int at = count * width;
    rows[at + T] = course.timeH;
    rows[at + M] = course.massG;
    rows[at + DM] = course.rates(scratch);
    c.met(course.massG, met);
    for (int j = 0; j < J; j++) {
      rows[at + N + j] = course.n[j];
      rows[at + DN + j] = scratch[j];
      rows[at + KEPT + j] = course.retained[j];
      rows[at + DKEPT + j] = course.keptPerH(j, scratch[j]);
      rows[at + FOLLOWED + j] = course.n[j] == 0 ? 0 : course.n[j] / balanced(j);
      rows[at + DOSE + j] = course.dose[j];
    }
    for (int i = 0; i < wear.length; i++) {
      rows[at + EXPOSURE + i] = course.exposureH[i];
      rows[at + EXPOSURE + wear.length + i] = course.relativeWear(i);
    }
    count++;
  }

  private void goOn() {
    course.step(FAR_H);
    keep();
  }

  /** The row before a time, with the course stepped on until there is one behind it. */
  private int row(double t) {
    while (rows[(count - 1) * width + T] < t) {
      goOn();
    }
    return before(T, t);
  }

  private int before(int column, double value) {
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

  /** The time at which the course holds a mass, h; beyond {@link #FAR_H} if it never does. */
  private double timeOfMass(double mass) {
    if (mass <= 0) {
      return 0;
    }
    while (rows[(count - 1) * width + M] < mass) {
      if (course.timeH >= FAR_H) {
        return Double.POSITIVE_INFINITY;
      }
      goOn();
    }
    int row = before(M, mass);
    int at = row * width;
    double low = rows[at + T];
    double high = rows[at + width + T];
    double t = low + (mass - rows[at + M]) / (rows[at + width + M] - rows[at + M]) * (high - low);
    for (int i = 0; i < 30; i++) {
      double miss = cubic(row, t, M, DM) - mass;
      if (Math.abs(miss) <= 1e-13 * mass) {
        break;
      }
      if (miss > 0) {
        high = t;
      } else {
        low = t;
      }
      double next = t - miss / rows[at + DM];
      t = next > low && next < high ? next : (low + high) / 2;
    }
    return t;
  }

  /** The count at which supply and removal balance with what now meets the element. */
  private double balanced(int j) {
    double supply = c.supplyPerMlH(j, met[0]);
    return supply == 0 ? 0 : supply / c.relaxationPerH(j, met[1]);
  }

  /**
   * Counts and retained particles of the course at a time.
   *
   * <p>A count that follows the load closely is told by how closely it does. Its slope would not
   * do: it is the small rest of a supply and a removal, and a step is many wash-outs long.
   */
  private void at(double t, double[] out) {
    int row = row(t);
    int at = row * width;
    double step = row == count - 1 ? 0 : rows[at + width + T] - rows[at + T];
    double s = step == 0 ? 0 : (t - rows[at + T]) / step;
    double mass = cubic(row, t, M, DM);
    boolean open = !c.shut(mass);
    if (open) {
      c.met(mass, met);
    }
    for (int j = 0; j < J; j++) {
      out[KEPT + j] = cubic(row, t, KEPT + j, DKEPT + j);
      if (open && c.relaxationPerH(j, met[1]) * step > CLOSELY) {
        double first = rows[at + FOLLOWED + j];
        double next = rows[at + width + FOLLOWED + j];
        out[N + j] = balanced(j) * (first + s * (next - first));
      } else {
        out[N + j] = cubic(row, t, N + j, DN + j);
      }
    }
  }

  /** Exposure of a component on the course up to a time in a row. */
  private double exposure(int i, int row, double t) {
    int slope = EXPOSURE + wear.length + i;
    int at = row * width;
    if (row == count - 1 || !wear[i].meetsFloor(rows[at + slope], rows[at + width + slope])) {
      return cubic(row, t, EXPOSURE + i, slope);
    }
    double piece = (t - rows[at + T]) / PIECES;
    double sum = 0;
    for (int k = 0; k < PIECES; k++) {
      at(rows[at + T] + (k + 0.5) * piece, between);
      for (int j = 0; j < J; j++) {
        scratch[j] = between[N + j];
      }
      sum += wear[i].relative(scratch);
    }
    return rows[at + EXPOSURE + i] + piece * sum;
  }

  /** Cubic through values and slopes of a row and the next. */
  private double cubic(int row, double t, int value, int slope) {
    int at = row * width;
    int next = at + width;
    if (row == count - 1) {
      return rows[at + value];
    }
    double h = rows[next + T] - rows[at + T];
    double s = (t - rows[at + T]) / h;
    double r = 1 - s;
    return rows[at + value] * r * r * (1 + 2 * s)
        + rows[next + value] * s * s * (1 + 2 * r)
        + h * s * r * (rows[at + slope] * r - rows[next + slope] * s);
  }
}
