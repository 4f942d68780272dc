package siltwright.fleet.internal;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;
import siltwright.analysis.Entry;
import siltwright.life.Estimated;
import siltwright.life.Interval;

/** The answer of a comparison of events: what differs, how sure, in money a year. */
final class EventAnswer {
  /** Pairs told in detail; the others stand in the tables. */
  private static final int MOST_TOLD = 3;

  private final EventStudy study;
  private final EventDetails words;
  private final List<EventStudy.Comparison> told;

  private EventAnswer(EventStudy study) {
    this.study = study;
    words = new EventDetails(study);
    told =
        study.comparisons.stream()
            .filter(c -> c.ratio().isPresent())
            .sorted(Comparator.comparingDouble(c -> c.ratioP()[0]))
            .toList();
  }

  static Answer of(EventStudy study) {
    EventAnswer a = new EventAnswer(study);
    return new Answer(a.text(), a.details());
  }

  private String text() {
    String intervention =
        study.intervention.map(i -> i.sentence(study.settings, words.eventCost()) + " ").orElse("");
    if (told.isEmpty()) {
      return intervention + words.byChance();
    }
    EventStudy.Comparison clearest = told.get(0);
    int differ = (int) told.stream().filter(EventAnswer::differs).count();
    return intervention
        + (differ > 0 ? difference(clearest) : cannotTell(clearest))
        + (intervention.isEmpty() ? Answer.others(told.size(), differ) : "");
  }

  private List<Entry.Value> details() {
    List<Entry.Value> details = new ArrayList<>();
    study.intervention.ifPresent(
        i ->
            details.add(
                Answer.detail(
                    "intervention", "Intervention", i.answer(study.settings, words.eventCost()))));
    int shown = Math.min(MOST_TOLD, told.size());
    for (int k = 0; k < shown; k++) {
      EventStudy.Comparison c = told.get(k);
      details.add(
          Answer.detail(
              "pair" + (k + 1),
              name(c.pair().first()) + ", " + name(c.pair().second()),
              differs(c) ? words.differs(c) : words.cannotTell(c)));
    }
    if (told.size() > shown) {
      details.add(
          Answer.detail(
              "others", "Others", "All " + told.size() + " pairs stand under rateRatios."));
    }
    return details;
  }

  private static boolean differs(EventStudy.Comparison c) {
    return c.ratioP()[1] < Settings.LEVEL;
  }

  private String name(int group) {
    return study.groups.get(group).name();
  }

  private String difference(EventStudy.Comparison c) {
    Estimated r = c.ratio().get();
    boolean more = r.value() > 1;
    int worse = more ? c.pair().first() : c.pair().second();
    int better = more ? c.pair().second() : c.pair().first();
    Interval i = more ? r.wald() : new Interval(1 / r.wald().upper(), 1 / r.wald().lower());
    return name(worse)
        + " has "
        + Words.rough(more ? r.value() : 1 / r.value())
        + " times the events an hour of "
        + name(better)
        + " (95 %: "
        + Words.rough(i)
        + "; "
        + Words.p(c.ratioP()[1])
        + Answer.among(study.comparisons.size())
        + ")"
        + worth(c, worse, better)
        + ".";
  }

  private String worth(EventStudy.Comparison c, int worse, int better) {
    int machines = study.groups.get(worse).machines();
    String whose = machines == 1 ? "its machine" : "its " + machines + " machines";
    Optional<double[]> money = words.money(c, worse);
    if (money.isPresent()) {
      double[] m = money.get();
      if (!(m[0] > 0)) {
        return ", though it costs no more";
      }
      return ", which costs "
          + whose
          + " "
          + Words.rough(machines * m[0])
          + " "
          + study.settings.currency()
          + " a year"
          + (Double.isNaN(m[1])
              ? ""
              : " (95 %: " + Words.rough(new Interval(machines * m[1], machines * m[2])) + ")");
    }
    double events =
        machines
            * study.settings.hoursAYear()
            * (study.groups.get(worse).ratePerH() - study.groups.get(better).ratePerH());
    return events > 0
        ? ", which is " + Words.rough(events) + " events more a year for " + whose
        : "";
  }

  private String cannotTell(EventStudy.Comparison c) {
    Estimated r = c.ratio().get();
    double watched =
        study.groups.get(c.pair().first()).data().hoursH()
            + study.groups.get(c.pair().second()).data().hoursH();
    return "These data can't tell "
        + name(c.pair().first())
        + " from "
        + name(c.pair().second())
        + (told.size() > 1 ? ", nor any other pair" : "")
        + ": "
        + (EventDetails.anything(r.wald())
            ? "many times the events an hour are possible, or hardly any"
            : Words.rough(r.wald()) + " times the events an hour are possible")
        + " (95 %; "
        + Words.p(c.ratioP()[1])
        + Answer.among(study.comparisons.size())
        + ")"
        + Answer.moreHours(Distances.timesTheHours(Distances.z(r)), watched, "machine-hours")
        + ".";
  }
}
