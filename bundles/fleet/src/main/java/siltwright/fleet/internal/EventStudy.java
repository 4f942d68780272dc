package siltwright.fleet.internal;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import siltwright.analysis.Progress;
import siltwright.fleet.CramerVonMises;
import siltwright.fleet.EventData;
import siltwright.fleet.GammaPoisson;
import siltwright.fleet.MachineRatio;
import siltwright.fleet.MeanCumulative;
import siltwright.fleet.MeanDifference;
import siltwright.fleet.PoissonRates;
import siltwright.fleet.PowerLaw;
import siltwright.fleet.RateFit;
import siltwright.fleet.RateModel;
import siltwright.fleet.TrendTests;
import siltwright.life.Covariate;
import siltwright.life.Estimate;
import siltwright.life.Estimated;
import siltwright.life.Interval;
import siltwright.life.Refusal;
import siltwright.life.SignificanceTest;

/** Everything that is computed of events, before it is shown. */
final class EventStudy {
  /** Name of the groups within a regression. */
  static final String GROUP = "group";

  /** Share of a group's machines that should still be at risk where means are compared. */
  private static final double LEAST_AT_RISK = 0.2;

  private static final int FEWEST_AT_RISK = 5;
  private static final int MOST_TESTED = 5000;

  /** Above this many machines they are not told one by one. */
  static final int MOST_MACHINES = 2000;

  private static final int TEST_DRAWS = 999;

  /**
   * One group.
   *
   * @param name its name
   * @param data its machines
   * @param mean its mean number of events
   * @param cost its mean cost, where there are costs
   * @param rate exact interval of its rate, per h
   * @param perHour its rate with the machine as what varies
   * @param costPerHour its cost per hour, where there are costs
   * @param alike whether its machines are, where there are two
   * @param law its power law, or why there is none
   * @param trendTests tests of a trend by name: statistic, degrees of freedom or not a number, p
   * @param fit whether the power law fits, where that can be said
   */
  record Group(
      String name,
      EventData data,
      MeanCumulative mean,
      Optional<MeanCumulative> cost,
      Interval rate,
      MachineRatio.Drawn perHour,
      Optional<MachineRatio.Drawn> costPerHour,
      Optional<PoissonRates.Alike> alike,
      Estimate<PowerLaw> law,
      Map<String, double[]> trendTests,
      Optional<CramerVonMises> fit) {
    double ratePerH() {
      return data.events() / data.hoursH();
    }

    int machines() {
      return data.machines().size();
    }
  }

  /**
   * A comparison of two groups.
   *
   * @param pair which
   * @param means their means at one age
   * @param meansOfMany the same, as is right for many machines
   * @param meanP its p-value among all
   * @param ratio the first's rate over the second's, adjusted; not there without a regression
   * @param ratioP its p-value and that among all
   * @param exact the exact ratio of their rates
   * @param exactP its p-value among all
   * @param cost the first's cost per hour less the second's
   */
  record Comparison(
      Groups.Pair pair,
      Optional<MeanDifference> means,
      Optional<MeanDifference> meansOfMany,
      double meanP,
      Optional<Estimated> ratio,
      double[] ratioP,
      PoissonRates.Ratio exact,
      double exactP,
      Optional<MachineRatio.Drawn> cost) {}

  final Settings settings;
  final EventRecords records;
  final List<Group> groups = new ArrayList<>();
  final List<Comparison> comparisons = new ArrayList<>();
  final Optional<SignificanceTest> equal;
  final Optional<RateFit> plain;
  final Optional<RateFit> adjusted;
  final List<Refusal> refusals = new ArrayList<>();
  final double atH;
  final Optional<GammaPoisson> shrunkGroups;
  final Optional<GammaPoisson> shrunkMachines;
  final List<Overlap> overlaps;
  final Optional<InterventionStudy> intervention;

