package siltwright.contamination;

import java.util.Arrays;
import java.util.List;
import siltwright.model.SizeBands;

/**
 * Steps the contamination balance of a circuit through time.
 *
 * <p>Given the course of the element's load, each band's balance is linear: dn/dt = g(t) - a(t) n.
 * A step solves it with the exponential of the mid-step rate and a parabola through the rest
 * (start, middle, end), and repeats until load and counts agree. So a step may be far longer than a
 * wash-out where the counts only follow the load, and is exact where the bypass is shut. Retained
 * mass comes from the balance itself (in = oil + element + sinks), which therefore closes to
 * rounding.
 *
 * <p>Not for use by several threads. Steps allocate nothing.
 */
final class Balance {
  private static final int J = SizeBands.COUNT;

  /** Largest growth of ln h in a step while the bypass is open. */
  private static final double LOG_DROP_STEP = 0.3;

  /** Largest change of a weighted count, relative, in a step. */
  private static final double PACE_STEP = 0.4;

  /** Count that no longer matters: one particle in a cubic metre. */
  private static final double TRACE_PER_ML = 1e-6;

  private static final double SERIES_BELOW = 0.2;
  private static final double[] SERIES = series();
  private static final int SWEEPS = 8;
  private static final double SETTLED = 1e-9;

  /** Relative width within which a mass counts as that at which the bypass opens. */
  private static final double AT_KINK = 1e-8;

  private final Circuit c;
  private final Wear[] wear;

  /** Hours since the element was fitted. */
  double timeH;

  /** Mass in the element, fines with it, g. */
  double massG;

  /** Band counts in the tank, 1/mL. */
  final double[] n = new double[J];

  /** Particles of each band retained by the element since it was fitted. */
  final double[] retained = new double[J];

  /** ∫ n dt since the element was fitted, h/mL. */
  final double[] dose = new double[J];

  /** ∫ κ dt of each component since the element was fitted, h. */
  final double[] exposureH;

  /** ∫ B1 dt since the element was fitted, mL: oil that met the element. */
  double metMl;

  /** Steps taken since the element was fitted. */
  int steps;

  /** Length of the last step with the bypass open; 0 behind a kink. */
  private double lastOpenH;

  private double metEnd;
  private final double[] met = new double[2];
  private final double[] dn = new double[J];
  private final double[] nMid = new double[J];
  private final double[] nEnd = new double[J];
  private final double[] doseEnd = new double[J];
  private final double[] half = new double[7];
  private final double[] full = new double[7];
  private double massEnd;

  Balance(Circuit circuit, List<Wear> wear) {
    c = circuit;
    this.wear = wear.toArray(Wear[]::new);
    exposureH = new double[this.wear.length];
  }

  /** Sets the counts in the tank. */
  void counts(double[] perMl) {
    System.arraycopy(perMl, 0, n, 0, J);
  }

  /** Fits a new element: its load and all sums begin at zero. */
  void fresh() {
    timeH = 0;
    massG = 0;
    metMl = 0;
    steps = 0;
    lastOpenH = 0;
    Arrays.fill(retained, 0);
    Arrays.fill(dose, 0);
    Arrays.fill(exposureH, 0);
  }

  /** Releases particles of a band into the tank. */
  void release(int j, double particles) {
    n[j] += particles / c.volumeMl;
  }

  /** Replaces a share of the oil, which takes its dirt along, by oil with other counts. */
  void exchangeOil(double share, double[] newPerMl) {
    for (int j = 0; j < J; j++) {
      n[j] += share * (newPerMl[j] - n[j]);
    }
    lastOpenH = 0;
  }

  /** Runs on to an hour. */
  void runTo(double endH) {
    while (timeH < endH) {
      step(endH);
    }
  }

  /** Relative wear of a component now. */
  double relativeWear(int component) {
    return wear[component].relative(n);
  }

  /**
   * Rates now: dn/dt of each band, 1/mL/h, into an array of length 6.
   *
   * @return dM/dt, g/h
   */
  double rates(double[] out) {
    c.met(massG, met);
    double mass = 0;
    for (int j = 0; j < J; j++) {
      out[j] = c.supplyPerMlH(j, met[0]) - c.relaxationPerH(j, met[1]) * n[j];
      mass += c.loadingG(j) * keptPerH(j, out[j]);
    }
    return mass;
  }

