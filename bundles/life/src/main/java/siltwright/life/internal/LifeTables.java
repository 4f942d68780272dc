package siltwright.life.internal;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.function.Supplier;
import siltwright.analysis.Cell;
import siltwright.analysis.Entry;
import siltwright.analysis.Entry.Column;
import siltwright.analysis.Result;
import siltwright.life.AftFit;
import siltwright.life.Bootstrap;
import siltwright.life.Covariate;
import siltwright.life.CumulativeIncidence;
import siltwright.life.Estimated;
import siltwright.life.Interval;
import siltwright.life.KaplanMeier;
import siltwright.life.LifeFamily;
import siltwright.life.LifeFit;
import siltwright.life.LogRank;
import siltwright.life.LowerBound;
import siltwright.life.Quantity;
import siltwright.life.SignificanceTest;

/** The answer of a study as values and tables. */
final class LifeTables {
  private static final double[] SHAPES = {1, 1.5, 2, 3};
  private static final String INTERCEPT = "(Intercept)";

  private final Study study;

  LifeTables(Study study) {
    this.study = study;
  }

  void addTo(Result.Builder result) {
    result.value("components", "Components", "", study.data.components());
    result.value("failures", "Failures", "", study.data.failures());
    result.value("watched_h", "Hours watched", "h", study.watchedH());
    result.add(fits());
    if (!study.fits.isEmpty()) {
      result.add(laws());
    }
    if (study.regressions.isEmpty()) {
      if (!study.fits.isEmpty()) {
        result.add(best());
      }
    } else {
      result.add(coefficients());
      result.add(effects());
      cleanliness().ifPresent(result::add);
    }
    withoutLaw().ifPresent(result::add);
    checks().ifPresent(result::add);
    study.bootstrap.ifPresent(b -> result.add(bootstrap(b)));
    if (study.isBounded() && !study.data.hasIntervals()) {
      result.add(bounds());
    }
    study.incidence.ifPresent(i -> result.add(incidence(i)));
  }

  /** Returns every fit whole, for programs. */
  private Entry.Table fits() {
    List<Column> columns =
        new ArrayList<>(
            List.of(
                new Column("distribution", "Law", ""),
                new Column("parameters", "Parameters", ""),
                new Column("standardErrors", "Standard errors", ""),
                new Column("intervals", "95 % intervals", ""),
                new Column("logLikelihood", "Log likelihood", "1"),
                new Column("aic", "AIC", "1"),
                new Column("b10_h", "B10 life", "h"),
                new Column("meanLife_h", "Mean life", "h")));
    study.settings.atH().ifPresent(h -> columns.add(new Column("reliability", "Reliability", "1")));
    List<List<Cell>> rows = new ArrayList<>();
    if (study.regressions.isEmpty()) {
      study.fits.forEach(f -> rows.add(row(f)));
    } else {
      columns.removeIf(c -> c.name().equals("meanLife_h"));
      columns.add(new Column("coefficients", "Coefficients on ln life", ""));
      columns.add(new Column("at", "Covariates at which lives are told", ""));
      study.regressions.forEach(f -> rows.add(row(f)));
    }
    return new Entry.Table("fits", "Fits", Entry.Use.DATA, columns, rows);
  }

  private List<Cell> row(LifeFit fit) {
    Map<String, Cell> parameters = new LinkedHashMap<>();
    Map<String, Cell> errors = new LinkedHashMap<>();
    Map<String, Cell> intervals = new LinkedHashMap<>();
    Map<String, Cell> values = new LinkedHashMap<>();
    List<Laws.Named> own = Laws.parameters(fit.family());
    for (Laws.Named q : quantities(fit)) {
      Estimated e = fit.estimate(q.quantity(), Laws.CONFIDENCE);
      values.put(q.name(), Cell.of(e.value()));
      if (own.contains(q)) {
        parameters.put(q.name(), Cell.of(e.value()));
      }
      if (!held(q)) {
        errors.put(q.name(), Cell.of(e.standardError()));
        Map<String, Cell> both = new LinkedHashMap<>();
        both.put("wald", range(e.wald()));
        both.put(
            "profile",
            study.profile(fit, q.quantity()).map(LifeTables::range).orElseGet(Cell.None::new));
        intervals.put(q.name(), new Cell.Parts(both));
      }
    }
    List<Cell> row =
        new ArrayList<>(
            List.of(
                Cell.of(Laws.word(fit.family())),
                new Cell.Parts(parameters),
                new Cell.Parts(errors),
                new Cell.Parts(intervals),
                Cell.of(fit.logLikelihood()),
                Cell.of(fit.aic()),
                values.get("b10_h"),
                values.getOrDefault("meanLife_h", Cell.of(fit.meanLifeH()))));
    study.settings.atH().ifPresent(h -> row.add(values.get("reliability")));
    return row;
  }

