package siltwright.life.internal;

import static siltwright.analysis.Finding.Severity.CAUTION;
import static siltwright.analysis.Finding.Severity.NOTE;
import static siltwright.analysis.Finding.Severity.WARNING;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import siltwright.analysis.Result;
import siltwright.life.AftFit;
import siltwright.life.Covariate;
import siltwright.life.Estimated;
import siltwright.life.Interval;
import siltwright.life.LifeFamily;
import siltwright.life.LifeFit;
import siltwright.life.LowerBound;
import siltwright.life.Quantity;
import siltwright.life.Reason;
import siltwright.life.Refusal;

/** What a study says in plain words. */
final class LifeFindings {
  /** Failures below which an interval is to be read with care (common practice, no source). */
  private static final double FEW_FAILURES = 10;

  private static final double LEVEL = 0.05;

  private final Study study;

  LifeFindings(Study study) {
    this.study = study;
  }

  void addTo(Result.Builder result) {
    refusals(result);
    double failures = study.data.failures();
    if (!study.fits.isEmpty()) {
      if (failures < FEW_FAILURES) {
        result.finding(
            CAUTION,
            "Only "
                + Say.number(failures)
                + (failures == 1 ? " failure" : " failures")
                + ": read the intervals, not the estimates, and the profile intervals"
                + " rather than the Wald ones.",
            "");
      }
      if (study.regressions.isEmpty()) {
        law(result);
      } else {
        covariates(result);
      }
      study.goodness.ifPresent(
          g -> {
            if (g.pValue() < LEVEL) {
              result.finding(
                  CAUTION,
                  "The records contradict the "
                      + Laws.word(study.best().family())
                      + " law (p "
                      + Say.number(g.pValue())
                      + "): look at the probability plot for a mixture of modes, machines or"
                      + " procedures.",
                  "checks");
            }
          });
    }
    modes(result);
    left(result);
  }

  static void onExposure(Histories histories, Result.Builder result) {
    result.finding(
        NOTE,
        "All hours are on the exposure clock: each counts as many times as it wore relative to the"
            + " reference cleanliness, by the histories of "
            + histories.clocks().size()
            + " components. Lives are hours at the reference.",
        "");
    if (histories.references().size() > 1) {
      result.finding(
          CAUTION,
          "The components' reference codes differ ("
              + Say.list(List.copyOf(histories.references()))
              + "): an hour at the one is here as long as an hour at the other. Fit them apart.",
          "");
    }
  }

  private void refusals(Result.Builder result) {
    for (Refusal r : study.refusals) {
      boolean some = !study.fits.isEmpty();
      String rest =
          study.settings.covariates().isEmpty() || !study.regressions.isEmpty() || !some
              ? ""
              : " The fits shown are without covariates.";
      result.finding(WARNING, r.why() + " " + r.instead() + rest, "");
    }
    boolean bounded = study.isBounded() && !study.data.hasIntervals() && study.watchedH() > 0;
    if (bounded) {
      double shape = study.settings.shape().orElse(1.0);
      LowerBound bound = LowerBound.of(study.data, shape);
      result.finding(
          NOTE,
          "If the Weibull shape is "
              + Say.number(shape)
              + ", which these records cannot tell, the scale is at least "
              + Say.number(bound.scaleLowerH(study.settings.confidence()))
              + " h and 90 % of components reach at least "
              + Say.number(bound.bLifeLowerH(0.1, study.settings.confidence()))
              + " h, at "
              + Say.number(100 * study.settings.confidence())
              + " % confidence. More hours without failure raise the bound; a point"
              + " estimate needs failures.",
          "lowerBounds");
    }
  }

  private void law(Result.Builder result) {
    LifeFit best = study.best();
    Estimated b10 = best.estimate(Laws.B10, Laws.CONFIDENCE);
    Interval interval = study.profile(best, Laws.B10).orElse(b10.wald());
    result.finding(
        NOTE,
        "One in ten fails before "
            + Say.number(b10.value())
            + " h (95 %: "
            + Say.range(interval)
            + " h), by the "
            + Laws.word(best.family())
            + " law.",
        "fits");
    if (study.fits.size() > 1) {
      List<String> close = new ArrayList<>();
      for (LifeFit f : study.fits.subList(1, study.fits.size())) {
        if (f.aic() - best.aic() < 2) {
          close.add(Laws.word(f.family()));
        }
      }
      if (!close.isEmpty()) {
        result.finding(
            NOTE,
            "The records do not tell the "
                + Say.list(close)
                + " law"
                + (close.size() > 1 ? "s" : "")
                + " from the best one (AIC within 2); they differ most where nothing was seen.",
            "fits");
      }
    }
    Optional<LifeFit> weibull =
        study.fit(LifeFamily.WEIBULL).filter(f -> study.settings.shape().isEmpty());
    weibull.ifPresent(w -> shape(result, w));
  }

