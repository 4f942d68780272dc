package siltwright.plan.internal;

import static siltwright.analysis.Finding.Severity.CAUTION;
import static siltwright.analysis.Finding.Severity.NOTE;
import static siltwright.analysis.Finding.Severity.WARNING;

import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import java.util.function.Predicate;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import siltwright.analysis.Numbers;
import siltwright.analysis.Result;
import siltwright.plan.FleetPlan;
import siltwright.plan.FleetPlan.AgeKnown;
import siltwright.plan.FleetPlan.Member;
import siltwright.plan.FleetPlan.Visit;
import siltwright.plan.MeterLog;
import siltwright.plan.Season;

/** What the user should know of a plan. */
final class PlanFindings {
  private static final int NAMED = 12;
  private static final int STALE_DAYS = 60;

  private final FleetPlan plan;

  PlanFindings(FleetPlan plan) {
    this.plan = plan;
  }

  void addTo(Result.Builder result) {
    List<String> late =
        ids(m -> m.ageKnown() != AgeKnown.UNKNOWN && m.task().ageH(0) > m.task().cost().highH());
    if (!late.isEmpty()) {
      result.finding(
          WARNING,
          "Already past the longest hours of the flat range or of a limit, by expectation: "
              + named(late)
              + ". They come first in the plan.",
          "due");
    }
    plan.unplanned()
        .forEach(
            (id, reason) ->
                result.finding(CAUTION, "Not planned, there is no best interval: " + reason, id));
    faults(result);
    List<String> unknown = ids(m -> m.log().isPresent() && m.ageKnown() == AgeKnown.UNKNOWN);
    if (!unknown.isEmpty()) {
      result.finding(
          CAUTION,
          "No change is on record, so the hours on the element may be anything up to the best"
              + " interval: "
              + named(unknown)
              + ". Read the indicator, or change early and record it.",
          "due");
    }
    List<String> unread = ids(m -> m.log().isEmpty());
    if (!unread.isEmpty()) {
      result.finding(
          CAUTION,
          "Without readings: "
              + named(unread)
              + ". Their use is that of their class, or as --use says, and the hours on the element"
              + " are not known.",
          "due");
    }
    long start = plan.days().start().toEpochDay();
    List<String> stale =
        ids(m -> m.log().isPresent() && start - m.log().get().lastDay() > STALE_DAYS);
    if (!stale.isEmpty()) {
      result.finding(
          CAUTION, "Not read for more than " + STALE_DAYS + " days: " + named(stale) + ".", "due");
    }
    List<String> few = ids(m -> m.log().isPresent() && m.task().usage().ownShare() < 0.5);
    if (!few.isEmpty()) {
      result.finding(
          NOTE,
          "Few readings, so their use leans on their class more than on themselves: "
              + named(few)
              + ".",
          "due");
    }
    if (!plan.strangers().isEmpty()) {
      result.finding(
          NOTE,
          "Readings of machines that the fleet does not have are passed over: "
              + named(List.copyOf(plan.strangers()))
              + ".",
          "meters");
    }
    if (!plan.farSites().isEmpty()) {
      result.finding(
          NOTE,
          "The table of sites does not name "
              + named(List.copyOf(plan.farSites()))
              + "; --travel holds there.",
          "sites");
    }
    seasons(result);
    overtime(result);
  }

  private void faults(Result.Builder result) {
    int told = 0;
    int more = 0;
    for (Member m : plan.members()) {
      for (MeterLog.Fault f : m.log().map(MeterLog::faults).orElse(List.of())) {
        if (told < NAMED) {
          told++;
          result.finding(
              CAUTION, "Reading in row " + f.line() + ": " + f.text() + ".", m.machine().id());
        } else {
          more++;
        }
      }
    }
    if (more > 0) {
      result.finding(CAUTION, more + " more readings are out of line.", "meters");
    }
  }

  private void seasons(Result.Builder result) {
    Map<String, Season> bySite = new TreeMap<>();
    plan.members().forEach(m -> bySite.put(m.machine().site(), m.task().usage().season()));
    List<String> swings =
        bySite.entrySet().stream()
            .filter(e -> e.getValue().amplitude() > 0)
            .map(
                e ->
                    e.getKey()
                        + " ±"
                        + Numbers.text(Math.round(100 * e.getValue().amplitude()))
                        + " %")
            .toList();
    result.finding(
        NOTE,
        swings.isEmpty()
            ? "The readings show no season of use."
            : "Use swings with the season: " + named(swings) + " round its mean.",
        "due");
  }

  private void overtime(Result.Builder result) {
    Map<String, Double> hours = new TreeMap<>();
    for (Visit v : plan.visits()) {
      hours.merge(v.date() + ", technician " + v.technician(), v.workH() + v.driveH(), Double::sum);
    }
    double dayH = plan.network().dayMin() / 60.0;
    List<String> over =
        hours.entrySet().stream()
            .filter(e -> e.getValue() > dayH + 1e-9)
            .map(e -> e.getKey() + " (" + Numbers.text(e.getValue() - dayH) + " h)")
            .toList();
    if (!over.isEmpty()) {
      result.finding(
          CAUTION,
          "Longer than the day: " + named(over) + ". More technicians, or a longer day, end that.",
          "visits");
    }
  }

  private List<String> ids(Predicate<Member> which) {
    return plan.members().stream().filter(which).map(m -> m.machine().id()).toList();
  }

  private static String named(List<String> ids) {
    return ids.size() <= NAMED
        ? String.join(", ", ids)
        : Stream.concat(
                ids.stream().limit(NAMED), Stream.of("and " + (ids.size() - NAMED) + " more"))
            .collect(Collectors.joining(", "));
  }
}
