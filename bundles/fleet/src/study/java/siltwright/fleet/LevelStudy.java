package siltwright.fleet;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.SplittableRandom;
import java.util.function.ToDoubleFunction;
import java.util.stream.IntStream;
import siltwright.life.AftFit;
import siltwright.life.AftModel;
import siltwright.life.Covariate;
import siltwright.life.Estimate;
import siltwright.life.LifeData;
import siltwright.life.LifeFamily;
import siltwright.life.LogRank;

/**
 * How often each test says "differs" at 5 % where nothing does, machines watched unequally long and
 * some from late on: prints the table of docs/compare-level.md. The arguments pick tests by a part
 * of their names.
 */
public final class LevelStudy {
  private static final long SEED = 20261128;
  private static final double NORMAL_WEIGHT = 2 * Math.PI;

  private final String[] picked;

  private LevelStudy(String[] picked) {
    this.picked = picked;
  }

  /** Runs the study. */
  public static void main(String[] args) {
    new LevelStudy(args).all();
  }

  private void all() {
    System.out.println("| test | what is simulated | runs | said \"differs\" % | error |");
    System.out.println("| --- | --- | ---: | ---: | ---: |");
    for (int n : new int[] {12, 20, 40}) {
      for (boolean differ : new boolean[] {false, true}) {
        String what = "2 x " + n + " machines" + (differ ? " that differ" : "");
        Fleet fleet = new Fleet(2, n, differ);
        row("difference of means", what, 10_000, r -> means(fleet, r));
        row("score test, 2 groups", what, 10_000, r -> score(fleet, r, false));
        row("rate ratio", what, 10_000, r -> wald(fleet, r, false));
        row("rate ratio, adjusted", what, 10_000, r -> wald(fleet, r, true));
      }
    }
    Fleet three = new Fleet(3, 20, true);
    row("score test, 3 groups", "3 x 20 machines that differ", 10_000, r -> score(three, r, false));
    row("score test, strata", "3 x 20 machines that differ", 10_000, r -> score(three, r, true));
    row("Holm, any of 3 differences", "3 x 20 machines that differ", 10_000, r -> holm(three, r));

    Fleet one = new Fleet(1, 1, false);
    Fleet many = new Fleet(1, 20, false);
    Fleet unlike = new Fleet(1, 20, true);
    row("Laplace", "1 machine", 20_000, r -> TrendTests.laplace(one.events(r, 10)).pValue());
    row(
        "Laplace",
        "20 machines that differ",
        20_000,
        r -> TrendTests.laplace(unlike.events(r, 1)).pValue());
    row(
        "military handbook",
        "1 machine",
        20_000,
        r -> TrendTests.militaryHandbook(one.events(r, 10)).pValue());
    row(
        "military handbook",
        "20 machines that differ",
        20_000,
        r -> TrendTests.militaryHandbook(unlike.events(r, 1)).pValue());
    row(
        "generalised Laplace",
        "20 machines that differ",
        20_000,
        r -> TrendTests.generalisedLaplace(unlike.events(r, 1)).pValue());
    for (int n : new int[] {6, 20}) {
      Fleet renewed = new Fleet(1, n, true);
      for (double shape : new double[] {0.7, 1, 2}) {
        row(
            "gap order",
            n
                + " machines that differ, "
                + (shape < 1 ? "clustered" : shape > 1 ? "regular" : "chance")
                + " events",
            10_000,
            r -> TrendTests.gapOrder(renewed.renewals(r, 1, shape), 1).pValue());
        row(
            "generalised Laplace",
            n
                + " machines that differ, "
                + (shape < 1 ? "clustered" : shape > 1 ? "regular" : "chance")
                + " events",
            10_000,
            r -> TrendTests.generalisedLaplace(renewed.renewals(r, 1, shape)).pValue());
      }
    }
    row("Lewis-Robinson", "1 machine, events by chance", 20_000, r -> lewis(one.events(r, 10)));
    row(
        "Lewis-Robinson",
        "1 machine, clustered events",
        20_000,
        r -> lewis(one.renewals(r, 10, 0.7)));
    row("power law against constant", "20 machines", 10_000, r -> law(many.events(r, 1)));
    row("Cramér-von Mises", "20 machines that differ, power law", 10_000, r -> fit(unlike, r));

    row(
        "exact ratio of rates",
        "2 x 20 machines",
        20_000,
        r -> exact(new Fleet(2, 20, false), r, 5));
    row(
        "machines alike, Pearson",
        "20 machines",
        20_000,
        r -> alike(many.events(r, 1)).pearson().pValue());
    row(
        "machines alike, likelihood ratio",
        "20 machines",
        20_000,
        r -> alike(many.events(r, 1)).likelihoodRatio().pValue());
    for (int n : new int[] {12, 20, 40}) {
      Fleet fleet = new Fleet(2, n, true);
      row(
          "cost per hour, drawn",
          "2 x " + n + " machines that differ",
          10_000,
          r -> cost(fleet, r));
      int machines = n;
      row("share of hours, drawn", "2 x " + n + " machines", 10_000, r -> share(machines, r));
    }

    for (int n : new int[] {20, 50}) {
      row(
          "log-rank, 2 groups",
          "2 x " + n + " components",
          10_000,
          r -> logRank(r, 2, n, 0, false));
      row(
          "log-rank, 3 groups",
          "3 x " + n + " components",
          10_000,
          r -> logRank(r, 3, n, 0, false));
      row("log-rank, strata", "3 x " + n + " components", 10_000, r -> logRank(r, 3, n, 0, true));
      row(
          "log-rank, early ones more",
          "2 x " + n + " components",
          10_000,
          r -> logRank(r, 2, n, 1, false));
      row("life factor", "2 x " + n + " components", 10_000, r -> aft(r, n, false));
      row("life factor, adjusted", "2 x " + n + " components", 10_000, r -> aft(r, n, true));
    }

    for (int n : new int[] {12, 20, 40}) {
      Fleet fleet = new Fleet(1, n, true);
      String what = n + " machines that differ";
      row(
          "before and after, step",
          what,
          10_000,
          r -> step(fleet, r, false, BeforeAfter.Term.STEP));
      row("step with slopes", what, 10_000, r -> step(fleet, r, true, BeforeAfter.Term.STEP));
      row("slope before", what, 10_000, r -> step(fleet, r, true, BeforeAfter.Term.TREND));
      row("change of slope", what, 10_000, r -> step(fleet, r, true, BeforeAfter.Term.BEND));
    }
  }

