package siltwright.interval;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.NavigableMap;
import java.util.Objects;
import java.util.Optional;
import java.util.TreeMap;
import java.util.function.DoubleUnaryOperator;
import org.apache.commons.math3.analysis.solvers.AllowedSolution;
import org.apache.commons.math3.analysis.solvers.BracketingNthOrderBrentSolver;
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

  private static final double STRIDE = 2;
  private static final int MOST_TRIES = 600;
  private static final int MOST_ORDER = 5;
  private static final int CODE_NUMBERS = 3;

  /** Difference from a sum, relative, beyond which a rough cost tells the side. */
  private static final double ROUGH = 0.03;

  /** Difference of two costs, relative, that is rounding alone. */
  private static final double ROUNDING = 1e-12;

  /** Width of ln T within which an interval is found. */
  static final double WIDTH = 1e-5;

  /** Width of ln T within which the end of a flat range is found. */
  private static final double FLAT_WIDTH = 1e-4;

  private static final double[] NONE = {};

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
    return best(curve, procedure, horizonH, true);
  }

  /** The same without the flat range, for comparison. */
  static Best bestToCompare(CostCurve curve, ChangeProcedure procedure, double horizonH) {
    return best(curve, procedure, horizonH, false);
  }

  private static Best best(
      CostCurve curve, ChangeProcedure procedure, double horizonH, boolean withFlat) {
    Machine m = curve.machine();
    Known cost = new Known(t -> curve.perH(t, procedure), t -> curve.rough().perH(t, procedure));
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
    double free = cost.cheapest(SHORTEST_H, far);
    while (free >= far * (1 - 1e-3) && far < LONGEST_H) {
      far = Math.min(LONGEST_H, 2 * far);
      free = cost.cheapest(SHORTEST_H, far);
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
            finite ? Optional.of(least(cost, free)) : Optional.empty(),
            "no interval keeps the oil at "
                + target
                + ": even with a clean element it settles at "
                + Iso4406.code(clean),
            limits);
      }
      double allowed =
          last(
              SHORTEST_H,
              far,
              free,
              WIDTH,
              t -> over(curve.rough().dirtiestPerMl(t, procedure), target));
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
    double within = finite && free <= longest ? free : cost.cheapestKnown(SHORTEST_H, longest);
    return new Best(
        Optional.of(
            withFlat
                ? interval(cost, within, SHORTEST_H, longest)
                : new Best.Interval(within, cost.applyAsDouble(within), NONE, NONE)),
        finite ? Optional.of(least(cost, free)) : Optional.empty(),
        "",
        limits);
  }

  private static Best.Least least(Known cost, double t) {
    return new Best.Least(t, cost.applyAsDouble(t));
  }

  private static Best none(List<Best.Limit> limits, String reason) {
    return new Best(Optional.empty(), Optional.empty(), reason, limits);
  }

  /** An interval with how far from it the cost stays within 1 % and 5 %. */
  static Best.Interval interval(Known cost, double t, double lowH, double highH) {
    double least = cost.applyAsDouble(t);
    return new Best.Interval(
        t,
        least,
        new double[] {cost.flatTo(1.01 * least, t, lowH), cost.flatTo(1.01 * least, t, highH)},
        new double[] {cost.flatTo(1.05 * least, t, lowH), cost.flatTo(1.05 * least, t, highH)});
  }

  /** The least cost at a few intervals that the limits allow: at most a little above the least. */
  static double roughly(CostCurve exact, ChangeProcedure procedure, double horizonH) {
    CostCurve curve = exact.rough();
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

  /**
   * Costs, each computed once: what one search has found, the next need not look for.
   *
   * <p>Where to look is told by a rougher function, what is found there by the costs themselves.
   */
  static final class Known implements DoubleUnaryOperator {
    private final DoubleUnaryOperator cost;
    private final DoubleUnaryOperator rough;
    private final Map<Double, Double> found = new HashMap<>();

    /** All that has been looked at: its cost, or what it is roughly. */
    private final NavigableMap<Double, Double> seen = new TreeMap<>();

    Known(DoubleUnaryOperator cost) {
      this(cost, cost);
    }

    /**
     * Begins with nothing known.
     *
     * @param rough the cost to some thousandths, quicker
     */
    Known(DoubleUnaryOperator cost, DoubleUnaryOperator rough) {
      this.cost = cost;
      this.rough = rough;
    }

    @Override
    public double applyAsDouble(double hours) {
      Double known = found.get(hours);
      if (known == null) {
        known = cost.applyAsDouble(hours);
        found.put(hours, known);
        seen.put(hours, known);
      }
      return known;
    }

    private double roughly(double hours) {
      Double known = seen.get(hours);
      if (known == null) {
        known = rough.applyAsDouble(hours);
        seen.put(hours, known);
      }
      return known;
    }

    /** The interval of least cost between two. */
    double cheapest(double lowH, double highH) {
      double least = Double.POSITIVE_INFINITY;
      for (double t : grid(lowH, highH, GRID)) {
        double g = roughly(t);
        if (g > FAR_DEARER * least) {
          break;
        }
        least = Math.min(least, g);
      }
      return cheapestKnown(lowH, highH);
    }

    /** The same, sought only round the cheapest that is known. */
    double cheapestKnown(double lowH, double highH) {
      roughly(lowH);
      double best = lowH;
      for (Map.Entry<Double, Double> e : seen.subMap(lowH, true, highH, true).entrySet()) {
        best = e.getValue() < seen.get(best) ? e.getKey() : best;
      }
      // beyond what is far dearer already nothing is looked at
      if (seen.get(seen.floorKey(highH)) <= FAR_DEARER * seen.get(best)
          && roughly(highH) < seen.get(best)) {
        best = highH;
      }
      double low = Math.log(Math.max(lowH, Objects.requireNonNullElse(seen.lowerKey(best), lowH)));
      double high =
          Math.log(Math.min(highH, Objects.requireNonNullElse(seen.higherKey(best), highH)));
      if (low == high) {
        return best; // a limit may leave one interval only
      }
      UnivariatePointValuePair section =
          new BrentOptimizer(WIDTH, 10 * WIDTH)
              .optimize(
                  new UnivariateObjectiveFunction(u -> applyAsDouble(Math.exp(u))),
                  GoalType.MINIMIZE,
                  new MaxEval(MOST_TRIES),
                  new SearchInterval(low, high, Math.log(best)));
      // The least may stand at an end, where the section only comes near.
      return applyAsDouble(best) <= section.getValue() * (1 + ROUNDING)
          ? best
          : Math.exp(section.getPoint());
    }

    /** How far from an interval towards another the cost stays at most at a sum. */
    double flatTo(double most, double from, double to) {
      double within = from;
      double beyond = to;
      NavigableMap<Double, Double> outward =
          to < from
              ? seen.subMap(to, true, from, false).descendingMap()
              : seen.subMap(from, false, to, true);
      for (double hours : List.copyOf(outward.keySet())) {
        boolean clear = Math.abs(seen.get(hours) - most) > ROUGH * most;
        if ((clear ? seen.get(hours) : applyAsDouble(hours)) > most) {
          beyond = hours;
          break;
        }
        within = hours;
      }
      if (applyAsDouble(within) > most) {
        beyond = within;
        within = from;
      } else if (beyond != to && applyAsDouble(beyond) <= most) {
        within = beyond;
        beyond = to;
      }
      return within == to || beyond == to && applyAsDouble(to) <= most
          ? to
          : crossing(most, within, beyond, FLAT_WIDTH);
    }

    /**
     * The last interval, coming from one at which the cost is at most a sum, before one at which it
     * is more. Values far from the sum, or infinite, only tell the side.
     */
    double crossing(double most, double goodH, double badH, double width) {
      double scale = most == 0 ? 1 : most;
      double good = Math.log(goodH);
      double bad = Math.log(badH);
      if (Math.abs(bad - good) <= width) {
        return goodH;
      }
      double u =
          new BracketingNthOrderBrentSolver(0, width, 0, MOST_ORDER)
              .solve(
                  MOST_TRIES,
                  x -> {
                    double t = x == good ? goodH : x == bad ? badH : Math.exp(x);
                    return Math.max(-1, Math.min(1, (applyAsDouble(t) - most) / scale));
                  },
                  Math.min(good, bad),
                  Math.max(good, bad),
                  AllowedSolution.BELOW_SIDE);
      return u == good ? goodH : Math.exp(u);
    }
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
    Known known = new Known(over);
    if (known.applyAsDouble(lowH) > 0) {
      return 0;
    }
    double good = lowH;
    double bad = Math.min(highH, Math.max(1.1 * lowH, nearH));
    // Longer intervals are dearer to compute, so the limit is approached from below.
    while (known.applyAsDouble(bad) <= 0) {
      if (bad >= highH) {
        return highH;
      }
      good = bad;
      bad = Math.min(highH, STRIDE * bad);
    }
    return known.crossing(0, good, bad, width);
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
