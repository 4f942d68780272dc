package siltwright.fleet.internal;

import static siltwright.analysis.Finding.Severity.CAUTION;
import static siltwright.analysis.Finding.Severity.NOTE;
import static siltwright.analysis.Finding.Severity.WARNING;

import java.util.ArrayList;
import java.util.List;
import siltwright.analysis.Result;
import siltwright.fleet.PoissonRates;
import siltwright.fleet.PowerLaw;
import siltwright.life.Interval;
import siltwright.life.Refusal;

/** What a comparison of events says in plain words beside its answer. */
final class EventFindings {
  /** Machines below which an interval by machines is to be read with care (common practice). */
  private static final int FEW_MACHINES = 10;

  /** Spread over chance from which intervals by chance mislead (common practice, no source). */
  private static final double MUCH_SPREAD = 1.2;

  private final EventStudy study;

  EventFindings(EventStudy study) {
    this.study = study;
  }

  void addTo(Result.Builder result) {
    for (Refusal r : study.refusals) {
      result.finding(WARNING, r.why() + " " + r.instead(), "rateRatios");
    }
    OverlapTable.warn(result, study.overlaps, study.records.groups().names());
    study.intervention.ifPresent(i -> i.addFindings(result));
    records(result);
    groups(result);
    trends(result);
    if (study.settings.adjust().isEmpty() && study.settings.stratum().isEmpty()) {
      result.finding(
          NOTE,
          "Nothing but age is allowed for: machines of the groups may differ in class, duty or"
              + " climate too. --adjust and --stratum name columns for that.",
          "rateRatios");
    } else if (study.plain.isPresent() && study.adjusted.isPresent()) {
      result.finding(
          NOTE,
          "Ratios allow for "
              + Words.list(study.settings.adjust())
              + "; means, costs and plain rates do not.",
          "rateRatios");
    }
  }

  private void records(Result.Builder result) {
    if (study.records.withoutEnd() > 0) {
      result.finding(
          CAUTION,
          Words.count(study.records.withoutEnd(), "machine has", "machines have")
              + " no row with event 0, so watching counts as ended at the last event. If it went on,"
              + " rates come out too high: add the row.",
          "groups");
    }
    if (study.records.withoutCost() > 0) {
      result.finding(
          CAUTION,
          Words.count(study.records.withoutCost(), "event has", "events have")
              + " no cost and counts as costing nothing: costs are too low.",
          "costs");
    }
    if (study.records.data().machines().size() > EventStudy.MOST_MACHINES) {
      result.finding(
          NOTE,
          "With more than " + EventStudy.MOST_MACHINES + " machines they are not told one by one.",
          "groups");
    }
  }

  private void groups(Result.Builder result) {
    List<String> few = new ArrayList<>();
    List<String> uneven = new ArrayList<>();
    for (EventStudy.Group g : study.groups) {
      if (g.machines() < FEW_MACHINES && g.machines() > 1) {
        few.add(g.name());
      }
      if (g.alike().filter(EventFindings::differ).isPresent()) {
        uneven.add(g.name());
      }
      fit(result, g);
    }
    if (!few.isEmpty()) {
      result.finding(
          CAUTION,
          "Fewer than "
              + FEW_MACHINES
              + " machines in "
              + Words.list(few)
              + ": intervals by machines are rough and rather too narrow.",
          "groups");
    }
    if (!uneven.isEmpty()) {
      result.finding(
          CAUTION,
          "Machines of "
              + Words.list(uneven)
              + " differ more than chance lets them: use the intervals by machines, not those that"
              + " take events as chance.",
          "groups");
    }
  }

  private static boolean differ(PoissonRates.Alike machines) {
    return machines.pearson().pValue() < Settings.LEVEL && machines.dispersion() > MUCH_SPREAD;
  }

  /**
   * Tells of a trend where a test that allows for renewal at events shows one, among all groups;
   * laws of age alone take clusters for a trend.
   */
  private void trends(Result.Builder result) {
    double[] p = new double[study.groups.size()];
    for (int k = 0; k < p.length; k++) {
      double[] test = renewal(study.groups.get(k));
      p[k] = test == null ? Double.NaN : test[2];
    }
    double[] all = study.settings.correction().adjusted(p);
    for (int k = 0; k < p.length; k++) {
      if (all[k] < Settings.LEVEL) {
        EventStudy.Group g = study.groups.get(k);
        result.finding(
            NOTE,
            "Events of "
                + g.name()
                + " get "
                + (renewal(g)[0] > 0 ? "more" : "less")
                + " frequent with age ("
                + Words.p(all[k])
                + (p.length > 1 ? study.settings.corrected() : "")
                + shape(g)
                + ").",
            "trendTests");
      }
    }
  }

  private static double[] renewal(EventStudy.Group g) {
    return g.trendTests().getOrDefault("gap-order", g.trendTests().get("lewis-robinson"));
  }

  private static String shape(EventStudy.Group g) {
    if (!g.law().exists()) {
      return "";
    }
    PowerLaw law = g.law().get();
    Interval i =
        g.machines() > 1
            ? law.robustShapeInterval(Settings.CONFIDENCE)
            : law.shapeInterval(Settings.CONFIDENCE);
    return "; power-law shape " + Words.rough(law.shape()) + ", 95 %: " + Words.rough(i);
  }

  private static void fit(Result.Builder result, EventStudy.Group g) {
    if (g.fit().filter(f -> f.pValue() < Settings.LEVEL).isPresent()) {
      result.finding(
          CAUTION,
          "Events of "
              + g.name()
              + " contradict a power law ("
              + Words.p(g.fit().get().pValue())
              + "): read the curve, not the shape.",
          "trends");
    }
  }
}
