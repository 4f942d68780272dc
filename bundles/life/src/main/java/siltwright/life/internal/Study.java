package siltwright.life.internal;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import siltwright.analysis.Progress;
import siltwright.life.AftFit;
import siltwright.life.AftModel;
import siltwright.life.Bootstrap;
import siltwright.life.Covariate;
import siltwright.life.CumulativeIncidence;
import siltwright.life.Estimate;
import siltwright.life.GoodnessOfFit;
import siltwright.life.Interval;
import siltwright.life.LifeData;
import siltwright.life.LifeFamily;
import siltwright.life.LifeFit;
import siltwright.life.LifeFitting;
import siltwright.life.MedianRanks;
import siltwright.life.Quantity;
import siltwright.life.Refusal;
import siltwright.life.ThreeParameterWeibull;

/** Everything that is computed of the records, before it is shown. */
final class Study {
  /** Above this many rows a profile interval is the Wald interval, and costs a minute. */
  private static final int MOST_PROFILED = 100_000;

  /** The same of a regression, whose profiles have more numbers to climb in. */
  private static final int MOST_REGRESSED = 20_000;

  /** Above this many components a test by drawn records takes too long. */
  private static final int MOST_TESTED = 2000;

  private static final int TEST_DRAWS = 199;

  final Settings settings;
  final LifeRecords records;
  final LifeData data;

  /** Fits without covariates, best first. */
  final List<LifeFit> fits = new ArrayList<>();

  /** Regressions, best first; empty without covariates. */
  final List<AftFit> regressions = new ArrayList<>();

  /** Why there is no fit, each reason once. */
  final Set<Refusal> refusals = new LinkedHashSet<>();

  final Map<LifeFit, Map<Quantity, Interval>> profiles = new LinkedHashMap<>();
  final Curve curve;
  final Optional<MedianRanks> ranks;
  final Optional<GoodnessOfFit> goodness;
  final Optional<Bootstrap> bootstrap;
  final Optional<CumulativeIncidence> incidence;

  /** The Weibull with a failure-free time, if it was wanted, or why there is none. */
  final Optional<Estimate<ThreeParameterWeibull>> failureFree;

  private Study(LifeRecords records, Settings settings, Progress progress) {
    this.settings = settings;
    this.records = records;
    this.data = records.data();
    progress.check(0.05, "fits");
    fit();
    progress.check(0.2, "covariates");
    regress();
    progress.check(0.3, "profile intervals");
    if (regressions.isEmpty() && data.rows() <= MOST_PROFILED) {
      fits.forEach(this::profile);
    }
    curve = Curve.of(data);
    boolean weibull = settings.families().contains(LifeFamily.WEIBULL);
    boolean few = data.components() <= MOST_TESTED;
    ranks = few && weibull ? found(MedianRanks.of(data, LifeFamily.WEIBULL)) : Optional.empty();
    progress.check(0.5, "goodness of fit");
    goodness =
        few && regressions.isEmpty() && !fits.isEmpty() && settings.shape().isEmpty()
            ? found(GoodnessOfFit.of(data, best(), TEST_DRAWS, settings.seed()))
            : Optional.empty();
    progress.check(0.6, "bootstrap");
    bootstrap =
        settings.draws() > 0 && !fits.isEmpty() && settings.shape().isEmpty()
            ? found(Bootstrap.of(data, best().family(), settings.draws(), settings.seed(), true))
            : Optional.empty();
    failureFree =
        settings.failureFree() ? Optional.of(ThreeParameterWeibull.fit(data)) : Optional.empty();
    incidence = records.modes().map(CumulativeIncidence::of);
  }

  static Study of(LifeRecords records, Settings settings, Progress progress) {
    return new Study(records, settings, progress);
  }

  private static <T> Optional<T> found(Estimate<T> estimate) {
    return estimate.exists() ? Optional.of(estimate.get()) : Optional.empty();
  }

  private void fit() {
    for (LifeFamily family : settings.families()) {
      Estimate<LifeFit> fit =
          settings.shape().isPresent()
              ? LifeFitting.fitWithShape(data, settings.shape().get())
              : LifeFitting.fit(data, family);
      if (fit.exists()) {
        fits.add(fit.get());
      } else {
        refusals.add(fit.refusal());
      }
    }
    fits.sort(Comparator.comparingDouble(LifeFit::aic));
  }

  private void regress() {
    if (settings.covariates().isEmpty() || fits.isEmpty()) {
      return;
    }
    for (LifeFit fit : List.copyOf(fits)) {
      Estimate<AftFit> regression = AftModel.fit(data, fit, settings.covariates());
      if (regression.exists()) {
        regressions.add(regression.get());
      } else {
        refusals.add(regression.refusal());
      }
    }
    regressions.sort(Comparator.comparingDouble(AftFit::aic));
  }

  private void profile(LifeFit fit) {
    Map<Quantity, Interval> intervals = new LinkedHashMap<>();
    for (Laws.Named q : Laws.quantities(fit.family())) {
      intervals.put(q.quantity(), fit.profileInterval(q.quantity(), Laws.CONFIDENCE));
    }
    intervals.put(Laws.MEDIAN, fit.profileInterval(Laws.MEDIAN, Laws.CONFIDENCE));
    settings
        .atH()
        .map(Quantity.Reliability::new)
        .ifPresent(r -> intervals.put(r, fit.profileInterval(r, Laws.CONFIDENCE)));
    profiles.put(fit, intervals);
  }

  Optional<Interval> profile(LifeFit fit, Quantity quantity) {
    return Optional.ofNullable(profiles.getOrDefault(fit, Map.of()).get(quantity));
  }

  /** Returns whether profile intervals of regressions are told. */
  boolean profilesRegressions() {
    return data.rows() <= MOST_REGRESSED;
  }

  /** Returns whether profile intervals were left out for the number of rows. */
  boolean withoutProfiles() {
    return regressions.isEmpty() ? !fits.isEmpty() && profiles.isEmpty() : !profilesRegressions();
  }

  /** Returns whether laws were wanted and the records carry none, so that bounds are all. */
  boolean isBounded() {
    return fits.isEmpty() && !settings.families().isEmpty();
  }

  /** Returns what the hours of a life are called. */
  String ageLabel() {
    return settings.histories() ? "Exposure, hours at the reference" : "Age";
  }

  /** Returns the best fit without covariates. */
  LifeFit best() {
    return fits.get(0);
  }

  Optional<LifeFit> fit(LifeFamily family) {
    return fits.stream().filter(f -> f.family() == family).findFirst();
  }

  Optional<AftFit> regression(LifeFamily family) {
    return regressions.stream().filter(f -> f.family() == family).findFirst();
  }

  /** Returns where lives of a regression are told: mean numbers, the first level of words. */
  Map<String, Object> typical() {
    Map<String, Object> at = new LinkedHashMap<>();
    for (String name : settings.covariates()) {
      Covariate c = data.covariates().get(name);
      if (c instanceof Covariate.Categorical words) {
        at.put(name, words.levels().get(0));
      } else {
        double[] values = ((Covariate.Numeric) c).values();
        double sum = 0;
        for (int i = 0; i < values.length; i++) {
          sum += data.countAt(i) * values[i];
        }
        at.put(name, sum / data.components());
      }
    }
    return at;
  }

  /** Returns the hours that components were watched, h. */
  double watchedH() {
    double sum = 0;
    for (int i = 0; i < data.rows(); i++) {
      double end = data.failed(i) ? data.upperH(i) : data.lowerH(i);
      sum += data.countAt(i) * (end - data.entryH(i));
    }
    return sum;
  }
}
