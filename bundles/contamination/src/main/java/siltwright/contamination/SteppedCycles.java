package siltwright.contamination;

import java.util.Arrays;
import java.util.List;
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
 * <p>While the bypass is shut this is exact, whatever the interval. A release so big that the
 * bypass opens while it washes out is followed over the oil that has met the element, where its
 * decay stays closed. Where the bypass is open and what comes in meanwhile moves it too, or the
 * interval is a few time constants, the cycle is stepped in full instead.
 *
 * <p>Not for use by several threads. Filling a cycle allocates nothing once the course is long
 * enough.
 */
final class SteppedCycles {
  private static final int J = SizeBands.COUNT;

  /** Time constants after which a wash-out is over: e^-18 = 1.5e-8. */
  private static final double OVER = 18;

  /** Change of ln B1 by what comes in during a wash-out up to which the two part clearly. */
  private static final double SMALL_CHANGE = 0.1;

  private static final int ITERATIONS = 60;
  private static final int CYCLES = 30;
  private static final int MOST_STEPS = 1_500;
  private static final double CLOSE = 1e-8;

  /** Share of a release that ends in the element, within which it is known. */
  private static final double SAME_SHARE = 1e-6;

  /** Mass, relative, within which it is found again on the course. */
  private static final double SAME_MASS = 1e-11;

  /** Mass, relative, by which the start of a stepped cycle may still be away. */
  private static final double REPEATED = 1e-6;

  /** Wash-outs within a step of the course from which on a count follows the load closely. */
  private static final double CLOSELY = 8;

  /** Pieces of a step in which the wear leaves its floor or meets it. */
  private static final int PIECES = 8;

  /** Share of a release so small that how much less is left later does not matter. */
  private static final double TINY = 1e-100;

  /** Below this 1 - e^-z loses digits to rounding. */
  private static final double NEARLY_NOTHING = 0.01;

  /** Length of the first panel of a wash-out in time constants, and how each next one grows. */
  private static final double FIRST_PANEL = 0.7;

  private static final double PANEL_GROWTH = 2.5;

  /** No course is followed further than this, h. */
  private static final double FAR_H = 1e6;

  // Gauss-Legendre, four nodes on (0, 1)
  private static final double[] NODE = {
    0.06943184420297371, 0.33000947820757187, 0.6699905217924281, 0.9305681557970263
  };
  private static final double[] NODE_WEIGHT = {
    0.17392742256872693, 0.32607257743127307, 0.32607257743127307, 0.17392742256872693
  };

  /** Integral up to a node, by row, from the values at all four. */
  private static final double[][] UP_TO_NODE = upToNode();

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

  /** Share of a release that washes out within the interval. */
  private final double[] gone = new double[J];

  private final double[] share = new double[J];
  private final double[] y = new double[J];
  private final double[] from = new double[EXPOSURE];
  private final double[] to = new double[EXPOSURE];
  private final double[] between = new double[EXPOSURE];
  // The cubic between two rows of the course
  private int piece;
  private int after;
  private double value0;
  private double value1;
  private double slope0;
  private double slope1;

  private final double[] lastStart = new double[J];
  private final double[] lastStep = new double[J];
  private final double[] handling = new double[J];
  private final double[] scratch = new double[J];
  private final double slowest;

  private final double[] nodeH;
  private final double[] nodeWeightH;
  private final double[] nodeDecay;

  /** Decay from the node before, and the mean of what has decayed since over the time between. */
  private final double[] nodeStep;

  private final double[] nodeLag;
  private final double[] panelH;
  private final double[] panelDecay;

  // The path of a wash-out that opens the bypass, by node: hours, decay and counts at which the
  // load lets the oil settle
  private int nodes;
  private final double[] hoursAt;
  private final double[] decay;
  private final double[] settles;
  private final double[] pace = new double[NODE.length];
  private final double[] shed = new double[J];
  private final double[] lag = new double[J];
  private final double[] lastLevel = new double[J];
  private final double[] lastDecay = new double[J];
  private double lastU;
  private double lastPace;
  private final double cleanFlow;
  private final double[] washDose = new double[J];
  private double washedH;
  private final Balance full;