  private void row(String test, String what, int runs, ToDoubleFunction<SplittableRandom> pValue) {
    String name = test + ", " + what;
    if (picked.length > 0 && Arrays.stream(picked).noneMatch(name::contains)) {
      return;
    }
    double[] ps =
        IntStream.range(0, runs)
            .parallel()
            .mapToDouble(
                i ->
                    pValue.applyAsDouble(
                        new SplittableRandom(SEED ^ ((long) name.hashCode() << 20) + i)))
            .toArray();
    long without = Arrays.stream(ps).filter(Double::isNaN).count();
    double share = Arrays.stream(ps).filter(p -> p < 0.05).count() / (double) (runs - without);
    System.out.printf(
        Locale.ROOT,
        "| %s | %s | %d | %.2f | %.2f |%n",
        test,
        what + (without > 0 ? " (" + without + " runs without an answer)" : ""),
        runs,
        100 * share,
        100 * Math.sqrt(share * (1 - share) / (runs - without)));
  }

  /** Machines of fleets that are all alike, watched unequally long. */
  private record Fleet(int groups, int machines, boolean differ) {
    /** Windows of 1000 to 9000 h, one in four from up to 3000 h on; one event in 1000 h or more. */
    EventData events(SplittableRandom random, double rate) {
      return make(random, rate, 1, 1);
    }

    EventData renewals(SplittableRandom random, double rate, double gapShape) {
      return make(random, rate, 1, gapShape);
    }

    EventData powerLaw(SplittableRandom random, double shape) {
      return make(random, 1, shape, 1);
    }

    private EventData make(SplittableRandom random, double rate, double shape, double gapShape) {
      int n = groups * machines;
      List<String> names = new ArrayList<>();
      int[] windowMachine = new int[n];
      double[] from = new double[n];
      double[] to = new double[n];
      int[] machine = new int[64];
      double[] at = new double[64];
      int events = 0;
      for (int m = 0; m < n; m++) {
        names.add("M" + m);
        windowMachine[m] = m;
        boolean late = shape == 1 && gapShape == 1 && random.nextDouble() < 0.25;
        from[m] = late ? 3000 * random.nextDouble() : 0;
        to[m] = from[m] + 1000 + 8000 * random.nextDouble();
        double own =
            rate
                * (differ
                    ? (exponential(random) + exponential(random) + exponential(random)) / 3
                    : 1);
        double clock = Math.pow(from[m] / 1000, shape);
        double end = Math.pow(to[m] / 1000, shape);
        while (true) {
          double gap =
              gapShape == 1 ? exponential(random) : Math.pow(exponential(random), 1 / gapShape);
          clock += gap / own;
          if (clock >= end) {
            break;
          }
          if (events == at.length) {
            machine = Arrays.copyOf(machine, 2 * events);
            at = Arrays.copyOf(at, 2 * events);
          }
          machine[events] = m;
          at[events++] =
              Math.min(
                  Math.nextDown(to[m]),
                  Math.max(Math.nextUp(from[m]), 1000 * Math.pow(clock, 1 / shape)));
        }
      }
      return EventData.of(
          names,
          windowMachine,
          from,
          to,
          Arrays.copyOf(machine, events),
          Arrays.copyOf(at, events),
          null);
    }