  private boolean held(Laws.Named q) {
    return study.settings.shape().isPresent() && q.quantity().equals(Quantity.SHAPE);
  }

  private List<Laws.Named> quantities(LifeFit fit) {
    List<Laws.Named> all = new ArrayList<>(Laws.quantities(fit.family()));
    study
        .settings
        .atH()
        .ifPresent(
            h ->
                all.add(
                    new Laws.Named(
                        "reliability",
                        "Reliability at " + Say.number(h) + " h",
                        "",
                        new Quantity.Reliability(h))));
    return all;
  }

  private List<Cell> row(AftFit fit) {
    Map<String, Cell> parameters = new LinkedHashMap<>();
    Map<String, Cell> errors = new LinkedHashMap<>();
    Map<String, Cell> intervals = new LinkedHashMap<>();
    Told told = new Told(errors, intervals, study.profilesRegressions());
    Estimated mu = fit.coefficient(INTERCEPT, Laws.CONFIDENCE);
    Estimated scale = fit.lifeFactor(INTERCEPT, Laws.CONFIDENCE);
    Supplier<Interval> muProfile = () -> fit.profileInterval(INTERCEPT, Laws.CONFIDENCE);
    Supplier<Interval> scaleProfile =
        () -> new Interval(Math.exp(muProfile.get().lower()), Math.exp(muProfile.get().upper()));
    Supplier<Interval> sigmaProfile = () -> fit.sigmaProfileInterval(Laws.CONFIDENCE);
    double log = fit.logSigmaStandardError();
    switch (fit.family()) {
      case WEIBULL -> {
        told.put(
            "shape",
            log(fit.shape(), log),
            () -> new Interval(1 / sigmaProfile.get().upper(), 1 / sigmaProfile.get().lower()),
            parameters);
        told.put("scale", scale, scaleProfile, parameters);
      }
      case LOGNORMAL -> {
        told.put("mu", mu, muProfile, parameters);
        told.put("sigma", log(fit.sigma(), log), sigmaProfile, parameters);
      }
      case EXPONENTIAL -> told.put("mean", scale, scaleProfile, parameters);
    }
    Map<String, Object> at = study.typical();
    Estimated b10 = fit.bLife(at, 0.1, Laws.CONFIDENCE);
    told.put(
        "b10_h",
        b10,
        () -> fit.bLifeProfileInterval(at, 0.1, Laws.CONFIDENCE),
        new LinkedHashMap<>());
    Map<String, Cell> coefficients = new LinkedHashMap<>();
    for (String name : fit.names()) {
      told.put(
          name.equals(INTERCEPT) ? "intercept" : name,
          fit.coefficient(name, Laws.CONFIDENCE),
          () -> fit.profileInterval(name, Laws.CONFIDENCE),
          coefficients);
    }
    List<Cell> row =
        new ArrayList<>(
            List.of(
                Cell.of(Laws.word(fit.family())),
                new Cell.Parts(parameters),
                new Cell.Parts(errors),
                new Cell.Parts(intervals),
                Cell.of(fit.logLikelihood()),
                Cell.of(fit.aic()),
                Cell.of(b10.value())));
    study.settings.atH().ifPresent(h -> row.add(Cell.of(fit.reliability(at, h))));
    row.add(new Cell.Parts(coefficients));
    Map<String, Cell> where = new LinkedHashMap<>();
    at.forEach(
        (name, v) -> where.put(name, v instanceof Double d ? Cell.of(d) : Cell.of((String) v)));
    row.add(new Cell.Parts(where));
    return row;
  }

  private static Estimated log(double value, double logError) {
    double half = 1.959963984540054 * logError;
    return new Estimated(
        value,
        value * logError,
        logError,
        new Interval(value * Math.exp(-half), value * Math.exp(half)));
  }