  /**
   * Prepares a sweep.
   *
   * @param circuit the circuit, in the long run
   * @param wear wear of its components
   */
  SteppedCycles(Circuit circuit, List<Wear> wear) {
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
    cleanFlow = met[1];
    int intervals =
        most == 0
            ? 0
            : 1
                + (int)
                    Math.ceil(
                        Math.log(OVER * most / (FIRST_PANEL * least)) / Math.log(PANEL_GROWTH));
    nodeH = new double[4 * intervals];
    nodeWeightH = new double[nodeH.length];
    nodeDecay = new double[nodeH.length * J];
    nodeStep = new double[nodeDecay.length];
    nodeLag = new double[nodeDecay.length];
    panelH = new double[intervals];
    panelDecay = new double[intervals * J];
    hoursAt = new double[nodeH.length + NODE.length * c.states()];
    decay = new double[hoursAt.length * J];
    settles = new double[hoursAt.length * J];
    double low = 0;
    double high = FIRST_PANEL / most;
    for (int i = 0; i < intervals; i++) {
      panelH[i] = high;
      for (int k = 0; k < 4; k++) {
        int node = 4 * i + k;
        nodeH[node] = low + (high - low) * NODE[k];
        nodeWeightH[node] = (high - low) * NODE_WEIGHT[k];
        double before = node == 0 ? 0 : nodeH[node - 1];
        for (int j = 0; j < J; j++) {
          int at = node * J + j;
          nodeDecay[at] = Math.exp(-a[j] * nodeH[node]);
          nodeStep[at] = step(nodeDecay[at], node == 0 ? 1 : nodeDecay[at - J]);
          nodeLag[at] = lagging(a[j] * (nodeH[node] - before), nodeStep[at]);
        }
      }
      for (int j = 0; j < J; j++) {
        panelDecay[i * J + j] = Math.exp(-a[j] * high);
      }
      low = high;
      high *= PANEL_GROWTH;
    }
    course.counts(Arrays.stream(q).map(SteppedCycles::finite).toArray());
    keep();
  }

  private static double finite(double count) {
    return Double.isFinite(count) ? count : 0;
  }

  /**
   * Finds the cycle that repeats itself with an interval and a release.
   *
   * @param intervalH hours from change to change, above 0
   * @param backFlush φ, 0 up to below 1
   * @param handlingParticles particles of each band let in at a change, length 6
   * @param out filled
   */
  void fill(double intervalH, double backFlush, double[] handlingParticles, Cycle out) {
    out.intervalH = intervalH;
    for (int j = 0; j < J; j++) {
      handling[j] = handlingParticles[j];
      gone[j] = gone(a[j] * intervalH);
    }
    boolean repeats =
        shutThroughout(intervalH, backFlush, out)
            || onTheCourse(intervalH, backFlush, out)
            || stepped(intervalH, backFlush, out);
    out.state = repeats ? Cycle.State.REPEATS : Cycle.State.OVERLOADED;
  }

  /** Closed form of the whole cycle; false if the bypass opens in it. */
  private boolean shutThroughout(double t, double phi, Cycle out) {
    if (c.openingG[0] <= 0) {
      return false;
    }
    double mass = 0;
    for (int j = 0; j < J; j++) {
      double gone = this.gone[j];
      double kept = keptPerH(j);
      y[j] = whileShut(j, t, phi);
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
      washOut(out);
    } else {
      washOutUntil(t, out);
    }
    return true;
  }

  /** 1 - e^-z. */
  private static double gone(double z) {
    return z < NEARLY_NOTHING ? -Math.expm1(-z) : 1 - Math.exp(-z);
  }

  /** Particles of a band that a clean element keeps an hour once the oil has settled. */
  private double keptPerH(int j) {
    return c.reservoirPerH[j] + c.returnPerH[j] - c.sinkMlPerH[j] * q[j];
  }

