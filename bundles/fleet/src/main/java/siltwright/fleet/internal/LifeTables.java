package siltwright.fleet.internal;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import siltwright.analysis.Cell;
import siltwright.analysis.Entry;
import siltwright.analysis.Entry.Column;
import siltwright.analysis.Result;
import siltwright.life.AftFit;
import siltwright.life.Estimated;
import siltwright.life.Interval;
import siltwright.life.KaplanMeier;
import siltwright.life.LogRank;
import siltwright.life.SignificanceTest;

/** The answer of a comparison of lives as values and tables. */
final class LifeTables {
  private final LifeStudy study;

  LifeTables(LifeStudy study) {
    this.study = study;
  }

  void addTo(Result.Builder result) {
    new LifeAnswer(study).answer().addTo(result);
    result.add(groups());
    study.logRank.ifPresent(l -> result.add(logRank(l)));
    result.add(pairs());
    study.regression.ifPresent(r -> result.add(factors(r)));
    if (study.members.stream().allMatch(m -> m.survival().isPresent())) {
      result.add(survival());
    }
    if (!study.overlaps.isEmpty()) {
      result.add(overlaps());
    }
  }

  private Entry.Table groups() {
    List<List<Cell>> rows = new ArrayList<>();
    for (int k = 0; k < study.members.size(); k++) {
      LifeStudy.Group g = study.members.get(k);
      Cell median = new Cell.None();
      Cell interval = new Cell.None();
      if (g.survival().isPresent() && g.data().failures() > 0) {
        KaplanMeier km = g.survival().get();
        median = Cell.of(km.quantileH(0.5));
        Interval i = km.quantileInterval(0.5, KaplanMeier.Band.LOG_LOG, Settings.CONFIDENCE);
        interval =
            Double.isNaN(i.lower()) || Double.isInfinite(i.lower())
                ? new Cell.None()
                : new Cell.Range(i.lower(), i.upper());
      }
      Cell expected = new Cell.None();
      if (study.logRank.isPresent()) {
        expected = Cell.of(study.logRank.get().expected()[k]);
      }
      rows.add(
          List.of(
              Cell.of(g.name()),
              Cell.of(g.data().components()),
              Cell.of(g.data().failures()),
              Cell.of(g.watchedH()),
              expected,
              median,
              interval));
    }
    return new Entry.Table(
        "groups",
        "Groups",
        Entry.Use.READ,
        List.of(
            new Column("group", "Group", ""),
            new Column("components", "Components", "1"),
            new Column("failures", "Failures", "1"),
            new Column("watched_h", "Watched", "h"),
            new Column("expected", "Failures if all were alike", "1"),
            new Column("medianLife_h", "Median life", "h"),
            new Column("medianInterval_h", "95 %", "h")),
        rows);
  }

  private static Entry.Value value(String name, String label, double v) {
    return new Entry.Value(name, label, "1", Cell.of(v));
  }

  private Entry.Group logRank(LogRank l) {
    List<Entry.Value> values = new ArrayList<>();
    values.add(value("chiSquare", "Chi-square", l.test().chiSquare()));
    values.add(value("degreesOfFreedom", "Degrees of freedom", l.test().degreesOfFreedom()));
    values.add(value("p", "p", l.test().pValue()));
    values.add(value("weight", "Power of survival that weighs", study.settings.weight()));
    study
        .settings
        .stratum()
        .ifPresent(s -> values.add(new Entry.Value("stratum", "Within", "", Cell.of(s))));
    return new Entry.Group("logRank", "All groups alike (log-rank)", values);
  }

  private Entry.Table pairs() {
    List<List<Cell>> rows = new ArrayList<>();
    for (LifeStudy.Comparison c : study.comparisons) {
      rows.add(
          List.of(
              Cell.of(study.groups.names().get(c.pair().first())),
              Cell.of(study.groups.names().get(c.pair().second())),
              c.factor().<Cell>map(f -> Cell.of(f.value())).orElseGet(Cell.None::new),
              c.factor()
                  .<Cell>map(f -> new Cell.Range(f.wald().lower(), f.wald().upper()))
                  .orElseGet(Cell.None::new),
              Cell.of(c.factorP()[0]),
              Cell.of(c.factorP()[1]),
              c.logRank().<Cell>map(t -> Cell.of(t.chiSquare())).orElseGet(Cell.None::new),
              Cell.of(c.logRank().map(SignificanceTest::pValue).orElse(Double.NaN)),
              Cell.of(c.logRankP())));
    }
    String adjusted = "p" + study.settings.corrected();
    return new Entry.Table(
        "differences",
        "Lives of one group over those of another",
        Entry.Use.READ,
        List.of(
            new Column("first", "Group", ""),
            new Column("second", "Over", ""),
            new Column("lifeFactor", "Life", "1"),
            new Column("interval", "95 %", "1"),
            new Column("p", "p", "1"),
            new Column("pAdjusted", adjusted, "1"),
            new Column("logRankChiSquare", "Log-rank", "1"),
            new Column("logRankP", "p of log-rank", "1"),
            new Column("logRankPAdjusted", "Log-rank " + adjusted, "1")),
        rows);
  }

  private Entry.Table factors(AftFit fit) {
    List<List<Cell>> rows = new ArrayList<>();
    for (String name : fit.names().subList(1, fit.names().size())) {
      Estimated f = fit.lifeFactor(name, Settings.CONFIDENCE);
      rows.add(
          List.of(
              Cell.of(name),
              Cell.of(fit.family().name().toLowerCase(Locale.ROOT)),
              Cell.of(f.value()),
              new Cell.Range(f.wald().lower(), f.wald().upper()),
              Cell.of(fit.pValue(name))));
    }
    return new Entry.Table(
        "lifeFactors",
        "Factors on life in the regression",
        Entry.Use.READ,
        List.of(
            new Column("factor", "Of", ""),
            new Column("distribution", "Law", ""),
            new Column("lifeFactor", "Life", "1"),
            new Column("interval", "95 %", "1"),
            new Column("p", "p", "1")),
        rows);
  }

  private Entry.Group survival() {
    List<Entry.Value> values = new ArrayList<>();
    for (LifeStudy.Group g : study.members) {
      KaplanMeier km = g.survival().orElseThrow();
      double[][] band = km.band(KaplanMeier.Band.LOG_LOG, Settings.CONFIDENCE);
      Map<String, Cell> parts = new LinkedHashMap<>();
      parts.put("hours", new Cell.Numbers(km.timesH()));
      parts.put("atRisk", new Cell.Numbers(km.atRisk()));
      parts.put("failed", new Cell.Numbers(km.failed()));
      parts.put("survival", new Cell.Numbers(km.survival()));
      parts.put("low", new Cell.Numbers(band[0]));
      parts.put("high", new Cell.Numbers(band[1]));
      values.add(new Entry.Value(g.name(), g.name(), "1", new Cell.Parts(parts)));
    }
    return new Entry.Group("survival", "Survival", Entry.Use.DATA, values);
  }

  private Entry.Table overlaps() {
    return OverlapTable.of(study.overlaps, study.groups.names(), "Components");
  }
}
