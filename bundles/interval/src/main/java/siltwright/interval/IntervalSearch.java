package siltwright.interval;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.function.DoublePredicate;
import java.util.function.DoubleUnaryOperator;
import siltwright.cleanliness.Iso4406;
import siltwright.contamination.Cycle;
import siltwright.model.Bands;
import siltwright.model.ChangeProcedure;
import siltwright.model.CleanlinessCode;
import siltwright.model.Machine;
import siltwright.model.SizeBands;

/** Searches intervals on a cost curve: the cheapest, the flat range round it, what limits allow. */
final class IntervalSearch {
  /** Shortest interval looked at, h. */
  static final double SHORTEST_H = 10;

  /** Longest interval ever looked at, h: past any machine's life. */
  static final double LONGEST_H = 64_000;

  private static final int GRID = 56;

  /**
   * Cost over the least beyond which a curve is not followed: only the changes get cheaper there.
   */
  static final double FAR_DEARER = 4;

  private static final double STRIDE = 0.4;
  private static final double GOLDEN = (Math.sqrt(5) - 1) / 2;

  /** Width of ln T within which an interval is found. */
  static final double WIDTH = 1e-5;

  private IntervalSearch() {}

  /** Intervals evenly spread over the powers of ten, h. */
  static double[] grid(double lowH, double highH, int points) {
    double[] t = new double[points];
    for (int i = 0; i < points; i++) {
      t[i] = lowH * Math.pow(highH / lowH, (double) i / (points - 1));
    }
    t[points - 1] = highH;
    return t;
  }

  /**
   * Finds the interval that costs least within the limits.
   *
   * @param curve the curve
   * @param procedure the procedure
   * @param horizonH how far to look at first, h; further where the cost still falls there
   */
  static Best best(CostCurve curve, ChangeProcedure procedure, double horizonH) {
    Machine m = curve.machine();
    DoubleUnaryOperator cost = t -> curve.perH(t, procedure);
    Cycle.State state = curve.cycle(SHORTEST_H, procedure).state();
    if (state == Cycle.State.NO_WAY_OUT) {
      return none(
          List.of(),
          "particles of some size come in and nothing takes them out, so the oil never settles: "
              + "give filter efficiency, settling or an oil change for every size");
    }
    if (state == Cycle.State.OVERLOADED) {
      return none(
          List.of(),
          String.format(
              Locale.ROOT,
              "the element cannot hold the dirt that comes in even within %.0f h",
              SHORTEST_H));
    }
    double far = horizonH;
    double free = cheapest(cost, SHORTEST_H, far);
    while (free >= far * (1 - 1e-3) && far < LONGEST_H) {
      far = Math.min(LONGEST_H, 2 * far);
      free = cheapest(cost, SHORTEST_H, far);
    }
    boolean finite = free < far * (1 - 1e-3);
    double longest = far;
    List<Best.Limit> limits = new ArrayList<>();
    double maker = m.limits().makerMaximumH().orElse(Double.POSITIVE_INFINITY);
    if (Double.isFinite(maker)) {
      limits.add(new Best.Limit("maker's maximum", maker, free > maker));
      longest = Math.min(longest, maker);
    }
    if (m.limits().target().isPresent()) {
      CleanlinessCode target = m.limits().target().get();
      Bands clean = curve.circuit().steadyPerMl(0);
      if (!meets(clean, target)) {
        limits.add(new Best.Limit("cleanliness target " + target, 0, true));
        return new Best(
            Optional.empty(),
            finite ? Optional.of(interval(cost, free, SHORTEST_H, far)) : Optional.empty(),
            "no interval keeps the oil at "
                + target
                + ": even with a clean element it settles at "
                + Iso4406.code(clean),
            limits);
      }
      double allowed =
          last(SHORTEST_H, far, free, WIDTH, t -> meets(curve.dirtiestPerMl(t, procedure), target));
      if (allowed < far) {
        limits.add(new Best.Limit("cleanliness target " + target, allowed, free > allowed));
        longest = Math.min(longest, allowed);
      } else {
        limits.add(new Best.Limit("cleanliness target " + target, Double.POSITIVE_INFINITY, false));
      }
    }
    if (!finite && longest >= far) {
      return none(
          limits,
          String.format(
              Locale.ROOT,
              "no finite optimum: the cost still falls at %.0f h, and no limit ends it",
              far));
    }
    if (longest < SHORTEST_H) {
      return none(
          limits,
          String.format(
              Locale.ROOT, "the limits leave no interval of %.0f h or longer", SHORTEST_H));
    }
    Best.Interval freely = finite ? interval(cost, free, SHORTEST_H, far) : null;
    Best.Interval within =
        finite && free <= longest
            ? interval(cost, free, SHORTEST_H, longest)
            : interval(cost, cheapest(cost, SHORTEST_H, longest), SHORTEST_H, longest);
    return new Best(Optional.of(within), Optional.ofNullable(freely), "", limits);
  }

  private static Best none(List<Best.Limit> limits, String reason) {
    return new Best(Optional.empty(), Optional.empty(), reason, limits);
  }