  /** Count that a change adds to a band's in the cycle that repeats itself with a shut bypass. */
  private double whileShut(int j, double t, double phi) {
    return a[j] == 0
        ? 0
        : (handling[j] + phi * keptPerH(j) * t) / (c.volumeMl * gone[j] * (1 - phi * caught[j]));
  }

  /** Adds the wear of the wash-out y to a cycle's exposures. */
  private void washOut(Cycle out) {
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
          x += scratch[j] * nodeDecay[at + j];
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
      high = Math.min(t, high * PANEL_GROWTH);
    }
  }

  /** A wash-out in closed form, then the course; false if the two do not part clearly. */
  private boolean onTheCourse(double t, double phi, Cycle out) {
    if (t < OVER / slowest || !(rows[DM] > 0)) {
      return false;
    }
    System.arraycopy(caught, 0, share, 0, J);
    for (int j = 0; j < J; j++) {
      y[j] = whileShut(j, t, phi);
    }
    double shift = 0;
    for (int i = 0; i < ITERATIONS; i++) {
      double mass = shedG();
      double moved = timeOfMass(mass);
      if (!(t + moved < FAR_H)) {
        return false;
      }
      at(moved, from);
      at(t + moved, to);
      double change = 0;
      for (int j = 0; j < J; j++) {
        double rest = to[KEPT + j] - from[KEPT + j];
        double next =
            (to[N + j] - from[N + j] + (phi * rest + handling[j]) / c.volumeMl)
                / (1 - phi * share[j]);
        change = Math.max(change, Math.abs(next - y[j]) / (Math.abs(next) + from[N + j] + 1e-300));
        y[j] = next;
      }
      boolean settled = change < CLOSE && Math.abs(moved - shift) <= CLOSE * (t + moved);
      shift = moved;
      if (settled) {
        boolean shut = c.shut(mass + rows[DM] * OVER / slowest);
        double taken = shut ? 0 : follow();
        if (!shut && !(washedH < t && partsClearly(mass))) {
          return false;
        }
        if (taken <= SAME_SHARE) {
          complete(t, shift, phi, shut, out);
          return true;
        }
      }
    }
    return false;
  }

  /** Mass that the wash-out y gives the element, g. */
  private double shedG() {
    double mass = 0;
    for (int j = 0; j < J; j++) {
      mass += c.loadingG(j) * c.volumeMl * y[j] * share[j];
    }
    return mass;
  }

  /** Whether what comes in during the wash-out changes the bypass little. */
  private boolean partsClearly(double mass) {
    c.met(mass, met);
    double before = met[1];
    c.met(mass + rows[DM] * washedH, met);
    return Math.abs(Math.log(before / met[1])) <= SMALL_CHANGE;
  }

  /**
   * Follows the wash-out y as the mass that it sheds opens the bypass.
   *
   * <p>Over the oil that has met the element, u = ∫ B1 dt / B1(0), each band decays as if the
   * bypass were shut, y_j exp(-r_j u - s_j t), and so the mass is known; the time comes after, from
   * dt/du = B1(0)/B1. Fills the path, the dose of a unit of y and the share of it that the element
   * keeps.
   *
   * @return largest change of a share by this; the path is without an end if next to no flow meets
   *     the element
   */
  private double follow() {
    for (int j = 0; j < J; j++) {
      shed[j] = c.loadingG(j) * c.volumeMl * y[j] * share[j];
      washDose[j] = 0;
      lag[j] = 0;
      lastLevel[j] = q[j];
      lastDecay[j] = 1;
    }
    lastU = 0;
    nodes = 0;
    washedH = 0;
    lastPace = 1;
    double low = 0;
    for (int panel = 0; panel < panelH.length; panel++) {
      double high = panelH[panel];
      double begin = low;
      double mass = rows[DM] * washedH;
      double massEnd = rows[DM] * (washedH + (high - low) * lastPace);
      for (int j = 0; j < J; j++) {
        mass += panel == 0 ? 0 : shed[j] * (1 - panelDecay[(panel - 1) * J + j]);
        massEnd += shed[j] * (1 - panelDecay[panel * J + j]);
      }
      for (double opening : c.openingG) {
        if (mass < opening && opening < massEnd) {
          double kink = whereMassIs(opening, begin, high);
          along(begin, kink, -1);
          begin = kink;
          mass = opening;
        }
      }
      along(begin, high, begin == low ? panel : -1);
      low = high;
    }
    double change = 0;
    for (int j = 0; j < J; j++) {
      double next = a[j] > 0 ? 1 - c.sinkMlPerH[j] / c.volumeMl * washDose[j] : 0;
      change = Math.max(change, Math.abs(next - share[j]));
      share[j] = next;
    }
    return change;
  }

  /**
   * Mass in the element at u, g.
   *
   * @param begin how far the wash-out has been followed
   */
  private double massAfter(double u, double begin) {
    double mass = rows[DM] * (washedH + (u - begin) * lastPace);
    for (int j = 0; j < J; j++) {
      mass += shed[j] * (1 - Math.exp(-a[j] * u));
    }
    return mass;
  }

  /** Where between the place that has been reached and another the element holds a mass. */
  private double whereMassIs(double mass, double begin, double end) {
    double low = begin;
    double high = end;
    double missLow = massAfter(low, begin) - mass;
    double missHigh = massAfter(high, begin) - mass;
    double u = low;
    for (int i = 0; i < 8; i++) {
      u = low - missLow * (high - low) / (missHigh - missLow);
      double miss = massAfter(u, begin) - mass;
      if (Math.abs(miss) < 1e-6 * mass) {
        break;
      }
      // The secant's stale end is drawn nearer, so that it does not stay.
      if (miss < 0) {
        low = u;
        missLow = miss;
        missHigh /= 2;
      } else {
        high = u;
        missHigh = miss;
        missLow /= 2;
      }
    }
    return u;
  }

  /**
   * The counts at which the oil would settle with what the element now holds, less what they lag
   * behind: -∫ exp(-a_j (u - v)) dn, n taken as linear from node to node.
   */
  private void lag(double u, int at, int node) {
    boolean known = node == 0 || node > 0 && lastU == nodeH[node - 1];
    for (int j = 0; j < J; j++) {
      double level = balanced(j);
      double left = known ? nodeStep[node * J + j] : step(decay[at + j], lastDecay[j]);
      double behind = known ? nodeLag[node * J + j] : lagging(a[j] * (u - lastU), left);
      lag[j] = lag[j] * left - (level - lastLevel[j]) * behind;
      lastLevel[j] = level;
      lastDecay[j] = decay[at + j];
      settles[at + j] = level + lag[j];
    }
    lastU = u;
  }

  /** What is left of what was left at a node before. */
  private static double step(double decay, double before) {
    return decay < TINY ? 0 : decay / before;
  }

  /** Mean of exp(-z s) over s from 0 to 1. */
  private static double lagging(double z, double left) {
    return z > 0 ? (1 - left) / z : 1;
  }

  /**
   * Follows the wash-out over a piece of u without a kink in it.
   *
   * @param panel the panel that the piece is, whose decays are known; -1 if it is a part of one
   */
  private void along(double low, double high, int panel) {
    double width = high - low;
    for (int k = 0; k < NODE.length; k++) {
      int at = (nodes + k) * J;
      double u = panel < 0 ? low + width * NODE[k] : nodeH[NODE.length * panel + k];
      double load = rows[DM] * (washedH + (u - low) * lastPace);
      for (int j = 0; j < J; j++) {
        decay[at + j] =
            panel < 0 ? Math.exp(-a[j] * u) : nodeDecay[(NODE.length * panel + k) * J + j];
        load += shed[j] * (1 - decay[at + j]);
      }
      c.met(load, met);
      pace[k] = cleanFlow / met[1];
      lastPace = pace[k];
      lag(u, at, panel < 0 ? -1 : NODE.length * panel + k);
    }
    double late = washedH - low;
    for (int k = 0; k < NODE.length; k++) {
      double lateHere = late;
      for (int l = 0; l < NODE.length; l++) {
        lateHere += width * UP_TO_NODE[k][l] * (pace[l] - 1);
      }
      double hours = width * NODE_WEIGHT[k] * pace[k];
      hoursAt[nodes] = hours;
      washedH += hours;
      for (int j = 0; j < J; j++) {
        int at = nodes * J + j;
        if (c.sinkMlPerH[j] > 0) {
          decay[at] *= Math.exp(-c.sinkMlPerH[j] / c.volumeMl * lateHere);
        }
        washDose[j] += hours * decay[at];
      }
      nodes++;
    }
  }

  private void complete(double t, double shift, double phi, boolean shut, Cycle out) {
    double joins = shut ? shift : shift + washedH;
    int first = row(joins);
    int last = row(t + shift);
    out.massG = 0;
    within(first, joins);
    for (int j = 0; j < J; j++) {
      out.dose[j] = -cubic(DOSE + j, N + j);
    }
    within(last, t + shift);
    for (int j = 0; j < J; j++) {
      out.retained[j] = c.volumeMl * y[j] * share[j] + to[KEPT + j] - from[KEPT + j];
      out.start[j] = from[N + j] + y[j];
      out.end[j] = to[N + j];
      out.released[j] = phi * out.retained[j] + handling[j];
      out.massG += c.loadingG(j) * out.retained[j];
      double wash = 0;
      if (!shut) {
        wash = (out.start[j] - q[j]) * washDose[j];
        for (int node = 0; node < nodes; node++) {
          wash += hoursAt[node] * settles[node * J + j];
        }
      } else if (a[j] > 0) {
        wash = y[j] / a[j];
      }
      out.dose[j] += wash + cubic(DOSE + j, N + j);
    }
    for (int i = 0; i < wear.length; i++) {
      out.exposureH[i] = exposure(i, last, t + shift) - exposure(i, first, joins);
    }
    if (shut) {
      washOut(out);
    } else {
      washOutOpening(out);
    }
  }

  /** Adds the wear while the bypass opens and the release y washes out to a cycle's exposures. */
  private void washOutOpening(Cycle out) {
    for (int i = 0; i < wear.length; i++) {
      Wear w = wear[i];
      for (int node = 0; node < nodes; node++) {
        double x = 0;
        int at = node * J;
        for (int j = 0; j < J; j++) {
          x += w.weight(j) * ((out.start[j] - q[j]) * decay[at + j] + settles[at + j]);
        }
        out.exposureH[i] += hoursAt[node] * w.power(x);
      }
    }
  }

  /** Integrals of the Lagrange polynomials of the nodes up to each node. */
  private static double[][] upToNode() {
    int size = NODE.length;
    double[][] integral = new double[size][size];
    for (int k = 0; k < size; k++) {
      for (int l = 0; l < size; l++) {
        for (int m = 0; m < size; m++) {
          double x = NODE[k] * NODE[m];
          double value = 1;
          for (int other = 0; other < size; other++) {
            value *= other == l ? 1 : (x - NODE[other]) / (NODE[l] - NODE[other]);
          }
          integral[k][l] += NODE[k] * NODE_WEIGHT[m] * value;
        }
      }
    }
    return integral;
  }

  /** A cycle stepped again and again until it repeats itself; false if it never does. */
  private boolean stepped(double t, double phi, Cycle out) {
    for (int j = 0; j < J; j++) {
      out.start[j] = finite(q[j] + whileShut(j, t, phi));
    }
    int steps = 0;
    for (int i = 0; i < CYCLES; i++) {
      full.counts(out.start);
      full.fresh();
      full.runTo(t);
      double away = 0;
      double all = 0;
      double turned = 0;
      double along = 0;
      for (int j = 0; j < J; j++) {
        out.end[j] = full.n[j];
        out.retained[j] = full.retained[j];
        out.released[j] = phi * out.retained[j] + handling[j];
        double miss = out.end[j] + out.released[j] / c.volumeMl - out.start[j];
        double still = Math.exp(-c.relaxationPerH(j, full.metMl / t) * t);
        double slope = still + phi * caught[j] * (1 - still);
        y[j] = miss / Math.max(1e-6, 1 - slope);
        away += c.loadingG(j) * Math.abs(y[j]);
        all += c.loadingG(j) * out.start[j];
        double turn = c.loadingG(j) * (y[j] - lastStep[j]);
        turned += turn * turn;
        along += turn * c.loadingG(j) * y[j];
      }
      c.met(full.massG, met);
      if (i > 2 && met[1] < CycleSweep.LITTLE_MET * c.meanFlowMlPerH) {
        return false;
      }
      if (away <= REPEATED * all) {
        out.massG = full.massG;
        System.arraycopy(full.dose, 0, out.dose, 0, J);
        System.arraycopy(full.exposureH, 0, out.exposureH, 0, wear.length);
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
    return SettledCycles.rowBefore(rows, width, count, column, value);
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
      within(row, t);
      double miss = cubic(M, DM) - mass;
      if (Math.abs(miss) <= SAME_MASS * mass) {
        break;
      }
      if (miss > 0) {
        high = t;
      } else {
        low = t;
      }
      double s = (t - rows[at + T]) / (rows[at + width + T] - rows[at + T]);
      double next = t - miss / (rows[at + DM] + s * (rows[at + width + DM] - rows[at + DM]));
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
    within(row, t);
    double mass = cubic(M, DM);
    boolean open = !c.shut(mass);
    if (open) {
      c.met(mass, met);
    }
    for (int j = 0; j < J; j++) {
      out[KEPT + j] = cubic(KEPT + j, DKEPT + j);
      if (open && c.relaxationPerH(j, met[1]) * step > CLOSELY) {
        double first = rows[at + FOLLOWED + j];
        double next = rows[at + width + FOLLOWED + j];
        out[N + j] = balanced(j) * (first + s * (next - first));
      } else {
        out[N + j] = cubic(N + j, DN + j);
      }
    }
  }

  /** Exposure of a component on the course up to a time in a row. */
  private double exposure(int i, int row, double t) {
    int slope = EXPOSURE + wear.length + i;
    int at = row * width;
    if (row == count - 1 || !wear[i].meetsFloor(rows[at + slope], rows[at + width + slope])) {
      within(row, t);
      return cubic(EXPOSURE + i, slope);
    }
    double pieceH = (t - rows[at + T]) / PIECES;
    double sum = 0;
    for (int k = 0; k < PIECES; k++) {
      at(rows[at + T] + (k + 0.5) * pieceH, between);
      for (int j = 0; j < J; j++) {
        scratch[j] = between[N + j];
      }
      sum += wear[i].relative(scratch);
    }
    return rows[at + EXPOSURE + i] + pieceH * sum;
  }

  /** Sets the weights of the cubic through values and slopes of a row and the next. */
  private void within(int row, double t) {
    if (row == count - 1) {
      piece = row * width;
      after = piece;
      value0 = 1;
      value1 = 0;
      slope0 = 0;
      slope1 = 0;
      return;
    }
    piece = row * width;
    after = piece + width;
    double h = rows[after + T] - rows[piece + T];
    double s = (t - rows[piece + T]) / h;
    double r = 1 - s;
    value0 = r * r * (1 + 2 * s);
    value1 = s * s * (1 + 2 * r);
    slope0 = h * s * r * r;
    slope1 = -h * s * s * r;
  }

  /** The cubic of two columns at the place that was set last. */
  private double cubic(int value, int slope) {
    return rows[piece + value] * value0
        + rows[after + value] * value1
        + rows[piece + slope] * slope0
        + rows[after + slope] * slope1;
  }
}