  /** Where the numbers of a regression are told, each with its error and intervals. */
  private record Told(Map<String, Cell> errors, Map<String, Cell> intervals, boolean profiled) {
    void put(String name, Estimated e, Supplier<Interval> profile, Map<String, Cell> values) {
      values.put(name, Cell.of(e.value()));
      errors.put(name, Cell.of(e.standardError()));
      Map<String, Cell> both = new LinkedHashMap<>();
      both.put("wald", range(e.wald()));
      both.put("profile", profiled ? range(profile.get()) : new Cell.None());
      intervals.put(name, new Cell.Parts(both));
    }
  }

  private static Cell range(Interval i) {
    return new Cell.Range(i.lower(), i.upper());
  }

  /** Returns the laws side by side, for people. */
  private Entry.Table laws() {
    List<List<Cell>> rows = new ArrayList<>();
    Map<String, Object> at = study.typical();
    for (AftFit fit : study.regressions) {
      Estimated b10 = fit.bLife(at, 0.1, Laws.CONFIDENCE);
      Estimated median = fit.bLife(at, 0.5, Laws.CONFIDENCE);
      rows.add(
          law(fit.family(), fit.aic(), b10.value(), b10.wald(), median.value(), median.wald()));
    }
    if (rows.isEmpty()) {
      for (LifeFit fit : study.fits) {
        Interval b10 = interval(fit, Laws.B10);
        Interval median = interval(fit, Laws.MEDIAN);
        rows.add(law(fit.family(), fit.aic(), fit.bLifeH(0.1), b10, fit.bLifeH(0.5), median));
      }
    }
    return new Entry.Table(
        "laws",
        study.regressions.isEmpty()
            ? "Laws of life, best first"
            : "Laws of life, best first, at " + at(at),
        Entry.Use.READ,
        List.of(
            new Column("distribution", "Law", ""),
            new Column("aic", "AIC", "1"),
            new Column("b10_h", "B10 life", "h"),
            new Column("b10Interval_h", "95 % interval", "h"),
            new Column("median_h", "Median life", "h"),
            new Column("medianInterval_h", "95 % interval", "h")),
        rows);
  }

  private static String at(Map<String, Object> typical) {
    List<String> all = new ArrayList<>();
    typical.forEach((name, v) -> all.add(name + " " + (v instanceof Double d ? Say.number(d) : v)));
    return Say.list(all);
  }

  private static List<Cell> law(
      LifeFamily family, double aic, double b10, Interval b10s, double median, Interval medians) {
    return List.of(
        Cell.of(Laws.word(family)),
        Cell.of(aic),
        Cell.of(b10),
        range(b10s),
        Cell.of(median),
        range(medians));
  }

  /** Returns the profile interval, or Wald's where there is none. */
  private Interval interval(LifeFit fit, Quantity quantity) {
    return study
        .profile(fit, quantity)
        .orElseGet(() -> fit.estimate(quantity, Laws.CONFIDENCE).wald());
  }

  /** Returns the numbers of the best law, for people. */
  private Entry.Group best() {
    LifeFit fit = study.best();
    List<Entry.Value> values = new ArrayList<>();
    for (Laws.Named q : quantities(fit)) {
      Estimated e = fit.estimate(q.quantity(), Laws.CONFIDENCE);
      String given = held(q) ? ", given" : "";
      values.add(new Entry.Value(q.name(), q.label() + given, q.unit(), Cell.of(e.value())));
      if (!held(q)) {
        values.add(
            new Entry.Value(
                q.name() + "Interval",
                "95 % interval",
                q.unit(),
                range(interval(fit, q.quantity()))));
      }
    }
    String kind = study.profiles.isEmpty() ? "Wald" : "profile";
    return new Entry.Group(
        "best", "Best law, " + Laws.word(fit.family()) + ", with " + kind + " intervals", values);
  }