    Covariate.Categorical group() {
      List<String> names = IntStream.range(0, groups).mapToObj(k -> "G" + k).toList();
      return new Covariate.Categorical(
          names, IntStream.range(0, groups * machines).map(m -> m / machines).toArray());
    }

    EventData of(EventData all, int group) {
      return all.where(m -> m / machines == group);
    }
  }

  private static double exponential(SplittableRandom random) {
    return -Math.log(1 - random.nextDouble());
  }

  private static double normal(SplittableRandom random) {
    return Math.sqrt(2 * exponential(random)) * Math.cos(NORMAL_WEIGHT * random.nextDouble());
  }

  /** Returns the age at which a fifth of the machines, at least five, are still watched. */
  private static double ageOf(EventData... fleets) {
    double age = Double.POSITIVE_INFINITY;
    for (EventData f : fleets) {
      double[] ends = new double[f.windows()];
      Arrays.setAll(ends, f::toH);
      Arrays.sort(ends);
      age = Math.min(age, ends[ends.length - (int) Math.max(5, Math.ceil(0.2 * ends.length))]);
    }
    return age;
  }

  private static double means(Fleet fleet, SplittableRandom random) {
    EventData all = fleet.events(random, 1);
    EventData a = fleet.of(all, 0);
    EventData b = fleet.of(all, 1);
    return MeanDifference.of(MeanCumulative.of(a), MeanCumulative.of(b), ageOf(a, b), 0.95)
        .pValue();
  }

  private static double holm(Fleet fleet, SplittableRandom random) {
    EventData all = fleet.events(random, 1);
    EventData[] of = {fleet.of(all, 0), fleet.of(all, 1), fleet.of(all, 2)};
    double age = ageOf(of);
    double[] ps = new double[3];
    for (int k = 0; k < 3; k++) {
      ps[k] =
          MeanDifference.of(MeanCumulative.of(of[k]), MeanCumulative.of(of[(k + 1) % 3]), age, 0.95)
              .pValue();
    }
    return Arrays.stream(Multiplicity.HOLM.adjusted(ps)).min().orElseThrow();
  }

  private static Covariate.Categorical strata(int n) {
    return new Covariate.Categorical(
        List.of("x", "y"), IntStream.range(0, n).map(m -> m % 2).toArray());
  }

  private static double score(Fleet fleet, SplittableRandom random, boolean strata) {
    EventData all = fleet.events(random, 1);
    return RateModel.compare(all, fleet.group(), strata ? strata(all.machines().size()) : null)
        .pValue();
  }

  private static double wald(Fleet fleet, SplittableRandom random, boolean adjusted) {
    EventData all = fleet.events(random, 1);
    Map<String, Covariate> x = new LinkedHashMap<>();
    x.put("group", fleet.group());
    if (adjusted) {
      double[] load = new double[all.machines().size()];
      Arrays.setAll(load, m -> normal(random));
      x.put("load", new Covariate.Numeric(load));
      x.put("class", strata(load.length));
    }
    Estimate<RateFit> fit = RateModel.fit(all, x, null);
    return fit.exists() ? fit.get().pValue("group", "G1", "G0") : Double.NaN;
  }

  private static double lewis(EventData data) {
    return data.events() < 3 ? Double.NaN : TrendTests.lewisRobinson(data).pValue();
  }

  private static double law(EventData data) {
    return PowerLaw.fit(data).get().againstConstant().pValue();
  }

  private static double fit(Fleet fleet, SplittableRandom random) {
    EventData data = fleet.powerLaw(random, 1.4);
    return CramerVonMises.of(data, 499, random.nextLong()).pValue();
  }

  private static double exact(Fleet fleet, SplittableRandom random, double rate) {
    EventData all = fleet.events(random, rate);
    EventData a = fleet.of(all, 0);
    EventData b = fleet.of(all, 1);
    return PoissonRates.ratio(a.events(), a.hoursH(), b.events(), b.hoursH(), 0.95).pValue();
  }

  private static PoissonRates.Alike alike(EventData data) {
    return PoissonRates.alike(data.countByMachine(), data.hoursByMachine());
  }

