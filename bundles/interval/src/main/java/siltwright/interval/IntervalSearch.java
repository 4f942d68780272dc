package siltwright.interval;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.function.DoubleUnaryOperator;
import org.apache.commons.math3.optim.MaxEval;
import org.apache.commons.math3.optim.nonlinear.scalar.GoalType;
import org.apache.commons.math3.optim.univariate.BrentOptimizer;
import org.apache.commons.math3.optim.univariate.SearchInterval;
import org.apache.commons.math3.optim.univariate.UnivariateObjectiveFunction;
import org.apache.commons.math3.optim.univariate.UnivariatePointValuePair;
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

  private static final int GRID = 36;

  /**
   * Cost over the least beyond which a curve is not followed: only the changes get cheaper there.
   */
  static final double FAR_DEARER = 4;

  private static final double STRIDE = 0.4;
  private static final int MOST_TRIES = 600;
  private static final int CODE_NUMBERS = 3;

  /** Difference of two costs, relative, that is rounding alone. */
  private static final double ROUNDING = 1e-12;

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
      if (over(clean, target) > 0) {
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
          last(SHORTEST_H, far, free, WIDTH, t -> over(curve.dirtiestPerMl(t, procedure), target));
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
        finite && longest == far
            ? freely
            : interval(
                cost,
                finite && free <= longest ? free : cheapest(cost, SHORTEST_H, longest),
                SHORTEST_H,
                longest);
    return new Best(Optional.of(within), Optional.ofNullable(freely), "", limits);
  }

  private static Best none(List<Best.Limit> limits, String reason) {
    return new Best(Optional.empty(), Optional.empty(), reason, limits);
  }

  private static Best.Interval interval(
      DoubleUnaryOperator cost, double t, double lowH, double highH) {
    double least = cost.applyAsDouble(t);
    double down1 = flatTo(cost, least, 0.01, t, lowH);
    double up1 = flatTo(cost, least, 0.01, t, highH);
    return new Best.Interval(
        t,
        least,
        new double[] {down1, up1},
        new double[] {
          flatTo(cost, least, 0.05, down1, lowH), flatTo(cost, least, 0.05, up1, highH)
        });
  }

  /** How far from an interval towards another the cost stays within a share of the least. */
  private static double flatTo(
      DoubleUnaryOperator cost, double least, double share, double from, double to) {
    double good = Math.log(from);
    double end = Math.log(to);
    DoubleUnaryOperator above = u -> cost.applyAsDouble(Math.exp(u)) / least - 1 - share;
    // Doubling steps: the bottom is flat, its edges may be near or far.
    for (double step = (end - good) / 64; good != end; step *= 1.6) {
      double bad = Math.abs(step) >= Math.abs(end - good) ? end : good + step;
      if (above.applyAsDouble(bad) > 0) {
        return Math.exp(crossing(above, good, bad, WIDTH));
      }
      good = bad;
    }
    return to;
  }

  /** The least cost at a few intervals that the limits allow: at most a little above the least. */
  static double roughly(CostCurve curve, ChangeProcedure procedure, double horizonH) {
    double longest = Math.min(horizonH, curve.machine().limits().makerMaximumH().orElse(horizonH));
    Optional<CleanlinessCode> target = curve.machine().limits().target();
    double least = Double.POSITIVE_INFINITY;
    for (double t = SHORTEST_H; t <= longest; t *= 1.5) {
      double interval = t;
      if (target
          .filter(code -> over(curve.dirtiestPerMl(interval, procedure), code) > 0)
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
    double low = Math.log(grid[Math.max(0, best - 1)]);
    double high = Math.log(grid[Math.min(grid.length - 1, best + 1)]);
    if (low == high) {
      return highH; // a limit may leave one interval only
    }
    UnivariatePointValuePair section =
        new BrentOptimizer(WIDTH, 10 * WIDTH)
            .optimize(
                new UnivariateObjectiveFunction(u -> cost.applyAsDouble(Math.exp(u))),
                GoalType.MINIMIZE,
                new MaxEval(MOST_TRIES),
                new SearchInterval(low, high, Math.log(grid[best])));
    // The least may stand at an end, where the section only comes near.
    return least <= section.getValue() * (1 + ROUNDING) ? grid[best] : Math.exp(section.getPoint());
  }

  /**
   * The longest interval up to which something stays within its limit that, once over, stays so.
   *
   * @param nearH where it may be expected to go over, h
   * @param width width of ln T within which it is found
   * @param over how far it is over, at most 0 within
   */
  static double last(
      double lowH, double highH, double nearH, double width, DoubleUnaryOperator over) {
    if (over.applyAsDouble(lowH) > 0) {
      return 0;
    }
    DoubleUnaryOperator inLogs = u -> over.applyAsDouble(Math.exp(u));
    double good = Math.log(lowH);
    double end = Math.log(highH);
    double bad = Math.log(Math.min(highH, Math.max(1.1 * lowH, nearH)));
    // Longer intervals are dearer to compute, so the limit is approached from below.
    while (true) {
      if (inLogs.applyAsDouble(bad) > 0) {
        return Math.exp(crossing(inLogs, good, bad, width));
      }
      if (bad >= end) {
        return highH;
      }
      good = bad;
      bad = Math.min(end, bad + STRIDE);
    }
  }

  /**
   * The last place, coming from one at which a function is not above 0, before one at which it is.
   */
  private static double crossing(DoubleUnaryOperator f, double good, double bad, double width) {
    double in = good;
    double out = bad;
    while (Math.abs(out - in) > width) {
      double middle = (in + out) / 2;
      if (f.applyAsDouble(middle) > 0) {
        out = middle;
      } else {
        in = middle;
      }
    }
    return in;
  }

  /** How far band counts are over a code, as ln of the ratio; infinite for no counts. */
  static double over(Bands perMl, CleanlinessCode target) {
    if (perMl == null) {
      return Double.POSITIVE_INFINITY;
    }
    double[] n = SizeBands.toCumulative(perMl.toArray());
    double[] limit = Iso4406.upperLimitsPerMl(target);
    double worst = Double.NEGATIVE_INFINITY;
    for (int i = 0; i < CODE_NUMBERS; i++) {
      worst = Math.max(worst, Math.log(n[i] / limit[i]));
    }
    return worst;
  }
}