  private Entry.Table coefficients() {
    List<List<Cell>> rows = new ArrayList<>();
    for (AftFit fit : study.regressions) {
      for (String name : fit.names().subList(1, fit.names().size())) {
        Estimated factor = fit.lifeFactor(name, Laws.CONFIDENCE);
        rows.add(
            List.of(
                Cell.of(Laws.word(fit.family())),
                Cell.of(name),
                Cell.of(factor.value()),
                range(factor.wald()),
                Cell.of(fit.pValue(name))));
      }
    }
    return new Entry.Table(
        "factors",
        "Effects on life: factor of one more unit, or against the first level",
        Entry.Use.READ,
        List.of(
            new Column("distribution", "Law", ""),
            new Column("covariate", "Covariate", ""),
            new Column("lifeFactor", "Life times", "1"),
            new Column("lifeFactorInterval", "95 % interval", "1"),
            new Column("pValue", "p", "1")),
        rows);
  }

  /** Tests each covariate as a whole, in the best regression, and words without a law as well. */
  private Entry.Table effects() {
    AftFit fit = study.regressions.get(0);
    List<List<Cell>> rows = new ArrayList<>();
    for (String name : study.settings.covariates()) {
      rows.add(test(name, "Wald, " + Laws.word(fit.family()), fit.waldTest(name)));
      if (study.data.covariates().get(name) instanceof Covariate.Categorical
          && !study.data.hasIntervals()) {
        rows.add(test(name, "log-rank", LogRank.of(study.data, name, 0, null).test()));
      }
    }
    rows.add(test("all together", "likelihood ratio", fit.likelihoodRatioTest()));
    return new Entry.Table(
        "effects",
        "Whether covariates matter",
        Entry.Use.READ,
        List.of(
            new Column("covariate", "Covariate", ""),
            new Column("test", "Test", ""),
            new Column("chiSquare", "Chi-square", ""),
            new Column("degreesOfFreedom", "Degrees of freedom", ""),
            new Column("pValue", "p", "1")),
        rows);
  }

  private static List<Cell> test(String covariate, String name, SignificanceTest t) {
    return List.of(
        Cell.of(covariate),
        Cell.of(name),
        Cell.of(t.chiSquare()),
        Cell.of(t.degreesOfFreedom()),
        Cell.of(t.pValue()));
  }

  private Optional<Entry.Group> cleanliness() {
    return study
        .settings
        .clean()
        .map(
            name -> {
              AftFit fit = study.regressions.get(0);
              Estimated factor = fit.lifeFactor(name, Laws.CONFIDENCE);
              Estimated m = fit.countExponent(name, Laws.CONFIDENCE);
              return new Entry.Group(
                  "cleanliness",
                  "Life against cleanliness (" + Laws.word(fit.family()) + ")",
                  List.of(
                      new Entry.Value(
                          "lifePerCode",
                          "Life times, for one code number dirtier",
                          "",
                          Cell.of(factor.value())),
                      new Entry.Value(
                          "lifePerCodeInterval", "95 % interval", "", range(factor.wald())),
                      new Entry.Value(
                          "exponent", "Exponent m of wear against counts", "", Cell.of(m.value())),
                      new Entry.Value("exponentInterval", "95 % interval", "", range(m.wald())),
                      new Entry.Value(
                          "handbookExponent",
                          "Exponent that handbook tables imply (from memory)",
                          "",
                          new Cell.Range(Handbook.LOWEST_EXPONENT, Handbook.HIGHEST_EXPONENT))));
            });
  }

  private Optional<Entry.Group> withoutLaw() {
    if (study.curve.kaplanMeier().isEmpty() || study.data.failures() == 0) {
      return Optional.empty();
    }
    KaplanMeier km = study.curve.kaplanMeier().get();
    return Optional.of(
        new Entry.Group(
            "withoutLaw",
            "Without a law (Kaplan and Meier); a dash is beyond the records",
            List.of(
                quantile(km, "b10_h", "B10 life", 0.1),
                quantileInterval(study.curve, "b10Interval_h", 0.1),
                quantile(km, "median_h", "Median life", 0.5),
                quantileInterval(study.curve, "medianInterval_h", 0.5))));
  }

  private static Entry.Value quantile(KaplanMeier km, String name, String label, double share) {
    return new Entry.Value(name, label, "h", Cell.of(km.quantileH(share)));
  }

  private static Entry.Value quantileInterval(Curve curve, String name, double share) {
    double[][] band = {curve.low(), curve.high()};
    return new Entry.Value(
        name,
        "95 % interval",
        "h",
        range(curve.kaplanMeier().orElseThrow().quantileInterval(share, band)));
  }