  /** Particles of a band that the element keeps per hour when the count changes at a rate. */
  double keptPerH(int j, double dnPerH) {
    return c.reservoirPerH[j] + c.returnPerH[j] - c.volumeMl * dnPerH - c.sinkMlPerH[j] * n[j];
  }

  /** Takes one step, at most to an hour. */
  void step(double endH) {
    double massRate = rates(dn);
    boolean shut = c.openingG[0] > 0 && massG < c.openingG[0] * (1 - 2 * AT_KINK);
    double left = endH - timeH;
    double step = left;
    double fastest = 0;
    for (int j = 0; j < J; j++) {
      fastest = Math.max(fastest, c.relaxationPerH(j, met[1]));
    }
    for (Wear w : wear) {
      step = Math.min(step, PACE_STEP / w.pacePerH(n, dn, fastest));
    }
    if (!shut && massG < c.blockedG) {
      for (int j = 0; j < J; j++) {
        if (dn[j] < 0) {
          step = Math.min(step, 2 * PACE_STEP * (n[j] + TRACE_PER_ML) / -dn[j]);
        }
      }
      // Behind a kink the counts first have to find the course that follows the load.
      lastOpenH = lastOpenH == 0 ? 2 / fastest : 2 * lastOpenH;
      step = Math.min(step, lastOpenH);
      if (massRate > 0) {
        double perG = c.loading.logSlope(massG / c.capacityG) / c.capacityG;
        step = Math.min(step, LOG_DROP_STEP / (perG * massRate));
      }
    }
    double kink = nextKink();
    solve(step, shut, massRate);
    lastOpenH = step;
    if (massEnd > kink * (1 + AT_KINK)) {
      step = solveTo(kink, step, shut, massRate);
      lastOpenH = 0;
    }
    for (int i = 0; i < wear.length; i++) {
      exposureH[i] += step * wear[i].mean(n, nMid, nEnd, doseEnd, step);
    }
    for (int j = 0; j < J; j++) {
      double in = c.reservoirPerH[j] + c.returnPerH[j];
      retained[j] += in * step - c.volumeMl * (nEnd[j] - n[j]) - c.sinkMlPerH[j] * doseEnd[j];
      dose[j] += doseEnd[j];
      n[j] = nEnd[j];
    }
    massG = massEnd;
    metMl += metEnd;
    steps++;
    timeH = step == left ? endH : timeH + step;
  }

  /** The next mass at which the bypass begins to open in a state, g. */
  private double nextKink() {
    double next =
        c.bypassOpens && massG < c.blockedG * (1 - 2 * AT_KINK)
            ? c.blockedG
            : Double.POSITIVE_INFINITY;
    for (double opening : c.openingG) {
      if (opening > Math.max(0, massG) * (1 + 2 * AT_KINK) && massG < c.blockedG) {
        next = Math.min(next, opening);
      }
    }
    return next;
  }

  /**
   * Solves the step that ends where a bypass opens, shorter than one that goes past; its length.
   */
  private double solveTo(double kink, double tooLong, boolean shut, double massRate) {
    double low = 0;
    double lowMass = massG;
    double high = tooLong;
    double highMass = massEnd;
    double step = tooLong;
    for (int i = 0; i < 100 && Math.abs(massEnd - kink) > AT_KINK * kink; i++) {
      double secant = low + (kink - lowMass) / (highMass - lowMass) * (high - low);
      double margin = i % 4 == 3 ? 0.5 : 1e-3;
      step = Math.min(high - margin * (high - low), Math.max(low + margin * (high - low), secant));
      solve(step, shut, massRate);
      if (massEnd < kink) {
        low = step;
        lowMass = massEnd;
      } else {
        high = step;
        highMass = massEnd;
      }
    }
    return step;
  }

