package siltwright.life.internal;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import siltwright.analysis.Cell;
import siltwright.analysis.Entry;
import siltwright.analysis.Entry.Column;
import siltwright.analysis.Result;
import siltwright.life.AftFit;
import siltwright.life.Bootstrap;
import siltwright.life.CumulativeIncidence;
import siltwright.life.Estimate;
import siltwright.life.Estimated;
import siltwright.life.Interval;
import siltwright.life.KaplanMeier;
import siltwright.life.LifeFamily;
import siltwright.life.LifeFit;
import siltwright.life.LowerBound;
import siltwright.life.Quantity;
import siltwright.life.ThreeParameterWeibull;

/** The answer of a study as values and tables. */
final class LifeTables {
  private static final double[] SHAPES = {1, 1.5, 2, 3};

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
      new RegressionTables(study).addTo(result);
    }
    withoutLaw().ifPresent(result::add);
    checks().ifPresent(result::add);
    study.failureFree.filter(Estimate::exists).ifPresent(e -> result.add(failureFree(e.get())));
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
      RegressionTables regressions = new RegressionTables(study);
      study.regressions.forEach(f -> rows.add(regressions.row(f)));
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

  /** Returns a positive number with the error of its logarithm. */
  static Estimated log(double value, double logError) {
    double half = 1.959963984540054 * logError;
    return new Estimated(
        value,
        value * logError,
        logError,
        new Interval(value * Math.exp(-half), value * Math.exp(half)));
  }

  static Cell range(Interval i) {
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

  private static Entry.Group failureFree(ThreeParameterWeibull w) {
    Interval location = w.locationInterval(Laws.CONFIDENCE);
    Estimated scale = log(w.scaleH(), w.standardErrors()[1]);
    Estimated shape = log(w.shape(), w.standardErrors()[2]);
    return new Entry.Group(
        "failureFree",
        "Weibull with a failure-free time, with Wald intervals",
        List.of(
            new Entry.Value("location_h", "Failure-free time", "h", Cell.of(w.locationH())),
            new Entry.Value("locationInterval", "95 % interval", "h", range(location)),
            new Entry.Value("shape", "Shape", "1", Cell.of(w.shape())),
            new Entry.Value("shapeInterval", "95 % interval", "1", range(shape.wald())),
            new Entry.Value("scale_h", "Scale beyond it", "h", Cell.of(w.scaleH())),
            new Entry.Value("scaleInterval", "95 % interval", "h", range(scale.wald())),
            new Entry.Value("b10_h", "B10 life", "h", Cell.of(w.bLifeH(0.1))),
            new Entry.Value("logLikelihood", "Log likelihood", "1", Cell.of(w.logLikelihood())),
            new Entry.Value("aic", "AIC", "1", Cell.of(w.aic()))));
  }

  private Entry.Group bootstrap(Bootstrap b) {
    List<Entry.Value> values = new ArrayList<>();
    for (Laws.Named q : quantities(b.fit())) {
      values.add(
          new Entry.Value(
              q.name() + "Percentile",
              q.label() + ", percentile",
              q.unit(),
              range(b.percentileInterval(q.quantity(), Laws.CONFIDENCE))));
      values.add(
          new Entry.Value(
              q.name() + "BiasCorrected",
              q.label() + ", bias-corrected",
              q.unit(),
              range(b.bcaInterval(q.quantity(), Laws.CONFIDENCE))));
    }
    return new Entry.Group(
        "bootstrap",
        "95 % intervals by a bootstrap of "
            + study.settings.draws()
            + " draws, "
            + Laws.word(b.fit().family())
            + " law"
            + (study.regressions.isEmpty() ? "" : " without covariates"),
        values);
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