  EventStudy(EventRecords records, Settings settings, Progress progress) {
    this.settings = settings;
    this.records = records;
    Groups g = records.groups();
    EventData data = records.data();
    for (int k = 0; k < g.names().size(); k++) {
      progress.check(0.1 + 0.4 * k / g.names().size(), "group " + g.names().get(k));
      groups.add(group(k));
    }
    atH = settings.atH().orElseGet(this::comparedAt);
    progress.check(0.5, "differences");
    Covariate.Categorical group = g.covariate();
    Covariate.Categorical stratum = records.stratum().orElse(null);
    equal =
        data.events() > 0 && groups.stream().allMatch(x -> x.machines() > 1)
            ? Optional.of(RateModel.compare(data.withoutMarks(), group, stratum))
            : Optional.empty();
    plain = found(RateModel.fit(data, Map.of(GROUP, group), stratum));
    progress.check(0.6, "adjustment");
    Map<String, Covariate> all = new LinkedHashMap<>();
    all.put(GROUP, group);
    all.putAll(records.adjust());
    adjusted =
        records.adjust().isEmpty() ? Optional.empty() : found(RateModel.fit(data, all, stratum));
    overlaps = Overlap.of(g, records.adjust());
    progress.check(0.7, "pairs");
    compare();
    progress.check(0.8, "intervention");
    intervention = records.interventionH().map(at -> new InterventionStudy(records, at));
    shrunkGroups =
        groups.size() > 2 && data.events() > 0
            ? Optional.of(
                GammaPoisson.of(
                    groups.stream().mapToDouble(x -> x.data().events()).toArray(),
                    groups.stream().mapToDouble(x -> x.data().hoursH()).toArray()))
            : Optional.empty();
    shrunkMachines =
        data.machines().size() > 2 && data.machines().size() <= MOST_MACHINES && data.events() > 0
            ? Optional.of(GammaPoisson.of(data.countByMachine(), data.hoursByMachine()))
            : Optional.empty();
  }

  EventData data() {
    return records.data();
  }

  private Optional<RateFit> found(Estimate<RateFit> fit) {
    if (fit.exists()) {
      return Optional.of(fit.get());
    }
    if (!refusals.contains(fit.refusal())) {
      refusals.add(fit.refusal());
    }
    return Optional.empty();
  }

  private Group group(int k) {
    int[] codes = records.groups().codes();
    EventData whole = records.data().where(m -> codes[m] == k);
    EventData data = whole.withoutMarks();
    double[] hours = data.hoursByMachine();
    Optional<MachineRatio> cost =
        whole.hasMarks()
            ? Optional.of(MachineRatio.of(whole.markByMachine(), hours))
            : Optional.empty();
    return new Group(
        records.groups().names().get(k),
        whole,
        MeanCumulative.of(data),
        whole.hasMarks() ? Optional.of(MeanCumulative.of(whole)) : Optional.empty(),
        PoissonRates.interval(data.events(), data.hoursH(), Settings.CONFIDENCE),
        drawn(MachineRatio.of(data.countByMachine(), hours)),
        cost.map(this::drawn),
        data.machines().size() > 1 && data.events() > 0
            ? Optional.of(PoissonRates.alike(data.countByMachine(), hours))
            : Optional.empty(),
        PowerLaw.fit(data),
        trendTests(data),
        goodness(data));
  }

  private Map<String, double[]> trendTests(EventData data) {
    Map<String, double[]> tests = new LinkedHashMap<>();
    TrendTests.Laplace laplace = TrendTests.laplace(data);
    if (laplace.events() == 0) {
      return tests;
    }
    SignificanceTest handbook = TrendTests.militaryHandbook(data);
    tests.put("laplace", values(laplace));
    tests.put(
        "military-handbook",
        new double[] {handbook.chiSquare(), handbook.degreesOfFreedom(), handbook.pValue()});
    if (data.machines().size() > 1) {
      tests.put("generalised-laplace", values(TrendTests.generalisedLaplace(data)));
      tests.put("gap-order", values(TrendTests.gapOrder(data, settings.seed())));
    } else if (data.windows() == 1 && data.events() > 2) {
      tests.put("lewis-robinson", values(TrendTests.lewisRobinson(data)));
    }
    return tests;
  }

  private static double[] values(TrendTests.Laplace test) {
    return new double[] {test.z(), Double.NaN, test.pValue()};
  }

  private MachineRatio.Drawn drawn(MachineRatio ratio) {
    return ratio.drawn(settings.draws(), settings.seed(), Settings.CONFIDENCE);
  }

