package siltwright.interval;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.Comparator;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.function.DoubleUnaryOperator;
import siltwright.analysis.Progress;
import siltwright.contamination.Circuit;
import siltwright.contamination.Cycle;
import siltwright.model.Bands;
import siltwright.model.ChangeProcedure;
import siltwright.model.DutyState;
import siltwright.model.Machine;
import siltwright.model.Sampling;
import siltwright.model.SizeBands;

/**
 * The answer for one machine: when and how to change its element, with what fitted, and what it is
 * worth.
 *
 * @param machine the machine
 * @param procedures each procedure with what is fitted today, in the file's order
 * @param options each option with the procedure that costs least with it, today's first
 * @param recommended option and procedure that cost least; empty where none has an interval
 * @param today what today's interval and procedure cost
 * @param policies ways to decide when, with the recommended option and procedure
 * @param spread what the uncertain numbers make of the recommendation; empty without draws
 */
public record Tuning(
    Machine machine,
    List<ProcedureAnswer> procedures,
    List<OptionAnswer> options,
    Optional<OptionAnswer> recommended,
    Optional<CycleAnswer> today,
    List<PolicyAnswer> policies,
    Optional<Spread> spread) {

  /**
   * How to compute.
   *
   * @param horizonH how far to look for an interval at first, h
   * @param draws draws of the uncertain numbers; 0 for none
   * @param seed seed of the draws
   */
  public record Settings(double horizonH, int draws, long seed) {}

  /**
   * One procedure with what is fitted today.
   *
   * @param procedure the procedure
   * @param best its cheapest interval, or why there is none
   * @param atBest the cycle there
   * @param atToday the cycle at today's interval
   * @param atMaker the cycle at the maker's maximum
   * @param equivalentBeta filtration ratio of the element that would protect the pump as well when
   *     changed without back-flush, by band
   */
  public record ProcedureAnswer(
      ChangeProcedure procedure,
      Best best,
      Optional<CycleAnswer> atBest,
      Optional<CycleAnswer> atToday,
      Optional<CycleAnswer> atMaker,
      Bands equivalentBeta) {}

  /**
   * An option with one procedure.
   *
   * @param option what is fitted
   * @param procedure the procedure
   * @param best its cheapest interval, or why there is none
   */
  public record OptionAnswer(Option option, ChangeProcedure procedure, Best best) {}

  /**
   * A repeating cycle in the words of the trade.
   *
   * @param intervalH interval, h
   * @param split cost per hour
   * @param retainedG mass in the element before the change, fines with it, g
   * @param releasedG mass that the change releases into the clean side, 4–100 µm(c), g
   * @param startPerMl band counts just after the change, 1/mL
   * @param runningPerMl band counts once the release has washed out, 1/mL
   * @param meanPerMl mean band counts over the cycle, 1/mL
   * @param endPerMl band counts before the change, 1/mL
   * @param dropKPa pressure drop before the change by duty state, without the housing, kPa
   * @param bypassShare share of the flow through the bypass before the change by duty state
   */
  public record CycleAnswer(
      double intervalH,
      CostSplit split,
      double retainedG,
      double releasedG,
      Bands startPerMl,
      Bands runningPerMl,
      Bands meanPerMl,
      Bands endPerMl,
      double[] dropKPa,
      double[] bypassShare) {}

  /** How it is decided that an element is changed. */
  public enum Policy {
    /** After fixed hours. */
    FIXED_HOURS("fixed hours"),
    /** When the indicator, read warm, has tripped. */
    INDICATOR("indicator"),
    /** After fixed hours or on the indicator, whichever comes first. */
    WHICHEVER_FIRST("hours or indicator, whichever first"),
    /** When an oil sample is over its limit. */
    SAMPLE_LIMIT("oil sample over its limit");

    private final String words;

    Policy(String words) {
      this.words = words;
    }

    /** Returns the words for people. */
    public String words() {
      return words;
    }
  }

  /**
   * A way to decide when.
   *
   * @param policy the way
   * @param intervalH hours at which it leads to a change, h; not a number where it never does
   * @param costPerH cost there, money per hour; not a number where there is none
   * @param expectedPerH mean cost over the draws; not a number without draws
   * @param reason why it leads to no change; empty where it does
   */
  public record PolicyAnswer(
      Policy policy, double intervalH, double costPerH, double expectedPerH, String reason) {}

  /**
   * What the uncertain numbers make of the recommendation.
   *
   * @param draws draws computed
   * @param gridH intervals of the curves below, h
   * @param low 5 % quantile of the cost per hour at each
   * @param high 95 % quantile of the cost per hour at each
   * @param bestH 5, 50 and 95 % quantile of the interval that costs least, h
   * @param costPerH 5, 50 and 95 % quantile of the cost at the recommended interval
   * @param leastRegretH interval with the least expected regret, h
   * @param regretPerH expected regret there, money per hour
   * @param regretOfRecommendedPerH expected regret at the recommended interval
   * @param shareCheapest share of the draws in which each procedure of the machine costs least
   */
  public record Spread(
      int draws,
      double[] gridH,
      double[] low,
      double[] high,
      double[] bestH,
      double[] costPerH,
      double leastRegretH,
      double regretPerH,
      double regretOfRecommendedPerH,
      double[] shareCheapest) {}

  private static final int DRAW_GRID = 21;

  /** Of the intervals of a draw's curve every so-many-th is always computed. */
  private static final int SPARSE = 4;

  /** Difference of a cost, relative, up to which its neighbours told it well. */
  private static final double TOLD = 2e-2;

  private static final double[] NONE_KNOWN = {};

  /** Width of ln T within which a draw's own intervals are found. */
  private static final double DRAW_WIDTH = 2e-3;

  /** Cost over the least beyond which a lesser one is not sought. */
  private static final double PAST_LEAST = 1.3;

  /** The same once it has been looked at more closely. */
  private static final double CLOSELY = 1.02;

  /** Rough cost over the roughly least beyond which a procedure is not looked at closely. */
  private static final double ROUGHLY = 1.1;

  /**
   * Computes the answer.
   *
   * @param machine the machine
   * @param settings how to compute
   * @param progress told how far it is
   */
  public static Tuning of(Machine machine, Settings settings, Progress progress) {
    CostCurve fitted = curve(machine, Option.TODAY);
    List<ProcedureAnswer> procedures = procedures(fitted, settings.horizonH(), progress);
    List<OptionAnswer> options = new ArrayList<>();
    for (Option option : Option.of(machine)) {
      progress.check(0.2, machine.id() + ": options");
      options.add(
          option.equals(Option.TODAY)
              ? cheapest(procedures)
              : withBestProcedure(
                  option,
                  fitted.with(option.fitted(machine), option.equipmentMoneyPerH(machine)),
                  settings.horizonH()));
    }
    Optional<OptionAnswer> recommended =
        options.stream()
            .filter(a -> a.best().interval().isPresent())
            .min(Comparator.comparingDouble(a -> a.best().costPerH()))
            .map(a -> withFlatRange(machine, a, settings.horizonH()));
    Optional<CycleAnswer> today =
        procedures.stream()
            .filter(a -> a.procedure().id().equals(machine.today().procedure()))
            .findFirst()
            .flatMap(ProcedureAnswer::atToday);
    List<PolicyAnswer> policies = List.of();
    Optional<Spread> spread = Optional.empty();
    if (recommended.isPresent()) {
      Draws draws = new Draws(machine, recommended.get(), settings, progress);
      policies = draws.policies();
      spread = draws.spread();
    }
    return new Tuning(machine, procedures, options, recommended, today, policies, spread);
  }

  /**
   * Returns what each procedure of a machine comes to with what is fitted today, in the file's
   * order.
   *
   * @param machine the machine
   * @param horizonH how far to look for an interval at first, h
   * @param progress told how far it is
   */
  public static List<ProcedureAnswer> procedures(
      Machine machine, double horizonH, Progress progress) {
    return procedures(curve(machine, Option.TODAY), horizonH, progress);
  }

  private static List<ProcedureAnswer> procedures(
      CostCurve fitted, double horizonH, Progress progress) {
    Machine machine = fitted.machine();
    List<ProcedureAnswer> procedures = new ArrayList<>();
    for (ChangeProcedure p : machine.procedures()) {
      progress.check(0.1, machine.id() + ": " + p.name());
      Best best = IntervalSearch.best(fitted, p, horizonH);
      procedures.add(
          new ProcedureAnswer(
              p,
              best,
              best.interval().flatMap(i -> answer(fitted, i.hours(), p)),
              answer(fitted, machine.today().intervalH(), p),
              machine.limits().makerMaximumH().isPresent()
                  ? answer(fitted, machine.limits().makerMaximumH().getAsDouble(), p)
                  : Optional.empty(),
              equivalentBeta(fitted.circuit(), p)));
    }
    return procedures;
  }

  /**
   * Returns the cycles at some intervals with what an option fits.
   *
   * @param hours intervals, h; not modified
   * @return a cycle an interval; empty where it does not repeat itself
   */
  public static List<Optional<CycleAnswer>> along(
      Machine machine, Option option, ChangeProcedure procedure, double... hours) {
    CostCurve curve = curve(machine, option);
    return Arrays.stream(hours).mapToObj(h -> answer(curve, h, procedure)).toList();
  }

  /**
   * Returns the cheapest interval of each procedure with what is fitted today, in the file's order,
   * and nothing else of the answer.
   *
   * @param horizonH how far to look for an interval at first, h
   */
  public static List<Best> asFitted(Machine machine, double horizonH) {
    CostCurve curve = curve(machine, Option.TODAY);
    return machine.procedures().stream().map(p -> IntervalSearch.best(curve, p, horizonH)).toList();
  }

  /**
   * Returns the cost of an hour at some intervals with what is fitted today.
   *
   * @param hours intervals, h; not modified
   * @return money per hour; infinite where the cycle does not repeat itself
   */
  public static double[] costPerH(Machine machine, ChangeProcedure procedure, double... hours) {
    CostCurve curve = curve(machine, Option.TODAY);
    return Arrays.stream(hours).map(h -> curve.perH(h, procedure)).toArray();
  }

  private static OptionAnswer cheapest(List<ProcedureAnswer> procedures) {
    return procedures.stream()
        .map(a -> new OptionAnswer(Option.TODAY, a.procedure(), a.best()))
        .min(Comparator.comparingDouble(a -> a.best().costPerH()))
        .orElseThrow();
  }

  private static OptionAnswer withBestProcedure(Option option, CostCurve curve, double horizonH) {
    List<ChangeProcedure> procedures = curve.machine().procedures();
    double[] rough =
        procedures.stream().mapToDouble(p -> IntervalSearch.roughly(curve, p, horizonH)).toArray();
    double least = Arrays.stream(rough).min().orElseThrow();
    OptionAnswer best = null;
    for (int i = 0; i < rough.length; i++) {
      if (rough[i] <= ROUGHLY * least) {
        ChangeProcedure p = procedures.get(i);
        OptionAnswer answer =
            new OptionAnswer(option, p, IntervalSearch.bestToCompare(curve, p, horizonH));
        if (best == null || answer.best().costPerH() < best.best().costPerH()) {
          best = answer;
        }
      }
    }
    return best;
  }

  private static OptionAnswer withFlatRange(Machine machine, OptionAnswer a, double horizonH) {
    return a.option().equals(Option.TODAY)
        ? a
        : new OptionAnswer(
            a.option(),
            a.procedure(),
            IntervalSearch.best(curve(machine, a.option()), a.procedure(), horizonH));
  }

  private static CostCurve curve(Machine machine, Option option) {
    return new CostCurve(option.fitted(machine), option.equipmentMoneyPerH(machine));
  }

  static Optional<CycleAnswer> answer(CostCurve curve, double t, ChangeProcedure p) {
    Cycle cycle = curve.cycle(t, p);
    if (cycle.state() != Cycle.State.REPEATS) {
      return Optional.empty();
    }
    Circuit circuit = curve.circuit();
    double mass = cycle.retainedG();
    Bands start = cycle.startPerMl();
    Bands end = cycle.endPerMl();
    double[] mean = new double[SizeBands.COUNT];
    for (int j = 0; j < mean.length; j++) {
      mean[j] = cycle.meanPerMl(j);
    }
    double released = SizeBands.massG(cycle.released().toArray());
    double[] drop = new double[circuit.states()];
    double[] bypass = new double[circuit.states()];
    for (int k = 0; k < drop.length; k++) {
      drop[k] = circuit.dropKPa(k, mass);
      bypass[k] = circuit.bypassShare(k, mass);
    }
    return Optional.of(
        new CycleAnswer(
            t,
            curve.split(t, p),
            mass,
            released,
            start,
            circuit.steadyPerMl(0),
            Bands.of(mean),
            end,
            drop,
            bypass));
  }

  /** 1/(1 - E (1 - φ)) by band, E the flow-weighted capture with a clean element. */
  static Bands equivalentBeta(Circuit circuit, ChangeProcedure p) {
    double[] beta = new double[SizeBands.COUNT];
    for (int j = 0; j < beta.length; j++) {
      beta[j] = 1 / (1 - circuit.captureShare(j, 0) * (1 - p.backFlushShare()));
    }
    return Bands.of(beta);
  }

  /** The recommendation under the draws of the uncertain numbers, and the policies. */
  static final class Draws {
    private final Machine machine;
    private final OptionAnswer recommended;
    private final ChangeProcedure procedure;
    private final double bestH;
    private final int count;
    private final double[] grid;

    /** Place of the recommended interval on the grid; -1 if it is none that is always computed. */
    private final int bestAt;

    private final double[][] cost;
    private final double[] atBest;
    private final double[] indicatorH;
    private final double[] atIndicator;
    private final double[] atSample;
    private final double[] bestOfDrawH;
    private final double[] leastOfDraw;
    private final double[] cheapest;
    private final CostCurve nominal;

    // of the draw and procedure computed last
    private final double[] scratch = new double[DRAW_GRID];
    private final double[] massG = new double[DRAW_GRID];
    private final boolean[] smooth = new boolean[DRAW_GRID / SPARSE];

    Draws(Machine machine, OptionAnswer recommended, Settings settings, Progress progress) {
      this.machine = machine;
      this.recommended = recommended;
      procedure = recommended.procedure();
      Best.Interval best = recommended.best().interval().orElseThrow();
      bestH = best.hours();
      nominal = curve(machine, recommended.option());
      count = machine.uncertainty().isEmpty() ? 0 : settings.draws();
      double longest =
          Math.min(8 * bestH, machine.limits().makerMaximumH().orElse(IntervalSearch.LONGEST_H));
      grid =
          IntervalSearch.grid(Math.max(IntervalSearch.SHORTEST_H, bestH / 8), longest, DRAW_GRID);
      bestAt = onGrid(bestH);
      cost = new double[count][grid.length];
      atBest = new double[count];
      indicatorH = new double[count];
      atIndicator = new double[count];
      atSample = new double[count];
      bestOfDrawH = new double[count];
      leastOfDraw = new double[count];
      cheapest = new double[machine.procedures().size()];
      for (int i = 0; i < count; i++) {
        progress.check(0.3 + 0.7 * i / count, machine.id() + ": uncertainty");
        one(i, ParameterDraw.of(machine, settings.seed(), i));
      }
    }

    private int onGrid(double hours) {
      for (int t = 0; t < grid.length; t += SPARSE / 2) {
        if (Math.abs(grid[t] - hours) <= 1e-9 * hours) {
          return t;
        }
      }
      return -1;
    }

    private void one(int i, ParameterDraw draw) {
      Machine drawn = draw.applied(recommended.option().fitted(machine));
      CostCurve curve = nominal.coarse(drawn);
      List<ChangeProcedure> procedures = drawn.procedures();
      int recommendedAt = machine.procedures().indexOf(procedure);
      ChangeProcedure ours = procedures.get(recommendedAt);
      along(i, curve, ours);
      atBest[i] = bestAt < 0 ? curve.perH(bestH, ours) : cost[i][bestAt];
      indicatorH[i] = indicatorH(curve, ours, DRAW_WIDTH, massG);
      atIndicator[i] = curve.perH(Math.min(indicatorH[i], IntervalSearch.LONGEST_H), ours);
      atSample[i] =
          machine
              .sampling()
              .map(
                  s -> {
                    double t = sampleH(curve, ours, s, DRAW_WIDTH, massG);
                    return curve.perH(Math.min(t, IntervalSearch.LONGEST_H), ours)
                        + s.costMoney() / s.intervalH();
                  })
              .orElse(Double.NaN);
      int first = recommendedAt;
      double least = leastOfDraw[i];
      for (int p = 0; p < cheapest.length; p++) {
        double other = p == recommendedAt ? least : closely(curve, procedures.get(p), least);
        if (other < least) {
          least = other;
          first = p;
        }
      }
      cheapest[first] += 1.0 / count;
    }

    /**
     * Returns the least cost of another procedure: of every fourth interval, then closer round it
     * as long as it may be under a sum.
     */
    private double closely(CostCurve curve, ChangeProcedure p, double under) {
      double least = sparsely(curve, p, SPARSE, PAST_LEAST, scratch);
      if (leastAt(scratch) == SPARSE) {
        at(0, curve, p, scratch);
        least = Math.min(least, scratch[0]);
      }
      double margin = ROUGHLY;
      int apart = SPARSE;
      least = Math.min(least, refined(grid, scratch, leastAt(scratch), apart)[1]);
      while (apart > 1 && least <= margin * under) {
        apart /= 2;
        int middle = leastAt(scratch);
        if (middle >= apart) {
          at(middle - apart, curve, p, scratch);
        }
        if (middle + apart < grid.length) {
          at(middle + apart, curve, p, scratch);
        }
        least = refined(grid, scratch, leastAt(scratch), apart)[1];
        margin = CLOSELY;
      }
      return least;
    }

    private static int leastAt(double[] perH) {
      int least = 0;
      for (int t = 1; t < perH.length; t++) {
        least = perH[t] < perH[least] ? t : least;
      }
      return least;
    }

    /**
     * Computes a curve at every fourth interval and the masses there; infinite and not a number at
     * the others.
     *
     * @param first first interval
     * @param most cost over the least beyond which the curve is not followed
     * @return its least
     */
    private double sparsely(
        CostCurve curve, ChangeProcedure p, int first, double most, double[] perH) {
      Arrays.fill(perH, Double.POSITIVE_INFINITY);
      Arrays.fill(massG, Double.NaN);
      double least = Double.POSITIVE_INFINITY;
      for (int t = first; t < grid.length; t += SPARSE) {
        at(t, curve, p, perH);
        least = Math.min(least, perH[t]);
        if (perH[t] > most * least) {
          break;
        }
      }
      return least;
    }

    private void at(int t, CostCurve curve, ChangeProcedure p, double[] perH) {
      Cycle cycle = curve.cycle(grid[t], p);
      perH[t] = curve.perH(cycle, p);
      massG[t] = CostCurve.massG(cycle);
    }

    /**
     * Computes the curve of the recommended procedure: every second interval, and those between
     * where a cubic through every fourth has not told what was found there.
     */
    private void along(int i, CostCurve curve, ChangeProcedure p) {
      double[] perH = cost[i];
      double roughly = sparsely(curve, p, 0, IntervalSearch.FAR_DEARER, perH);
      int half = SPARSE / 2;
      for (int t = half; t < grid.length; t += SPARSE) {
        smooth[t / SPARSE] = false;
        if (perH[t - half] <= IntervalSearch.FAR_DEARER * roughly) {
          double told = between(perH, t, half);
          at(t, curve, p, perH);
          smooth[t / SPARSE] = Math.abs(told - perH[t]) <= TOLD * perH[t];
        }
      }
      for (int t = 1; t < grid.length; t += 2) {
        if (perH[t - 1] <= IntervalSearch.FAR_DEARER * roughly) {
          perH[t] = smooth[t / SPARSE] ? between(perH, t, 1) : Double.NaN;
          if (Double.isNaN(perH[t])) {
            at(t, curve, p, perH);
          }
        }
      }
      double[] best = refined(grid, perH, leastAt(perH), 1);
      bestOfDrawH[i] = best[0];
      leastOfDraw[i] = best[1];
    }

    /**
     * Cubic through the four neighbours of a place, or a parabola where there are three; over the
     * logarithm of the interval. Not a number where there are fewer.
     */
    static double between(double[] g, int at, int apart) {
      double low = g[at - apart];
      double high = g[at + apart];
      double before = at - 3 * apart < 0 ? Double.NaN : g[at - 3 * apart];
      double after = at + 3 * apart >= g.length ? Double.NaN : g[at + 3 * apart];
      boolean isBefore = Double.isFinite(before);
      boolean isAfter = Double.isFinite(after);
      if (!Double.isFinite(low + high)) {
        return Double.NaN;
      }
      if (isBefore && isAfter) {
        return (9 * (low + high) - before - after) / 16;
      }
      return isBefore
          ? (6 * low + 3 * high - before) / 8
          : isAfter ? (3 * low + 6 * high - after) / 8 : Double.NaN;
    }

    /**
     * Returns interval and cost of the least of a curve, by a parabola through the least computed
     * and those so many places from it.
     */
    static double[] refined(double[] grid, double[] perH, int at, int apart) {
      if (at >= apart && at < grid.length - apart && Double.isFinite(perH[at + apart])) {
        double a = perH[at - apart];
        double b = perH[at];
        double c = perH[at + apart];
        double bend = a - 2 * b + c;
        if (bend > 0) {
          double shift = (a - c) / (2 * bend);
          return new double[] {
            grid[at] * Math.pow(grid[at + apart] / grid[at], shift), b - (a - c) * shift / 4
          };
        }
      }
      return new double[] {grid[at], perH[at]};
    }

    /** Hours at which the indicator trips; infinite where it never does; 0 on a clean element. */
    private double indicatorH(CostCurve curve, ChangeProcedure p, double width, double[] known) {
      if (machine.returnFilter().indicatorKPa().isEmpty()) {
        return Double.POSITIVE_INFINITY;
      }
      double mass =
          curve
              .circuit()
              .massAtReadingG(
                  machine.indicatorStateIndex(),
                  machine.returnFilter().indicatorKPa().getAsDouble());
      if (Double.isInfinite(mass)) {
        return mass;
      }
      double t = last(known, width, h -> curve.massG(h, p), m -> m - mass, mass);
      return t >= IntervalSearch.LONGEST_H ? Double.POSITIVE_INFINITY : t;
    }

    /** Hours of the first sample over the limit; infinite where none is. */
    private double sampleH(
        CostCurve curve, ChangeProcedure p, Sampling s, double width, double[] known) {
      double over =
          last(
              known,
              width,
              h -> curve.massG(h, p),
              m -> IntervalSearch.over(curve.settledPerMl(m), s.limit()),
              Double.NaN);
      return over >= IntervalSearch.LONGEST_H
          ? Double.POSITIVE_INFINITY
          : Math.max(1, Math.ceil(over / s.intervalH())) * s.intervalH();
    }

    /**
     * The longest interval up to which the mass before a change stays within a limit.
     *
     * @param known masses at the intervals of the curves, g; not a number where not computed
     * @param mass mass at an interval, g
     * @param over how far a mass is over, at most 0 within
     * @param limitG the limit, g; not a number where only {@code over} knows it
     */
    private double last(
        double[] known,
        double width,
        DoubleUnaryOperator mass,
        DoubleUnaryOperator over,
        double limitG) {
      double low = IntervalSearch.SHORTEST_H;
      double near = bestH;
      double lowMass = Double.NaN;
      for (int t = 0; t < known.length; t++) {
        if (!Double.isNaN(known[t])) {
          near = grid[t];
          if (over.applyAsDouble(known[t]) > 0) {
            if (known[t] < Double.POSITIVE_INFINITY && lowMass > 0) {
              return between(low, lowMass, near, known[t], width, over, limitG);
            }
            break;
          }
          low = near;
          lowMass = known[t];
        }
      }
      return IntervalSearch.last(
          low,
          IntervalSearch.LONGEST_H,
          near,
          width,
          h -> over.applyAsDouble(mass.applyAsDouble(h)));
    }

    /**
     * The same between two intervals near each other: the mass is taken as a power of the hours.
     */
    private static double between(
        double lowH,
        double lowG,
        double highH,
        double highG,
        double width,
        DoubleUnaryOperator over,
        double limitG) {
      double power = Math.log(highG / lowG) / Math.log(highH / lowH);
      if (!Double.isNaN(limitG)) {
        return lowH * Math.pow(limitG / lowG, 1 / power);
      }
      return IntervalSearch.last(
          lowH, highH, highH, width, h -> over.applyAsDouble(lowG * Math.pow(h / lowH, power)));
    }

    List<PolicyAnswer> policies() {
      List<PolicyAnswer> answers = new ArrayList<>();
      Best.Interval best = recommended.best().interval().orElseThrow();
      answers.add(new PolicyAnswer(Policy.FIXED_HOURS, bestH, best.costPerH(), mean(atBest), ""));
      double trips = indicatorH(nominal, procedure, IntervalSearch.WIDTH, NONE_KNOWN);
      String no = noIndicator(trips);
      if (no.isEmpty()) {
        answers.add(
            new PolicyAnswer(
                Policy.INDICATOR, trips, nominal.perH(trips, procedure), mean(atIndicator), ""));
        answers.add(whicheverFirst(trips));
      } else {
        answers.add(none(Policy.INDICATOR, no));
        answers.add(none(Policy.WHICHEVER_FIRST, no));
      }
      answers.add(
          machine
              .sampling()
              .map(this::onSamples)
              .orElseGet(() -> none(Policy.SAMPLE_LIMIT, "no oil samples are taken")));
      return answers;
    }

    private static PolicyAnswer none(Policy policy, String reason) {
      return new PolicyAnswer(policy, Double.NaN, Double.NaN, Double.NaN, reason);
    }

    private String noIndicator(double trips) {
      if (machine.returnFilter().indicatorKPa().isEmpty()) {
        return "there is no indicator";
      }
      DutyState warm = machine.duty().get(machine.indicatorStateIndex());
      if (trips == 0) {
        return "the indicator is tripped by a clean element in state " + warm.id();
      }
      if (Double.isInfinite(trips)) {
        double mass =
            nominal
                .circuit()
                .massAtReadingG(
                    machine.indicatorStateIndex(),
                    machine.returnFilter().indicatorKPa().getAsDouble());
        return Double.isInfinite(mass)
            ? "the bypass opens before the indicator's setting is reached in state " + warm.id()
            : String.format(
                Locale.ROOT,
                "the indicator is not reached within %.0f h",
                IntervalSearch.LONGEST_H);
      }
      return "";
    }

    private PolicyAnswer whicheverFirst(double trips) {
      if (count == 0) {
        double t = Math.min(bestH, trips);
        return new PolicyAnswer(
            Policy.WHICHEVER_FIRST, t, nominal.perH(t, procedure), Double.NaN, "");
      }
      int best = 0;
      double least = Double.POSITIVE_INFINITY;
      for (int t = 0; t < grid.length; t++) {
        double sum = 0;
        for (int i = 0; i < count; i++) {
          sum += grid[t] < indicatorH[i] ? cost[i][t] : atIndicator[i];
        }
        if (sum < least) {
          least = sum;
          best = t;
        }
      }
      double t = Math.min(grid[best], trips);
      return new PolicyAnswer(
          Policy.WHICHEVER_FIRST, t, nominal.perH(t, procedure), least / count, "");
    }

    private PolicyAnswer onSamples(Sampling s) {
      if (IntervalSearch.over(nominal.circuit().steadyPerMl(0), s.limit()) > 0) {
        return none(
            Policy.SAMPLE_LIMIT, "samples are over " + s.limit() + " even with a clean element");
      }
      double t = sampleH(nominal, procedure, s, IntervalSearch.WIDTH, NONE_KNOWN);
      if (Double.isInfinite(t)) {
        return none(
            Policy.SAMPLE_LIMIT,
            String.format(
                Locale.ROOT,
                "samples stay within %s for %.0f h",
                s.limit(),
                IntervalSearch.LONGEST_H));
      }
      double cost = nominal.perH(t, procedure) + s.costMoney() / s.intervalH();
      return new PolicyAnswer(
          Policy.SAMPLE_LIMIT, t, Double.isFinite(cost) ? cost : Double.NaN, mean(atSample), "");
    }

    Optional<Spread> spread() {
      if (count == 0) {
        return Optional.empty();
      }
      double[] low = new double[grid.length];
      double[] high = new double[grid.length];
      double[] regret = new double[grid.length];
      double[] column = new double[count];
      int least = 0;
      for (int t = 0; t < grid.length; t++) {
        for (int i = 0; i < count; i++) {
          column[i] = cost[i][t];
          regret[t] += Math.max(0, cost[i][t] - leastOfDraw[i]) / count;
        }
        Arrays.sort(column);
        low[t] = quantile(column, 0.05);
        high[t] = quantile(column, 0.95);
        if (regret[t] < regret[least]) {
          least = t;
        }
      }
      double atRecommended = 0;
      for (int i = 0; i < count; i++) {
        atRecommended += Math.max(0, atBest[i] - leastOfDraw[i]) / count;
      }
      return Optional.of(
          new Spread(
              count,
              grid,
              low,
              high,
              quantiles(bestOfDrawH),
              quantiles(atBest),
              regret[least] < atRecommended ? grid[least] : bestH,
              Math.min(regret[least], atRecommended),
              atRecommended,
              cheapest));
    }

    private static double[] quantiles(double[] values) {
      double[] sorted = values.clone();
      Arrays.sort(sorted);
      return new double[] {quantile(sorted, 0.05), quantile(sorted, 0.5), quantile(sorted, 0.95)};
    }

    static double quantile(double[] sorted, double p) {
      double at = p * (sorted.length - 1);
      int i = (int) at;
      // Costs without a repeating cycle are infinite, and have no middle.
      return i + 1 == sorted.length || sorted[i] == sorted[i + 1]
          ? sorted[i]
          : sorted[i] + (at - i) * (sorted[i + 1] - sorted[i]);
    }

    private static double mean(double[] values) {
      return values.length == 0 ? Double.NaN : Arrays.stream(values).average().orElseThrow();
    }
  }
}