  private void shape(Result.Builder result, LifeFit weibull) {
    Interval i =
        study
            .profile(weibull, Quantity.SHAPE)
            .orElseGet(() -> weibull.estimate(Quantity.SHAPE, Laws.CONFIDENCE).wald());
    String meaning =
        i.lower() > 1
            ? "components wear: renewing them by age can pay"
            : i.upper() < 1
                ? "components fail early: look at fitting and running-in; renewing by age does harm"
                : "wear and chance are both possible";
    result.finding(
        NOTE,
        "The Weibull shape is "
            + Say.number(weibull.shape())
            + " (95 %: "
            + Say.range(i)
            + "): "
            + meaning
            + ".",
        "fits");
  }

  private void covariates(Result.Builder result) {
    AftFit fit = study.regressions.get(0);
    for (String name : fit.names().subList(1, fit.names().size())) {
      if (study.settings.clean().filter(name::equals).isPresent()) {
        cleanliness(result, fit, name);
        continue;
      }
      Estimated f = fit.lifeFactor(name, Laws.CONFIDENCE);
      boolean clear = f.wald().lower() > 1 || f.wald().upper() < 1;
      String what = "One more of " + name + " multiplies life by ";
      for (String covariate : fit.covariates()) {
        if (study.data.covariates().get(covariate) instanceof Covariate.Categorical words
            && name.startsWith(covariate + "=")) {
          what =
              "Where "
                  + name.replace("=", " is ")
                  + ", life is that of "
                  + words.levels().get(0)
                  + " times ";
        }
      }
      result.finding(
          NOTE,
          what
              + Say.number(f.value())
              + " (95 %: "
              + Say.range(f.wald())
              + ")"
              + (clear ? "." : ": no effect is possible too."),
          "coefficients");
    }
  }

  private void cleanliness(Result.Builder result, AftFit fit, String name) {
    Estimated f = fit.lifeFactor(name, Laws.CONFIDENCE);
    Estimated m = fit.countExponent(name, Laws.CONFIDENCE);
    result.finding(
        NOTE,
        "One code number dirtier multiplies life by "
            + Say.number(f.value())
            + " (95 %: "
            + Say.range(f.wald())
            + "), an exponent of "
            + Say.number(m.value())
            + " ("
            + Say.range(m.wald())
            + ").",
        "cleanliness");
    boolean apart =
        m.wald().lower() > Handbook.HIGHEST_EXPONENT || m.wald().upper() < Handbook.LOWEST_EXPONENT;
    String handbook =
        "life-extension tables for hydraulic components (from memory) imply an exponent of "
            + Handbook.LOWEST_EXPONENT
            + " to "
            + Say.number(Handbook.HIGHEST_EXPONENT);
    result.finding(
        apart ? CAUTION : NOTE,
        apart
            ? "The records disagree with the handbook: "
                + handbook
                + ", outside their interval. Nothing is averaged; trust your records where their"
                + " cleanliness was measured well, since errors in it weaken the effect."
            : "The records agree with the handbook: " + handbook + ", within their interval.",
        "cleanliness");
  }

  private void modes(Result.Builder result) {
    List<String> modes = study.records.modeNames();
    if (study.settings.mode().isEmpty() && modes.size() > 1) {
      result.finding(
          NOTE,
          "All failure modes together. --mode studies one of "
              + Say.list(modes)
              + ", the others taken as removals.",
          "");
    } else if (study.settings.mode().isPresent()) {
      result.finding(
          NOTE,
          "The law is that of mode "
              + study.settings.mode().get()
              + " if it alone were at work, and modes independent, which records cannot tell. The"
              + " share it takes while others are at work too is under incidence.",
          "incidence");
    }
  }

  /** Says what was asked for or expected and is not there. */
  private void left(Result.Builder result) {
    if (study.withoutProfiles()) {
      result.finding(
          NOTE,
          "Profile intervals are left out: with so many rows they are the Wald intervals.",
          "fits");
    }
    if (!study.regressions.isEmpty() && !study.withoutProfiles()) {
      result.finding(
          NOTE,
          "Intervals in the tables of a regression are Wald intervals; profile ones stand beside"
              + " them in the fits (--json, --csv).",
          "fits");
    }
    if (!study.curve.known()) {
      result.finding(
          NOTE,
          "Failures within intervals have no survival without a law here, since "
              + (study.data.hasLateEntry()
                  ? "components came under watch late"
                  : "there are very many")
              + ": the plots show the laws alone.",
          "");
    }
    study
        .failureFree
        .filter(e -> !e.exists())
        .ifPresent(
            e ->
                result.finding(
                    CAUTION,
                    "There is no Weibull with a failure-free time here. " + e.refusal().why(),
                    ""));
    if (study.settings.draws() > 0 && study.bootstrap.isEmpty()) {
      result.finding(
          CAUTION, "There is no fit of all parameters, so there is no bootstrap either.", "");
    }
    study.bootstrap.ifPresent(
        b -> {
          if (b.withoutMaximum() > 0) {
            result.finding(
                CAUTION,
                b.withoutMaximum()
                    + " of "
                    + study.settings.draws()
                    + " draws carried no fit and are left out: the records are few for a bootstrap.",
                "bootstrap");
          }
        });
    boolean unbounded = study.refusals.stream().anyMatch(r -> r.reason() == Reason.NO_FAILURES);
    if (study.settings.mode().isPresent() && study.incidence.isEmpty() && !unbounded) {
      result.finding(
          NOTE, "Failures known within intervals have no cumulative incidence here.", "");
    }
  }
}
