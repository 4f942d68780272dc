package siltwright.restart.internal;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import siltwright.analysis.FleetFileParameter;
import siltwright.analysis.Progress;
import siltwright.model.Fleet;
import siltwright.model.Ingress;
import siltwright.model.InputException;
import siltwright.model.Machine;
import siltwright.model.Problem;
import siltwright.restart.Bottle;
import siltwright.restart.Doubt;
import siltwright.restart.Release;
import siltwright.restart.ReleaseFit;
import siltwright.restart.WashOut;
import siltwright.samples.CountError;
import siltwright.samples.OilRecord;
import siltwright.samples.OilRecords;

/**
 * A change and what its samples say it let go.
 *
 * @param change the row of the change
 * @param machine the machine
 * @param wash how a release shows in its oil
 * @param bottles bottles from after the restart
 * @param before whether a sample from before the change is there
 * @param lastMin minute of the last bottle
 * @param intervalH hours to the next change of the record; today's interval where there is none
 * @param release grams released
 */
record Grade(
    OilRecord change,
    Machine machine,
    WashOut wash,
    int bottles,
    boolean before,
    double lastMin,
    double intervalH,
    Release release) {
  static final FleetFileParameter FLEET =
      new FleetFileParameter("fleet", "fleet file with the machines of the table; it is only read");

  /** Samples within so many hours of the meter from a change belong to it. */
  private static final double BELONGS_H = 24;

  private static final double MIN_PER_H = 60;

  static Fleet fleet(Optional<Fleet> fleet) {
    return fleet.orElseThrow(
        () ->
            new InputException(
                new Problem(
                    "option", "--fleet", "", "a fleet file with the machines of the table")));
  }

  /** Changes of a table that have restart samples, with the machines that the fleet lacks. */
  record All(List<Grade> grades, int changes, List<String> strangers) {}

  static All of(OilRecords records, Fleet fleet, CountError error, Progress progress) {
    List<Grade> grades = new ArrayList<>();
    List<String> strangers = new ArrayList<>();
    Map<String, ReleaseFit> fits = new HashMap<>();
    int changes = 0;
    int done = 0;
    for (String id : records.machines()) {
      progress.check(0.05 + 0.7 * done++ / records.machines().size(), "machine " + id);
      Optional<Machine> machine = fleet.machine(id);
      if (machine.isEmpty()) {
        strangers.add(id);
        continue;
      }
      WashOut wash = WashOut.of(machine.get());
      ReleaseFit fit =
          fits.computeIfAbsent(id, k -> new ReleaseFit(wash, Doubt.of(machine.get()), error));
      List<OilRecord> rows = records.of(id);
      List<OilRecord> changed =
          rows.stream().filter(r -> r.kind() == OilRecord.Kind.CHANGE).toList();
      changes += changed.size();
      for (int c = 0; c < changed.size(); c++) {
        OilRecord change = changed.get(c);
        double next =
            c + 1 < changed.size() ? changed.get(c + 1).hours() : Double.POSITIVE_INFINITY;
        double last = c > 0 ? changed.get(c - 1).hours() : Double.NEGATIVE_INFINITY;
        List<Bottle> bottles = new ArrayList<>();
        double lastMin = 0;
        OilRecord before = null;
        for (OilRecord r : rows) {
          if (r.kind() != OilRecord.Kind.SAMPLE || r.bands(error).isEmpty()) {
            continue;
          }
          boolean restart = !Double.isNaN(r.minutes());
          if (restart
              && r.hours() >= change.hours()
              && r.hours() < next
              && r.hours() - r.minutes() / MIN_PER_H <= change.hours() + BELONGS_H) {
            bottles.add(new Bottle(r.minutes(), r.bands(error).get()));
            lastMin = Math.max(lastMin, r.minutes());
          } else if (!restart && r.hours() <= change.hours() && r.hours() > last) {
            before = r;
          }
        }
        if (bottles.isEmpty()) {
          continue;
        }
        int after = bottles.size();
        if (before != null) {
          bottles.add(0, new Bottle(Double.NaN, before.bands(error).orElseThrow()));
        }
        double interval =
            Double.isInfinite(next) ? machine.get().today().intervalH() : next - change.hours();
        grades.add(
            new Grade(
                change,
                machine.get(),
                wash,
                after,
                before != null,
                lastMin,
                interval,
                fit.of(bottles)));
      }
    }
    return new All(List.copyOf(grades), changes, List.copyOf(strangers));
  }

  /** Returns what is ranked or shown by a name: a word of the change, or the housing. */
  String group(String by) {
    if (by.equals("housing")) {
      return machine.returnFilter().housing().word();
    }
    if (by.equals("depot") && change.word("depot").isEmpty()) {
      return machine.site();
    }
    return change.word(by);
  }

  /**
   * Returns what the way that was used is said to let go of what came in since the last change, g;
   * what the machine's ways let go on average where it is not known.
   */
  double saidG() {
    return machine
        .procedure(change.word("procedure"))
        .map(p -> saidG(p.backFlushShare(), p.handlingDirtMg()))
        .orElseGet(() -> Doubt.of(machine).medianG());
  }

  /** Returns what the way of the machine that sheds least would let go, g. */
  double bestG() {
    return machine.procedures().stream()
        .mapToDouble(p -> saidG(p.backFlushShare(), p.handlingDirtMg()))
        .min()
        .orElse(0);
  }

  private double saidG(double backFlushShare, double handlingMg) {
    double caughtMg =
        (Ingress.rateMgPerH(machine.ingress().reservoir())
                + Ingress.rateMgPerH(machine.ingress().returnLine()))
            * intervalH;
    return (backFlushShare * caughtMg + handlingMg) / 1000;
  }
}
