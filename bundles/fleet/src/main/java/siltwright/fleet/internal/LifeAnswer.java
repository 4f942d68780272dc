package siltwright.fleet.internal;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.Comparator;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.apache.commons.math3.special.Gamma;
import siltwright.analysis.Entry;
import siltwright.life.AftFit;
import siltwright.life.Covariate;
import siltwright.life.Estimated;
import siltwright.life.Interval;
import siltwright.life.LifeFamily;

/** The answer of a comparison of lives: what differs, how sure, in money a year. */
final class LifeAnswer {
  private static final int MOST_TOLD = 3;

  private final LifeStudy study;
  private final Settings settings;

  LifeAnswer(LifeStudy study) {
    this.study = study;
    this.settings = study.settings;
  }

  Answer answer() {
    List<LifeStudy.Comparison> told =
        study.comparisons.stream()
            .filter(c -> c.factor().isPresent())
            .sorted(Comparator.comparingDouble(c -> c.factorP()[0]))
            .toList();
    if (told.isEmpty()) {
      return new Answer(withoutLaw(), List.of());
    }
    int differ = (int) told.stream().filter(c -> c.factorP()[1] < Settings.LEVEL).count();
    LifeStudy.Comparison clearest = told.get(0);
    List<Entry.Value> details = new ArrayList<>();
    int shown = Math.min(MOST_TOLD, told.size());
    for (int k = 0; k < shown; k++) {
      LifeStudy.Comparison c = told.get(k);
      details.add(
          Answer.detail(
              "pair" + (k + 1),
              name(c.pair().first()) + ", " + name(c.pair().second()),
              c.factorP()[1] < Settings.LEVEL ? differs(c) : cannotTell(c)));
    }
    if (told.size() > shown) {
      details.add(
          Answer.detail(
              "others", "Others", "All " + told.size() + " pairs stand under differences."));
    }
    return new Answer(
        (differ > 0 ? difference(clearest) : noDifference(clearest, told.size()))
            + Answer.others(told.size(), differ),
        details);
  }

  private String withoutLaw() {
    return "There is no comparison of lives by a law: "
        + (study.refusals.isEmpty() ? "" : study.refusals.get(0))
        + study
            .logRank
            .map(
                l ->
                    " By the log-rank test the groups "
                        + (l.test().pValue() < Settings.LEVEL ? "differ" : "may be alike")
                        + " ("
                        + Words.p(l.test().pValue())
                        + ").")
            .orElse("");
  }

  /**
   * Which of two groups lasts longer.
   *
   * @param better the one that does
   * @param worse the other
   * @param times how many times as long
   * @param times95 its 95 % interval
   */
  private record Longer(int better, int worse, double times, Interval times95) {
    static Longer of(LifeStudy.Comparison c) {
      Estimated f = c.factor().get();
      return f.value() > 1
          ? new Longer(c.pair().first(), c.pair().second(), f.value(), f.wald())
          : new Longer(
              c.pair().second(),
              c.pair().first(),
              1 / f.value(),
              new Interval(1 / f.wald().upper(), 1 / f.wald().lower()));
    }
  }

  private String lasts(Longer l, String how) {
    return "Components of "
        + name(l.better())
        + " last "
        + Words.rough(l.times())
        + " times as long as those of "
        + name(l.worse())
        + " (95 %: "
        + Words.rough(l.times95())
        + "; "
        + how
        + ")";
  }

  private String difference(LifeStudy.Comparison c) {
    Longer l = Longer.of(c);
    return lasts(l, Words.p(c.factorP()[1]) + Answer.among(study.comparisons.size()))
        + money(l.worse(), l.better(), l.times95())
            .map(
                m ->
                    ", which costs "
                        + name(l.worse())
                        + " "
                        + Words.rough(m[0])
                        + " "
                        + settings.currency()
                        + " a year for each component (95 %: "
                        + Words.rough(new Interval(m[1], m[2]))
                        + ")")
            .orElse("")
        + ".";
  }

  private String noDifference(LifeStudy.Comparison c, int pairs) {
    Estimated f = c.factor().get();
    return "These data can't tell "
        + name(c.pair().first())
        + " from "
        + name(c.pair().second())
        + (pairs > 1 ? ", nor any other pair" : "")
        + ": "
        + Words.rough(f.wald())
        + " times the life is possible (95 %; "
        + Words.p(c.factorP()[1])
        + Answer.among(study.comparisons.size())
        + ")"
        + Answer.moreHours(
            Distances.timesTheHours(Distances.z(f)), watchedH(c), "hours of such components")
        + ".";
  }