  private Optional<CramerVonMises> goodness(EventData data) {
    if (data.hasLateEntry() || data.events() < 4 || data.events() > MOST_TESTED) {
      return Optional.empty();
    }
    long within = 0;
    for (int e = 0; e < data.events(); e++) {
      within += data.atH(e) < data.toH(data.eventWindow(e)) ? 1 : 0;
    }
    return within < 3
        ? Optional.empty()
        : Optional.of(CramerVonMises.of(data, TEST_DRAWS, settings.seed()));
  }

  /** Returns the greatest age at which each group still has enough machines under watch. */
  private double comparedAt() {
    double at = Double.POSITIVE_INFINITY;
    for (Group g : groups) {
      double[] times = g.mean().timesH();
      double[] risk = g.mean().atRisk();
      double needed =
          Math.min(
              Math.max(FEWEST_AT_RISK, LEAST_AT_RISK * g.machines()),
              Math.max(1, g.machines() - 1));
      double last = 0;
      for (int i = 0; i < times.length; i++) {
        last = risk[i] >= needed ? times[i] : last;
      }
      double[] ends = new double[g.data().windows()];
      Arrays.setAll(ends, g.data()::toH);
      Arrays.sort(ends);
      // Where so many windows still run, events or not.
      last = Math.max(last, ends[(int) Math.max(0, ends.length - Math.ceil(needed))]);
      at = Math.min(at, last);
    }
    return at;
  }

  private void compare() {
    Optional<RateFit> fit = adjusted.or(() -> plain);
    List<Groups.Pair> pairs = records.groups().pairs();
    int n = pairs.size();
    double[] meanP = new double[n];
    double[] ratioP = new double[n];
    List<Optional<MeanDifference>> means = new ArrayList<>();
    List<Optional<Estimated>> ratios = new ArrayList<>();
    for (int i = 0; i < n; i++) {
      Group a = groups.get(pairs.get(i).first());
      Group b = groups.get(pairs.get(i).second());
      Optional<MeanDifference> mean = Optional.empty();
      if (a.machines() > 1 && b.machines() > 1 && atH > 0) {
        mean = Optional.of(MeanDifference.of(a.mean(), b.mean(), atH, Settings.CONFIDENCE));
      }
      means.add(mean);
      meanP[i] = mean.map(MeanDifference::pValue).orElse(Double.NaN);
      Optional<RateFit.Ratio> ratio = Optional.empty();
      if (fit.isPresent() && a.machines() > 1 && b.machines() > 1) {
        ratio = Optional.of(fit.get().ratio(GROUP, a.name(), b.name(), Settings.CONFIDENCE));
      }
      ratios.add(ratio.map(RateFit.Ratio::estimate));
      ratioP[i] = ratio.map(RateFit.Ratio::pValue).orElse(Double.NaN);
    }
    List<PoissonRates.Ratio> exact = new ArrayList<>();
    for (Groups.Pair pair : pairs) {
      EventData a = groups.get(pair.first()).data();
      EventData b = groups.get(pair.second()).data();
      exact.add(
          PoissonRates.ratio(a.events(), a.hoursH(), b.events(), b.hoursH(), Settings.CONFIDENCE));
    }
    double[] exactAll =
        settings
            .correction()
            .adjusted(exact.stream().mapToDouble(PoissonRates.Ratio::pValue).toArray());
    double[] meanAll = settings.correction().adjusted(meanP);
    double[] ratioAll = settings.correction().adjusted(ratioP);
    for (int i = 0; i < n; i++) {
      Group a = groups.get(pairs.get(i).first());
      Group b = groups.get(pairs.get(i).second());
      Optional<MachineRatio.Drawn> cost = Optional.empty();
      if (a.data().hasMarks()) {
        MachineRatio first = MachineRatio.of(a.data().markByMachine(), a.data().hoursByMachine());
        MachineRatio second = MachineRatio.of(b.data().markByMachine(), b.data().hoursByMachine());
        cost =
            Optional.of(first.less(second, settings.draws(), settings.seed(), Settings.CONFIDENCE));
      }
      comparisons.add(
          new Comparison(
              pairs.get(i),
              means.get(i),
              means
                  .get(i)
                  .map(d -> MeanDifference.ofMany(a.mean(), b.mean(), atH, Settings.CONFIDENCE)),
              meanAll[i],
              ratios.get(i),
              new double[] {ratioP[i], ratioAll[i]},
              exact.get(i),
              exactAll[i],
              cost));
    }
  }
}
