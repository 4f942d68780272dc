package siltwright.plan;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;

/**
 * The hour-meter readings of one machine, looked through.
 *
 * @param steps hours run from one good reading to the next, in order
 * @param lastDay day of the last good reading; days are counted from 1970-01-01
 * @param lastMeterH meter at that reading, h
 * @param sinceChange how long the element had been in use at the last good reading, if a change is
 *     on record
 * @param broken whether the meter was exchanged or set back
 * @param faults what is wrong with the readings
 */
public record MeterLog(
    List<Step> steps,
    long lastDay,
    double lastMeterH,
    Optional<Age> sinceChange,
    boolean broken,
    List<Fault> faults) {
  /** More hours than this a day cannot be run. */
  private static final double DAY_H = 24;

  /** Readings of neighbouring days may be almost two days apart. */
  private static final double SLACK_H = 24;

  public MeterLog {
    steps = List.copyOf(steps);
    faults = List.copyOf(faults);
  }

  /** What a reading says besides the meter. */
  public enum Event {
    /** Nothing else. */
    READING,
    /** The element was changed then. */
    CHANGE,
    /** From here on the meter is another one, or was set anew. */
    NEW_METER
  }

  /**
   * A reading.
   *
   * @param day its day, counted from 1970-01-01
   * @param meterH what the meter showed, h
   * @param event what else happened
   * @param line its line in the table
   */
  public record Reading(long day, double meterH, Event event, int line) {}

  /**
   * Hours run between two readings.
   *
   * @param fromDay day of the first
   * @param toDay day of the second, later
   * @param hours hours run
   */
  public record Step(long fromDay, long toDay, double hours) {}

  /**
   * How long an element has been in use.
   *
   * @param hours hours by the meter
   * @param unseen days in between, such as while a meter was exchanged, whose hours no meter told;
   *     each from a day to a day
   */
  public record Age(double hours, List<Step> unseen) {
    public Age {
      unseen = List.copyOf(unseen);
    }
  }

  /**
   * Something wrong with a reading.
   *
   * @param line its line in the table
   * @param text what, in words
   */
  public record Fault(int line, String text) {}

  /**
   * Looks through the readings of a machine.
   *
   * <p>A meter that shows less than before was exchanged or set back, unless the reading after it
   * goes on from the one before: then the one that sticks out is left out. So is one that would
   * take more than 24 hours a day.
   *
   * @param readings at least one reading, in any order
   */
  public static MeterLog of(List<Reading> readings) {
    List<Reading> sorted =
        readings.stream().sorted(Comparator.comparingLong(Reading::day)).toList();
    List<Fault> faults = new ArrayList<>();
    List<Reading> good = good(sorted, faults);
    List<Step> steps = new ArrayList<>();
    boolean known = false;
    double since = 0;
    List<Step> unseen = new ArrayList<>();
    Reading before = null;
    boolean everBroken = false;
    for (Reading r : good) {
      if (before != null) {
        boolean broken = r.event() == Event.NEW_METER || r.meterH() < before.meterH();
        everBroken |= broken;
        if (broken) {
          if (r.day() > before.day()) {
            unseen.add(new Step(before.day(), r.day(), 0));
          }
          if (r.event() != Event.NEW_METER) {
            faults.add(
                new Fault(
                    r.line(),
                    "the meter shows less than before and no event new-meter says why: taken as"
                        + " another meter"));
          }
        } else {
          since += r.meterH() - before.meterH();
          if (r.day() > before.day()) {
            steps.add(new Step(before.day(), r.day(), r.meterH() - before.meterH()));
          }
        }
      }
      if (r.event() == Event.CHANGE) {
        known = true;
        since = 0;
        unseen.clear();
      }
      before = r;
    }
    Reading last = good.get(good.size() - 1);
    return new MeterLog(
        steps,
        last.day(),
        last.meterH(),
        known ? Optional.of(new Age(since, unseen)) : Optional.empty(),
        everBroken,
        faults);
  }

  private static List<Reading> good(List<Reading> sorted, List<Fault> faults) {
    List<Reading> good = new ArrayList<>();
    for (int i = 0; i < sorted.size(); i++) {
      Reading r = sorted.get(i);
      if (!good.isEmpty() && r.event() != Event.NEW_METER) {
        Reading before = good.get(good.size() - 1);
        boolean tooFast = tooFast(before, r);
        // The next reading goes on from the one before, below this one: this one sticks out.
        boolean sticksOut =
            i + 1 < sorted.size()
                && sorted.get(i + 1).event() != Event.NEW_METER
                && (r.meterH() > sorted.get(i + 1).meterH()
                        && sorted.get(i + 1).meterH() >= before.meterH()
                    || r.meterH() < before.meterH()
                        && sorted.get(i + 1).meterH() >= before.meterH()
                        && !tooFast(before, sorted.get(i + 1)));
        if (tooFast || sticksOut) {
          faults.add(
              new Fault(
                  r.line(),
                  tooFast
                      ? "more than 24 hours a day since the reading before"
                      : "out of line with the readings before and after it"));
          if (r.event() == Event.CHANGE) {
            // That the element was changed is not in doubt, only at how many hours.
            good.add(new Reading(r.day(), before.meterH(), Event.CHANGE, r.line()));
          }
          continue;
        }
      }
      good.add(r);
    }
    return good;
  }

  private static boolean tooFast(Reading before, Reading r) {
    return r.meterH() - before.meterH() > DAY_H * (r.day() - before.day()) + SLACK_H;
  }
}
