package siltwright.fleet.internal;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import siltwright.analysis.Progress;
import siltwright.analysis.Records;
import siltwright.fleet.LifeFactor;
import siltwright.life.AftFit;
import siltwright.life.AftModel;
import siltwright.life.Covariate;
import siltwright.life.Estimate;
import siltwright.life.Estimated;
import siltwright.life.KaplanMeier;
import siltwright.life.LifeData;
import siltwright.life.LifeFamily;
import siltwright.life.LogRank;
import siltwright.life.Refusal;
import siltwright.life.SignificanceTest;
import siltwright.life.records.LifeTable;

/** Everything that is computed of lives, before it is shown. */
final class LifeStudy {
  /**
   * One group.
   *
   * @param name its name
   * @param data its components
   * @param survival its survival; not there where failures are known within intervals
   */
  record Group(String name, LifeData data, Optional<KaplanMeier> survival) {
    double watchedH() {
      double sum = 0;
      for (int i = 0; i < data.rows(); i++) {
        double end = data.failed(i) ? data.upperH(i) : data.lowerH(i);
        sum += data.countAt(i) * (end - data.entryH(i));
      }
      return sum;
    }
  }

  /**
   * A comparison of two groups.
   *
   * @param pair which
   * @param logRank log-rank test of the two alone
   * @param logRankP its p-value among all
   * @param factor the first's life over the second's, from the regression
   * @param factorP its p-value and that among all
   */
  record Comparison(
      Groups.Pair pair,
      Optional<SignificanceTest> logRank,
      double logRankP,
      Optional<Estimated> factor,
      double[] factorP) {}

  final Settings settings;
  final Records kept;
  final LifeData data;
  final Groups groups;
  final List<Group> members = new ArrayList<>();
  final Optional<LogRank> logRank;
  final Optional<AftFit> regression;
  final List<Refusal> refusals = new ArrayList<>();
  final List<Comparison> comparisons = new ArrayList<>();
  final List<Overlap> overlaps;

  private LifeStudy(
      Records kept, LifeData data, Groups groups, Settings settings, Progress progress) {
    this.kept = kept;
    this.data = data;
    this.groups = groups;
    this.settings = settings;
    boolean known = !data.hasIntervals();
    for (int k = 0; k < groups.names().size(); k++) {
      int code = k;
      LifeData part = data.where(i -> groups.codes()[i] == code);
      members.add(
          new Group(
              groups.names().get(k),
              part,
              known ? Optional.of(KaplanMeier.of(part)) : Optional.empty()));
    }
    progress.check(0.4, "log-rank");
    String stratum = settings.stratum().orElse(null);
    logRank =
        known && data.failures() > 0
            ? Optional.of(LogRank.of(data, settings.by(), settings.weight(), stratum))
            : Optional.empty();
    progress.check(0.5, "regression");
    regression = regression();
    progress.check(0.7, "pairs");
    compare(stratum);
    Map<String, Covariate> adjust = new LinkedHashMap<>();
    settings.adjust().forEach(a -> adjust.put(a, data.covariates().get(a)));
    overlaps = Overlap.of(groups, adjust);
  }

  static LifeStudy of(Records table, Settings settings, Progress progress) {
    List<String> covariates = new ArrayList<>(List.of(settings.by()));
    covariates.addAll(settings.adjust());
    settings.stratum().ifPresent(covariates::add);
    LifeTable records = LifeTable.of(table, covariates);
    Records kept = records.kept();
    Records.Column by = kept.find(settings.by()).orElseThrow();
    if (!settings.cuts().isEmpty() && !(by instanceof Records.Numbers)) {
      throw CompareAnalysis.fault("--cut", settings.by(), "a column of numbers for --by");
    }
    String[] texts = new String[kept.rows()];
    Arrays.setAll(texts, by::text);
    Groups groups =
        Groups.of(
            List.of(texts),
            settings.cuts().isEmpty()
                ? Optional.empty()
                : Optional.of(((Records.Numbers) by).values()),
            settings,
            table);
    String[] names =
        Arrays.stream(groups.codes()).mapToObj(groups.names()::get).toArray(String[]::new);
    LifeData data = records.data().withCovariate(settings.by(), names, groups.names());
    if (settings.stratum().isPresent()) {
      Records.Column stratum = kept.find(settings.stratum().get()).orElseThrow();
      String[] strata = new String[kept.rows()];
      Arrays.setAll(strata, stratum::text);
      data = data.withCovariate(settings.stratum().get(), strata);
    }
    return new LifeStudy(kept, data, groups, settings, progress);
  }

  /** Returns the regression whose law fits best, with groups as a factor. */
  private Optional<AftFit> regression() {
    List<String> covariates = new ArrayList<>(List.of(settings.by()));
    covariates.addAll(settings.adjust());
    settings.stratum().ifPresent(covariates::add);
    AftFit best = null;
    for (LifeFamily family : List.of(LifeFamily.WEIBULL, LifeFamily.LOGNORMAL)) {
      Estimate<AftFit> fit = AftModel.fit(data, family, covariates);
      if (!fit.exists()) {
        if (!refusals.contains(fit.refusal())) {
          refusals.add(fit.refusal());
        }
      } else if (best == null || fit.get().aic() < best.aic()) {
        best = fit.get();
      }
    }
    return Optional.ofNullable(best);
  }

  private void compare(String stratum) {
    List<Groups.Pair> pairs = groups.pairs();
    int n = pairs.size();
    double[] rankP = new double[n];
    double[] factorP = new double[n];
    List<Optional<SignificanceTest>> tests = new ArrayList<>();
    List<Optional<Estimated>> factors = new ArrayList<>();
    for (int i = 0; i < n; i++) {
      Groups.Pair pair = pairs.get(i);
      Optional<SignificanceTest> test = Optional.empty();
      if (logRank.isPresent()) {
        LifeData two = two(pair);
        if (two.failures() > 0) {
          test = Optional.of(LogRank.of(two, settings.by(), settings.weight(), stratum).test());
        }
      }
      tests.add(test);
      rankP[i] = test.map(SignificanceTest::pValue).orElse(Double.NaN);
      Optional<LifeFactor> factor =
          regression.map(
              r ->
                  LifeFactor.of(
                      r,
                      settings.by(),
                      groups.names().get(pair.first()),
                      groups.names().get(pair.second()),
                      data.failures(),
                      Settings.CONFIDENCE));
      factors.add(factor.map(LifeFactor::estimate));
      factorP[i] = factor.map(LifeFactor::pValue).orElse(Double.NaN);
    }
    double[] rankAll = settings.correction().adjusted(rankP);
    double[] factorAll = settings.correction().adjusted(factorP);
    for (int i = 0; i < n; i++) {
      comparisons.add(
          new Comparison(
              pairs.get(i),
              tests.get(i),
              rankAll[i],
              factors.get(i),
              new double[] {factorP[i], factorAll[i]}));
    }
  }

  /** Returns the components of two groups, with these alone as levels. */
  private LifeData two(Groups.Pair pair) {
    int[] codes = groups.codes();
    String[] names =
        Arrays.stream(codes)
            .filter(c -> c == pair.first() || c == pair.second())
            .mapToObj(groups.names()::get)
            .toArray(String[]::new);
    return data.where(r -> codes[r] == pair.first() || codes[r] == pair.second())
        .withCovariate(settings.by(), names);
  }
}
