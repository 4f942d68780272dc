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
import siltwright.life.Covariate;
import siltwright.life.Estimated;
import siltwright.life.Interval;
import siltwright.life.LogRank;
import siltwright.life.SignificanceTest;

/** Regressions as values and tables. */
final class RegressionTables {
  private static final String INTERCEPT = "(Intercept)";

  private final Study study;

  RegressionTables(Study study) {
    this.study = study;
  }

  void addTo(Result.Builder result) {
    result.add(coefficients());
    result.add(effects());
    cleanliness().ifPresent(result::add);
  }

  /** Returns a regression whole, for programs, as a row of the fits. */
  List<Cell> row(AftFit fit) {
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
            LifeTables.log(fit.shape(), log),
            () -> new Interval(1 / sigmaProfile.get().upper(), 1 / sigmaProfile.get().lower()),
            parameters);
        told.put("scale", scale, scaleProfile, parameters);
      }
      case LOGNORMAL -> {
        told.put("mu", mu, muProfile, parameters);
        told.put("sigma", LifeTables.log(fit.sigma(), log), sigmaProfile, parameters);
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

  /** Where the numbers of a regression are told, each with its error and intervals. */
  private record Told(Map<String, Cell> errors, Map<String, Cell> intervals, boolean profiled) {
    void put(String name, Estimated e, Supplier<Interval> profile, Map<String, Cell> values) {
      values.put(name, Cell.of(e.value()));
      errors.put(name, Cell.of(e.standardError()));
      Map<String, Cell> both = new LinkedHashMap<>();
      both.put("wald", LifeTables.range(e.wald()));
      both.put("profile", profiled ? LifeTables.range(profile.get()) : new Cell.None());
      intervals.put(name, new Cell.Parts(both));
    }
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
                LifeTables.range(factor.wald()),
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
                          "lifePerCodeInterval",
                          "95 % interval",
                          "",
                          LifeTables.range(factor.wald())),
                      new Entry.Value(
                          "exponent", "Exponent m of wear against counts", "", Cell.of(m.value())),
                      new Entry.Value(
                          "exponentInterval", "95 % interval", "", LifeTables.range(m.wald())),
                      new Entry.Value(
                          "handbookExponent",
                          "Exponent that handbook tables imply (from memory)",
                          "",
                          new Cell.Range(Handbook.LOWEST_EXPONENT, Handbook.HIGHEST_EXPONENT))));
            });
  }
}