  private Optional<Entry.Group> checks() {
    List<Entry.Value> values = new ArrayList<>();
    study.goodness.ifPresent(
        g -> {
          values.add(
              new Entry.Value(
                  "distance",
                  "Largest distance of "
                      + Laws.word(study.best().family())
                      + " law from the records",
                  "",
                  Cell.of(g.distance())));
          values.add(new Entry.Value("pValue", "p of such a distance", "", Cell.of(g.pValue())));
        });
    if (study.fit(LifeFamily.WEIBULL).isPresent()) {
      study.ranks.ifPresent(
          r -> {
            values.add(
                new Entry.Value(
                    "rankShape", "Weibull shape by median ranks", "", Cell.of(1 / r.sigma())));
            values.add(
                new Entry.Value(
                    "rankScale_h",
                    "Weibull scale by median ranks",
                    "h",
                    Cell.of(Math.exp(r.mu()))));
          });
    }
    return values.isEmpty()
        ? Optional.empty()
        : Optional.of(new Entry.Group("checks", "Cross-checks", values));
  }

  private Entry.Table bootstrap(Bootstrap b) {
    List<List<Cell>> rows = new ArrayList<>();
    for (Laws.Named q : quantities(b.fit())) {
      rows.add(
          List.of(
              Cell.of(q.label() + (q.unit().equals("1") ? "" : " (" + q.unit() + ")")),
              range(b.percentileInterval(q.quantity(), Laws.CONFIDENCE)),
              range(b.bcaInterval(q.quantity(), Laws.CONFIDENCE))));
    }
    return new Entry.Table(
        "bootstrap",
        "Bootstrap of "
            + study.settings.draws()
            + " draws, "
            + Laws.word(b.fit().family())
            + " law"
            + (study.regressions.isEmpty() ? "" : " without covariates"),
        Entry.Use.READ,
        List.of(
            new Column("quantity", "Number", ""),
            new Column("percentile", "95 % interval (percentile)", ""),
            new Column("biasCorrected", "95 % interval (bias-corrected)", "")),
        rows);
  }

  /** Returns what can be said without a fit: lives exceeded at a confidence, the shape assumed. */
  private Entry.Table bounds() {
    String confidence = Say.number(100 * study.settings.confidence()) + " %";
    double[] shapes = study.settings.shape().map(s -> new double[] {s}).orElse(SHAPES);
    List<List<Cell>> rows = new ArrayList<>();
    if (study.watchedH() > 0) {
      for (double shape : shapes) {
        LowerBound bound = LowerBound.of(study.data, shape);
        rows.add(
            List.of(
                Cell.of(shape),
                Cell.of(bound.scaleH()),
                Cell.of(bound.scaleLowerH(study.settings.confidence())),
                Cell.of(bound.bLifeLowerH(0.1, study.settings.confidence())),
                Cell.of(bound.scaleLowerH(0.5))));
      }
    }
    return new Entry.Table(
        "lowerBounds",
        "Lower bounds of a Weibull life, its shape assumed",
        Entry.Use.READ,
        List.of(
            new Column("shape", "Shape assumed", "1"),
            new Column("scale_h", "Scale", "h"),
            new Column("scaleAtLeast_h", "Scale at least, confidence " + confidence, "h"),
            new Column("b10AtLeast_h", "B10 at least, confidence " + confidence, "h"),
            new Column("scaleAtLeastEven_h", "Scale at least, confidence 50 %", "h")),
        rows);
  }

  private static Entry.Table incidence(CumulativeIncidence c) {
    List<List<Cell>> rows = new ArrayList<>();
    int last = c.timesH().length - 1;
    for (int k = 0; k < c.modes().size() && last >= 0; k++) {
      rows.add(
          List.of(
              Cell.of(c.modes().get(k)),
              Cell.of(c.timesH()[last]),
              Cell.of(c.incidence()[k][last]),
              Cell.of(c.standardErrors()[k][last])));
    }
    return new Entry.Table(
        "incidence",
        "Share that each failure mode takes by the last failure, the others at work too",
        Entry.Use.READ,
        List.of(
            new Column("mode", "Mode", ""),
            new Column("by_h", "By", "h"),
            new Column("share", "Share", ""),
            new Column("standardError", "Standard error", "")),
        rows);
  }
}
