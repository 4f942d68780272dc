package siltwright.model.history;

import java.time.Instant;
import java.util.Locale;

/**
 * A place where the hour meter does not go on as a meter must, and how it was taken.
 *
 * @param machine id of the machine
 * @param at instant of the reading
 * @param taken how it was taken
 * @param beforeH last sound reading before, h
 * @param shownH what the meter showed, h
 * @param addedH hours added to what the meter shows from here on, h, earlier mends included
 */
public record MeterMend(
    String machine, Instant at, Taken taken, double beforeH, double shownH, double addedH) {
  /** How a reading that does not fit is taken. */
  public enum Taken {
    /** Later readings go on from the one before: this one was misread, and is left out. */
    MISREAD,
    /** It runs backwards and later readings go on from it: another meter was fitted. */
    REPLACED,
    /** It grows by more hours than have passed, and later readings go on from it. */
    JUMP,
    /** It is the last one, so that nothing says which: left out until another reading comes. */
    UNCONFIRMED
  }

  /** Returns the sentence that tells it. */
  public String text() {
    String what =
        String.format(
            Locale.ROOT,
            "%s: the meter shows %.1f h after %.1f h on %s: ",
            machine,
            shownH,
            beforeH,
            at.toString().substring(0, 10));
    return what
        + switch (taken) {
          case MISREAD -> "taken as misread, since later readings go on from the one before.";
          case REPLACED ->
              String.format(
                  Locale.ROOT, "taken as another meter; %.1f h added from there on.", addedH);
          case JUMP ->
              String.format(
                  Locale.ROOT,
                  "more than the time that passed; taken as another meter, %.1f h %s from there"
                      + " on.",
                  Math.abs(addedH),
                  addedH < 0 ? "taken off" : "added");
          case UNCONFIRMED -> "left out until another reading says what to make of it.";
        };
  }
}
