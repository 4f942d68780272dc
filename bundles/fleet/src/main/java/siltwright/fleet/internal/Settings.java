package siltwright.fleet.internal;

import java.util.List;
import java.util.Optional;
import siltwright.fleet.Multiplicity;
import siltwright.model.CleanlinessCode;

/**
 * What the user wants to know.
 *
 * @param by column whose values are the groups
 * @param selections name of the table of saved selections, if there is one
 * @param kind what a row is, if said
 * @param cuts numbers at which a column of numbers is cut into groups, rising
 * @param reference group that the others are compared with; else all with each other
 * @param adjust columns to allow for
 * @param stratum column within whose values alone groups are compared
 * @param atH age at which means are compared, h
 * @param correction how several p-values are told
 * @param weight power of survival by which the log-rank test weighs failures
 * @param clean column with the cleanliness of samples
 * @param target cleanliness that samples are held against
 * @param intervention column with the hour of an intervention, or its date
 * @param hoursAYear hours that a machine works in a year
 * @param eventCost cost of an event where the table has no costs
 * @param currency currency of costs; "money" if it was not said
 * @param draws draws of machines
 * @param seed seed of the draws
 */
record Settings(
    String by,
    Optional<String> selections,
    Optional<Kind> kind,
    List<Double> cuts,
    Optional<String> reference,
    List<String> adjust,
    Optional<String> stratum,
    Optional<Double> atH,
    Multiplicity correction,
    double weight,
    Optional<String> clean,
    Optional<CleanlinessCode> target,
    Optional<String> intervention,
    double hoursAYear,
    Optional<Double> eventCost,
    String currency,
    int draws,
    long seed) {
  /** Confidence of every interval. */
  static final double CONFIDENCE = 0.95;

  /** Level below which a p-value counts as a difference. */
  static final double LEVEL = 0.05;

  /** Returns the column with the hour of the intervention, unless a date was given. */
  Optional<String> interventionColumn() {
    return intervention.filter(i -> Double.isNaN(MachineDates.day(i)));
  }

  /** What a row of the table is. */
  enum Kind {
    /** An event of a machine, or an end of watching it. */
    EVENTS,
    /** A component from its begin to its end. */
    LIVES,
    /** A sample of a machine's oil. */
    SAMPLES
  }

  /** Returns the word for the correction, for sentences. */
  String corrected() {
    return switch (correction) {
      case HOLM -> " after Holm's correction";
      case FALSE_SHARE -> " after Benjamini's and Hochberg's correction";
      case NONE -> "";
    };
  }
}