  private double watchedH(LifeStudy.Comparison c) {
    return study.members.get(c.pair().first()).watchedH()
        + study.members.get(c.pair().second()).watchedH();
  }

  private String name(int group) {
    return study.groups.names().get(group);
  }

  private String how(LifeStudy.Comparison c) {
    List<String> allowed = new ArrayList<>(settings.adjust());
    settings.stratum().ifPresent(allowed::add);
    return Words.p(c.factorP()[1])
        + (study.comparisons.size() > 1 ? settings.corrected() : "")
        + (allowed.isEmpty() ? "" : ", " + Words.list(allowed) + " allowed for");
  }

  private String differs(LifeStudy.Comparison c) {
    Longer l = Longer.of(c);
    return lasts(l, how(c))
        + "."
        + money(l.worse(), l.better(), l.times95())
            .map(
                m ->
                    " At "
                        + Words.rough(settings.hoursAYear())
                        + " h a year and "
                        + Words.rough(settings.eventCost().get())
                        + " "
                        + settings.currency()
                        + " a failure that is "
                        + Words.rough(m[0])
                        + " "
                        + settings.currency()
                        + " a year for each component of "
                        + name(l.worse())
                        + " (95 %: "
                        + Words.rough(new Interval(m[1], m[2]))
                        + ").")
            .orElse(" --event-cost makes money of it.");
  }

  /**
   * Returns what a place with a component of the worse group costs more a year, renewed at failure,
   * and its interval from that of the factor: hours a year times cost times (1 - 1/factor) over the
   * mean life of the worse.
   */
  private Optional<double[]> money(int worse, int better, Interval factor) {
    if (settings.eventCost().isEmpty()) {
      return Optional.empty();
    }
    double yearly = settings.hoursAYear() * settings.eventCost().get() / meanLifeH(worse);
    double value = meanLifeH(better) / meanLifeH(worse);
    return Optional.of(
        new double[] {
          yearly * (1 - 1 / value),
          yearly * (1 - 1 / factor.lower()),
          yearly * (1 - 1 / factor.upper())
        });
  }

  /** Returns the mean life of a group, h, at typical values of what is allowed for. */
  private double meanLifeH(int group) {
    AftFit fit = study.regression.orElseThrow();
    Map<String, Object> at = new LinkedHashMap<>();
    for (String c : fit.covariates()) {
      if (c.equals(settings.by())) {
        at.put(c, name(group));
      } else if (study.data.covariates().get(c) instanceof Covariate.Categorical words) {
        at.put(c, words.levels().get(0));
      } else {
        double[] v = ((Covariate.Numeric) study.data.covariates().get(c)).values();
        at.put(c, Arrays.stream(v).average().orElseThrow());
      }
    }
    double s = fit.sigma();
    // exp(mu): the life that 1 - 1/e do not reach of a Weibull, the median of a lognormal.
    return fit.family() == LifeFamily.LOGNORMAL
        ? fit.bLife(at, 0.5, Settings.CONFIDENCE).value() * Math.exp(s * s / 2)
        : fit.bLife(at, 1 - Math.exp(-1), Settings.CONFIDENCE).value() * Gamma.gamma(1 + s);
  }

  private String cannotTell(LifeStudy.Comparison c) {
    Estimated f = c.factor().get();
    double watched = watchedH(c);
    double times = Distances.timesTheHours(Distances.z(f));
    boolean clearAlone = f.wald().lower() > 1 || f.wald().upper() < 1;
    String alone =
        clearAlone
            ? "By itself this pair would be clear; among so many comparisons it is not. "
            : "";
    String more =
        times > Distances.MOST
            ? "The difference they show is so small that no amount of hours worth waiting for would"
                + " make it sure."
            : times <= 1
                ? ""
                : "If the difference is what it looks like, "
                    + Words.rough((times - 1) * watched)
                    + " more hours of such components would show it in 8 of 10 such cases ("
                    + Words.rough(watched)
                    + " were watched).";
    return "These data can't tell "
        + name(c.pair().first())
        + " from "
        + name(c.pair().second())
        + ": components of the one may last "
        + Words.rough(f.wald())
        + " times as long as those of the other (95 %; "
        + how(c)
        + "). "
        + alone
        + more;
  }
}