  private static double cost(Fleet fleet, SplittableRandom random) {
    EventData all = fleet.events(random, 1);
    MachineRatio[] of = new MachineRatio[2];
    for (int g = 0; g < 2; g++) {
      EventData part = fleet.of(all, g);
      double[] cost = new double[part.machines().size()];
      for (int e = 0; e < part.events(); e++) {
        cost[part.eventMachine(e)] += Math.exp(0.8 * normal(random));
      }
      of[g] = MachineRatio.of(cost, part.hoursByMachine());
    }
    return of[0].less(of[1], 399, random.nextLong(), 0.95).pValue();
  }

  /** Oil in spells of about 500 h within and 250 h beyond the target, sampled at uneven hours. */
  private static double share(int machines, SplittableRandom random) {
    MachineRatio[] of = new MachineRatio[2];
    for (int g = 0; g < 2; g++) {
      List<Integer> machine = new ArrayList<>();
      List<Double> at = new ArrayList<>();
      List<Boolean> good = new ArrayList<>();
      for (int m = 0; m < machines; m++) {
        double end = 1000 + 8000 * random.nextDouble();
        boolean within = random.nextDouble() < 2.0 / 3;
        double change = (within ? 500 : 250) * exponential(random);
        for (double t = 300 * random.nextDouble(); t < end; ) {
          while (change < t) {
            within = !within;
            change += (within ? 500 : 250) * exponential(random);
          }
          machine.add(m);
          at.add(t);
          good.add(within);
          t += (within ? 400 : 200) * (0.5 + random.nextDouble());
        }
      }
      boolean[] flags = new boolean[good.size()];
      for (int i = 0; i < flags.length; i++) {
        flags[i] = good.get(i);
      }
      Compliance c =
          Compliance.of(
              machines,
              machine.stream().mapToInt(i -> i).toArray(),
              at.stream().mapToDouble(d -> d).toArray(),
              flags);
      of[g] = c.share(IntStream.range(0, machines).filter(m -> c.hoursH()[m] > 0).toArray());
    }
    return of[0].less(of[1], 399, random.nextLong(), 0.95).pValue();
  }

  private static LifeData lives(SplittableRandom random, int n) {
    LifeData.Builder b = LifeData.builder();
    for (int i = 0; i < n; ) {
      double life = 5000 * Math.pow(exponential(random), 1 / 1.8);
      double entry = random.nextDouble() < 0.25 ? 2000 * random.nextDouble() : 0;
      double end = entry + 1000 + 7000 * random.nextDouble();
      if (life > entry) {
        if (life <= end) {
          b.failedAt(life);
        } else {
          b.runningAt(end);
        }
        b.enteredAt(entry);
        i++;
      }
    }
    return b.build();
  }

  private static double logRank(
      SplittableRandom random, int groups, int n, double rho, boolean strata) {
    LifeData data = lives(random, groups * n).withCovariate("g", names(groups * n, n));
    if (strata) {
      data = data.withCovariate("s", names(groups * n, 1, 2));
    }
    return LogRank.of(data, "g", rho, strata ? "s" : null).test().pValue();
  }

  private static String[] names(int all, int each) {
    return IntStream.range(0, all).mapToObj(i -> "G" + i / each).toArray(String[]::new);
  }

  private static String[] names(int all, int each, int modulo) {
    return IntStream.range(0, all).mapToObj(i -> "S" + i / each % modulo).toArray(String[]::new);
  }

  private static double aft(SplittableRandom random, int n, boolean adjusted) {
    LifeData data = lives(random, 2 * n).withCovariate("g", names(2 * n, n));
    List<String> x = new ArrayList<>(List.of("g"));
    if (adjusted) {
      double[] load = new double[2 * n];
      Arrays.setAll(load, i -> normal(random));
      data = data.withCovariate("load", load);
      x.add("load");
    }
    Estimate<AftFit> fit = AftModel.fit(data, LifeFamily.WEIBULL, x);
    return fit.exists()
        ? LifeFactor.of(fit.get(), "g", "G1", "G0", data.failures(), 0.95).pValue()
        : Double.NaN;
  }

  private static double step(
      Fleet fleet, SplittableRandom random, boolean slopes, BeforeAfter.Term of) {
    EventData data = fleet.events(random, 2);
    double[] at = new double[data.machines().size()];
    for (int m = 0; m < at.length; m++) {
      double length = data.toH(m) - data.fromH(m);
      at[m] =
          random.nextDouble() < 0.2
              ? Double.NaN
              : data.fromH(m) + length * (0.25 + 0.5 * random.nextDouble());
    }
    List<BeforeAfter.Term> terms =
        slopes
            ? List.of(BeforeAfter.Term.TREND, BeforeAfter.Term.STEP, BeforeAfter.Term.BEND)
            : List.of(BeforeAfter.Term.STEP);
    Estimate<BeforeAfter> fit = BeforeAfter.fit(data, at, terms, null);
    return fit.exists() ? fit.get().pValue(of) : Double.NaN;
  }
}