  private static Best.Interval interval(
      DoubleUnaryOperator cost, double t, double lowH, double highH) {
    double least = cost.applyAsDouble(t);
    return new Best.Interval(
        t,
        least,
        flat(cost, t, 1.01 * least, lowH, highH),
        flat(cost, t, 1.05 * least, lowH, highH));
  }

  /** The least cost at a few intervals that the limits allow: at most a little above the least. */
  static double roughly(CostCurve curve, ChangeProcedure procedure, double horizonH) {
    double longest = Math.min(horizonH, curve.machine().limits().makerMaximumH().orElse(horizonH));
    Optional<CleanlinessCode> target = curve.machine().limits().target();
    double least = Double.POSITIVE_INFINITY;
    for (double t = SHORTEST_H; t <= longest; t *= 1.5) {
      double interval = t;
      if (target
          .filter(code -> !meets(curve.dirtiestPerMl(interval, procedure), code))
          .isPresent()) {
        break;
      }
      double g = curve.perH(t, procedure);
      if (g > 1.3 * least) {
        break;
      }
      least = Math.min(least, g);
    }
    return least;
  }

  /** The interval of least cost between two. */
  static double cheapest(DoubleUnaryOperator cost, double lowH, double highH) {
    double[] grid = grid(lowH, highH, GRID);
    int best = 0;
    double least = Double.POSITIVE_INFINITY;
    for (int i = 0; i < grid.length; i++) {
      double g = cost.applyAsDouble(grid[i]);
      if (g < least) {
        least = g;
        best = i;
      } else if (g > FAR_DEARER * least) {
        break;
      }
    }
    double a = Math.log(grid[Math.max(0, best - 1)]);
    double b = Math.log(grid[Math.min(grid.length - 1, best + 1)]);
    double x = b - GOLDEN * (b - a);
    double y = a + GOLDEN * (b - a);
    double gx = cost.applyAsDouble(Math.exp(x));
    double gy = cost.applyAsDouble(Math.exp(y));
    while (b - a > 20 * WIDTH) {
      if (gx <= gy) {
        b = y;
        y = x;
        gy = gx;
        x = b - GOLDEN * (b - a);
        gx = cost.applyAsDouble(Math.exp(x));
      } else {
        a = x;
        x = y;
        gx = gy;
        y = a + GOLDEN * (b - a);
        gy = cost.applyAsDouble(Math.exp(y));
      }
    }
    // One of the two looked at: between them there may be the edge past which no cycle repeats.
    double t = Math.exp(gx <= gy ? x : y);
    double g = Math.min(gx, gy);
    // The least may stand at an end, where the section only comes near.
    if (cost.applyAsDouble(lowH) <= g) {
      return lowH;
    }
    return cost.applyAsDouble(highH) <= g ? highH : t;
  }

  /** The range round an interval in which the cost stays at or below a level. */
  private static double[] flat(
      DoubleUnaryOperator cost, double t, double level, double lowH, double highH) {
    return new double[] {
      edge(t, lowH, u -> cost.applyAsDouble(u) <= level),
      edge(t, highH, u -> cost.applyAsDouble(u) <= level)
    };
  }

  /** How far from an interval towards another a condition holds without a break. */
  private static double edge(double from, double to, DoublePredicate holds) {
    double good = Math.log(from);
    double end = Math.log(to);
    // Doubling steps: the bottom is flat, its edges may be near or far.
    for (double step = (end - good) / 64; good != end; step *= 1.6) {
      double bad = Math.abs(step) >= Math.abs(end - good) ? end : good + step;
      if (!holds.test(Math.exp(bad))) {
        return Math.exp(bisect(good, bad, WIDTH, holds));
      }
      good = bad;
    }
    return to;
  }

  /**
   * The longest interval up to which a condition holds that, once broken, stays so.
   *
   * @param nearH where it may be expected to break, h
   * @param width width of ln T within which it is found
   */
  static double last(double lowH, double highH, double nearH, double width, DoublePredicate holds) {
    if (!holds.test(lowH)) {
      return 0;
    }
    double good = Math.log(lowH);
    double end = Math.log(highH);
    double bad = Math.log(Math.min(highH, Math.max(1.1 * lowH, nearH)));
    // Longer intervals are dearer to compute, so the break is approached from below.
    while (holds.test(Math.exp(bad))) {
      if (bad >= end) {
        return highH;
      }
      good = bad;
      bad = Math.min(end, bad + STRIDE);
    }
    return Math.exp(bisect(good, bad, width, holds));
  }

  private static double bisect(double good, double bad, double width, DoublePredicate holds) {
    double in = good;
    double out = bad;
    while (Math.abs(out - in) > width) {
      double middle = (in + out) / 2;
      if (holds.test(Math.exp(middle))) {
        in = middle;
      } else {
        out = middle;
      }
    }
    return in;
  }

  /** Whether band counts are within a code; no counts are not. */
  static boolean meets(Bands perMl, CleanlinessCode target) {
    if (perMl == null) {
      return false;
    }
    double[] n = SizeBands.toCumulative(perMl.toArray());
    double[] limit = Iso4406.upperLimitsPerMl(target);
    return n[0] <= limit[0] && n[1] <= limit[1] && n[2] <= limit[2];
  }
}