  /**
   * Solves a step; leaves counts at its middle and end, doses and mass at its end.
   *
   * @param massRate dM/dt at the start, g/h: where the load may be sought first
   */
  private void solve(double step, boolean shut, double massRate) {
    c.met(massG, met);
    final double hours0 = met[0];
    final double flow0 = met[1];
    double hours1 = hours0;
    double flow1 = flow0;
    double hours2 = hours0;
    double flow2 = flow0;
    double s = step / 2;
    massEnd = massG;
    metEnd = flow0 * step;
    if (!shut) {
      c.met(massG + massRate * s, met);
      hours1 = met[0];
      flow1 = met[1];
      c.met(massG + massRate * step, met);
      hours2 = met[0];
      flow2 = met[1];
    }
    for (int sweep = 0; sweep < SWEEPS; sweep++) {
      double massMid = massG;
      double before = massEnd;
      massEnd = massG;
      for (int j = 0; j < J; j++) {
        double here = n[j];
        double rate = c.relaxationPerH(j, flow1);
        double halfDecay = Math.exp(-rate * s);
        weights(rate * s, halfDecay, half);
        weights(rate * step, halfDecay * halfDecay, full);
        double f0 = c.supplyPerMlH(j, hours0) - (c.relaxationPerH(j, flow0) - rate) * here;
        double f1 = c.supplyPerMlH(j, hours1);
        double supply2 = c.supplyPerMlH(j, hours2);
        double rate2 = c.relaxationPerH(j, flow2);
        double end = sweep > 0 ? nEnd[j] : towards(here, supply2, rate2, 1 - full[6]);
        double f2 = supply2 - (rate2 - rate) * end;
        double c1 = -3 * f0 + 4 * f1 - f2;
        double c2 = 2 * f0 - 4 * f1 + 2 * f2;
        nMid[j] = here * half[6] + s * (f0 * half[0] + c1 / 2 * half[1] + c2 / 4 * half[2]);
        double doseMid =
            s * (here * half[0] + s * (f0 * half[3] + c1 / 2 * half[4] + c2 / 4 * half[5]));
        nEnd[j] = here * full[6] + step * (f0 * full[0] + c1 * full[1] + c2 * full[2]);
        doseEnd[j] = step * (here * full[0] + step * (f0 * full[3] + c1 * full[4] + c2 * full[5]));
        double in = c.reservoirPerH[j] + c.returnPerH[j];
        massMid +=
            c.loadingG(j) * (in * s - c.volumeMl * (nMid[j] - here) - c.sinkMlPerH[j] * doseMid);
        massEnd +=
            c.loadingG(j)
                * (in * step - c.volumeMl * (nEnd[j] - here) - c.sinkMlPerH[j] * doseEnd[j]);
      }
      if (shut || sweep > 1 && Math.abs(massEnd - before) <= SETTLED * massEnd) {
        return;
      }
      c.met(massMid, met);
      hours1 = met[0];
      flow1 = met[1];
      c.met(massEnd, met);
      hours2 = met[0];
      flow2 = met[1];
      metEnd = step / 6 * (flow0 + 4 * flow1 + flow2);
    }
  }

  /** A count that has gone a share of the way to where supply and removal balance. */
  private static double towards(double count, double supply, double rate, double share) {
    return rate > 0 ? count + (supply / rate - count) * share : count;
  }

  /**
   * Weights of a polynomial source against exp(-z (1-s)), s from 0 to 1: w_k = ∫ s^k e^(-z(1-s)) ds
   * in [0] to [2] for k = 0, 1, 2; ∫ s^k (1 - e^(-z(1-s)))/z ds, which is w_(k+1)/(k+1), in [3] to
   * [5]; e^-z in [6].
   *
   * <p>By parts, z w_(k+1) = 1 - (k+1) w_k: upward where z is large enough to divide by, downward
   * from the series of w_3 where it is not.
   */
  private static void weights(double z, double decay, double[] w) {
    double w3;
    if (z < SERIES_BELOW) {
      w3 = 0;
      for (int i = SERIES.length - 1; i >= 0; i--) {
        w3 = SERIES[i] - z * w3;
      }
      w[2] = (1 - z * w3) / 3;
      w[1] = (1 - z * w[2]) / 2;
      w[0] = 1 - z * w[1];
    } else {
      double perZ = 1 / z;
      w[0] = (1 - decay) * perZ;
      w[1] = (1 - w[0]) * perZ;
      w[2] = (1 - 2 * w[1]) * perZ;
      w3 = (1 - 3 * w[2]) * perZ;
    }
    w[3] = w[1];
    w[4] = w[2] / 2;
    w[5] = w3 / 3;
    w[6] = decay;
  }

  /** 3!/(4+i)!, the series of w_3 in -z. */
  private static double[] series() {
    double[] terms = new double[10];
    double term = 0.25;
    for (int i = 0; i < terms.length; i++) {
      terms[i] = term;
      term /= 5 + i;
    }
    return terms;
  }
}
