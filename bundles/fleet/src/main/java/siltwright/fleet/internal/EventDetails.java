package siltwright.fleet.internal;

import java.util.Arrays;
import java.util.Comparator;
import java.util.Optional;
import siltwright.fleet.MachineRatio;
import siltwright.life.Estimated;
import siltwright.life.Interval;

/** What there is to say of each pair of groups whose events are compared. */
final class EventDetails {
  /** A ratio beyond this is none that a fleet has. */
  private static final double MOST_RATIO = 100;

  private final EventStudy study;
  private final Settings settings;

  EventDetails(EventStudy study) {
    this.study = study;
    this.settings = study.settings;
  }

  /** Returns the mean cost of an event, 0 if it is not known. */
  double eventCost() {
    double[] marks = study.records.data().markByMachine();
    return study.records.data().hasMarks()
        ? Arrays.stream(marks).sum() / Math.max(1, study.records.data().events())
        : settings.eventCost().orElse(0.0);
  }

  /** Returns the answer where machines can't be what varies: groups of one, or without events. */
  String byChance() {
    EventStudy.Comparison clearest =
        study.comparisons.stream()
            .min(Comparator.comparingDouble(c -> c.exact().pValue()))
            .orElseThrow();
    boolean more = clearest.exact().ratio() > 1;
    Groups.Pair pair = clearest.pair();
    String worse = name(more ? pair.first() : pair.second());
    String better = name(more ? pair.second() : pair.first());
    String head =
        study.data().events() == 0
            ? "There are no events, so there is nothing to compare but upper bounds of the rates."
            : clearest.exactP() < Settings.LEVEL
                ? "If events come by chance alone, "
                    + worse
                    + " has more of them an hour than "
                    + better
                    + " ("
                    + Words.p(clearest.exactP())
                    + corrected()
                    + ")."
                : "These data can't tell the groups apart, even if events come by chance alone: the"
                    + " clearest pair is "
                    + worse
                    + " and "
                    + better
                    + " ("
                    + Words.p(clearest.exactP())
                    + corrected()
                    + ").";
    return head
        + (study.groups.stream().anyMatch(g -> g.machines() < 2)
            ? " Groups of one machine do not show how machines differ."
            : "");
  }

  /** Whether an interval of a ratio says no more than that nothing is known. */
  static boolean anything(Interval ratio) {
    return ratio.lower() < 1 / MOST_RATIO && ratio.upper() > MOST_RATIO;
  }

  private String name(int group) {
    return study.groups.get(group).name();
  }

  private String allowed() {
    return study.adjusted.isPresent() ? ", " + Words.list(settings.adjust()) + " allowed for" : "";
  }

  /** Returns the sentences on a pair that differs. */
  String differs(EventStudy.Comparison c) {
    boolean more = c.ratio().get().value() > 1;
    int worse = more ? c.pair().first() : c.pair().second();
    int better = more ? c.pair().second() : c.pair().first();
    Estimated r = c.ratio().get();
    Interval i = r.wald();
    double value = more ? r.value() : 1 / r.value();
    Interval interval = more ? i : new Interval(1 / i.upper(), 1 / i.lower());
    return name(worse)
        + " has "
        + Words.rough(value)
        + " times the events an hour of "
        + name(better)
        + " (95 %: "
        + Words.rough(interval)
        + "; "
        + Words.p(c.ratioP()[1])
        + corrected()
        + allowed()
        + ")."
        + worth(c, worse, better);
  }

  private String corrected() {
    return study.comparisons.size() > 1 ? settings.corrected() : "";
  }

  private String worth(EventStudy.Comparison c, int worse, int better) {
    double hours = settings.hoursAYear();
    int machines = study.groups.get(worse).machines();
    String head = " At " + Words.rough(hours) + " h a year that is, for each of its machines, ";
    double events =
        hours * (study.groups.get(worse).ratePerH() - study.groups.get(better).ratePerH());
    Optional<double[]> money = money(c, worse);
    String eventsText =
        events > 0 ? Words.rough(events) + " events more" : "by the plain count no more events";
    if (money.isEmpty()) {
      return head + eventsText + "; a column cost or --event-cost makes money of it.";
    }
    double[] m = money.get();
    String range = Double.isNaN(m[1]) ? "" : " (95 %: " + range(m[1], m[2]) + ")";
    return head
        + eventsText
        + " and "
        + Words.rough(m[0])
        + " "
        + settings.currency()
        + range
        + "; for all "
        + machines
        + " together "
        + Words.rough(machines * m[0])
        + " "
        + settings.currency()
        + " a year.";
  }

  private static String range(double low, double high) {
    return Words.rough(low) + " to " + Words.rough(high);
  }

  /**
   * Returns what a machine of a group costs more a year than one of the other of the pair, with the
   * ends of its interval, not numbers where there are none; nothing without costs.
   */
  Optional<double[]> money(EventStudy.Comparison c, int dearer) {
    double hours = settings.hoursAYear();
    double sign = dearer == c.pair().first() ? 1 : -1;
    if (c.cost().isPresent()) {
      MachineRatio.Drawn d = c.cost().get();
      double a = sign * hours * d.interval().lower();
      double b = sign * hours * d.interval().upper();
      return Optional.of(new double[] {sign * hours * d.value(), Math.min(a, b), Math.max(a, b)});
    }
    if (settings.eventCost().isEmpty() || c.ratio().isEmpty()) {
      return Optional.empty();
    }
    // The interval of the ratio, at the rate of the group it stands over.
    double base =
        hours * settings.eventCost().get() * study.groups.get(c.pair().second()).ratePerH();
    Estimated r = c.ratio().get();
    double a = sign * base * (r.wald().lower() - 1);
    double b = sign * base * (r.wald().upper() - 1);
    return Optional.of(
        new double[] {sign * base * (r.value() - 1), Math.min(a, b), Math.max(a, b)});
  }

  /** Returns the sentences on a pair that these data can't tell apart. */
  String cannotTell(EventStudy.Comparison c) {
    Estimated r = c.ratio().get();
    EventStudy.Group a = study.groups.get(c.pair().first());
    EventStudy.Group b = study.groups.get(c.pair().second());
    double watched = a.data().hoursH() + b.data().hoursH();
    double times = Distances.timesTheHours(Distances.z(r));
    boolean clearAlone = r.wald().lower() > 1 || r.wald().upper() < 1;
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
                    + " more machine-hours would show it in 8 of 10 such cases ("
                    + Words.rough(watched)
                    + " were watched).";
    String money =
        money(c, c.pair().first())
            .filter(m -> !Double.isNaN(m[1]))
            .map(
                m ->
                    " In money anything from "
                        + range(m[1], m[2])
                        + " "
                        + settings.currency()
                        + " a year is possible for a machine of "
                        + a.name()
                        + " over one of "
                        + b.name()
                        + ".")
            .orElse("");
    return "These data can't tell "
        + a.name()
        + " from "
        + b.name()
        + (anything(r.wald())
            ? ": as the few machines differ among themselves, the one may have many times the events"
                + " an hour of the other, or hardly any (95 %; "
            : ": the one may have "
                + Words.rough(r.wald())
                + " times the events an hour of the other (95 %; ")
        + Words.p(c.ratioP()[1])
        + corrected()
        + allowed()
        + "). "
        + alone
        + more
        + money;
  }
}
