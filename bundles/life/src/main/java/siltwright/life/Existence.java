package siltwright.life;

import java.io.Serializable;
import java.util.Locale;

/**
 * Whether the likelihood of a law has a maximum, decided from the records before any climb.
 *
 * <p>A law with two parameters has none when one life c satisfies every row (each row's closed
 * interval holds it): letting the shape grow at that life never loses likelihood. With inspections
 * alone (found failed or survived), it has none when failed inspections are on average, in ln t, no
 * older than the passed: the shape then falls to zero. Own derivation, from the log-concavity of
 * both tails in (mu/sigma, 1/sigma).
 */
final class Existence implements Serializable {
  private static final long serialVersionUID = 1;

  private double latestLower;
  private double earliestUpper = Double.POSITIVE_INFINITY;
  private double failures;
  private double seenFailures;
  private boolean seenAlive;
  private boolean onlyOneSided = true;
  private double failedCount;
  private double failedLog;
  private double passedCount;
  private double passedLog;
  private double total;

  /**
   * Returns why there is no maximum, or null if there is one as far as the records can tell.
   *
   * @param counts counts that replace the data's own, 0 leaves a row out; or null
   */
  static Refusal check(LifeData data, double[] counts, LifeFamily family, boolean fixedSigma) {
    Existence of = new Existence();
    of.add(data, counts);
    return of.refusal(family, fixedSigma);
  }

  /** Adds records. */
  void add(LifeData data, double[] counts) {
    for (int i = 0; i < data.rows(); i++) {
      double c = counts == null ? data.countAt(i) : counts[i];
      if (c == 0) {
        continue;
      }
      double lower = data.lowerH(i);
      double upper = data.upperH(i);
      latestLower = Math.max(latestLower, lower);
      earliestUpper = Math.min(earliestUpper, upper);
      boolean survivedSomething = lower > data.entryH(i) || lower == upper;
      seenAlive |= survivedSomething;
      total += c * (lower - data.entryH(i));
      if (data.failed(i)) {
        failures += c;
        if (lower == upper) {
          seenFailures += c;
          onlyOneSided = false;
        } else if (lower > 0) {
          onlyOneSided = false;
        } else {
          failedCount += c;
          failedLog += onlyOneSided ? c * Math.log(upper) : 0;
        }
      } else if (lower > 0) {
        passedCount += c;
        passedLog += onlyOneSided ? c * Math.log(lower) : 0;
      }
      onlyOneSided &= data.entryH(i) == 0;
    }
  }

  /** Adds what was said of other records. */
  void add(Existence other) {
    latestLower = Math.max(latestLower, other.latestLower);
    earliestUpper = Math.min(earliestUpper, other.earliestUpper);
    failures += other.failures;
    seenFailures += other.seenFailures;
    seenAlive |= other.seenAlive;
    onlyOneSided &= other.onlyOneSided;
    failedCount += other.failedCount;
    failedLog += other.failedLog;
    passedCount += other.passedCount;
    passedLog += other.passedLog;
    total += other.total;
  }

  /** Returns how many failed. */
  double failures() {
    return failures;
  }

  /** Returns ln of the mean life of an exponential law. */
  double logMean() {
    return Math.log(total / failures);
  }

  /** Returns why there is no maximum, or null. */
  Refusal refusal(LifeFamily family, boolean fixedSigma) {
    if (failures == 0) {
      return new Refusal(
          Reason.NO_FAILURES,
          "Nothing failed in "
              + hours(total)
              + " of watching: the likelihood only rises with life.",
          "What can be said is a lower bound of the life at a stated confidence and an assumed"
              + " shape.");
    }
    if (!seenAlive) {
      return new Refusal(
          Reason.NONE_SEEN_ALIVE,
          "Every component had failed by its first inspection: any shorter life fits better.",
          "What can be said is an upper bound of the life; inspect earlier.");
    }
    if (family == LifeFamily.EXPONENTIAL || fixedSigma) {
      return null;
    }
    if (latestLower <= earliestUpper) {
      return onePoint(failures, seenFailures, latestLower, earliestUpper);
    }
    if (onlyOneSided && failedLog / failedCount <= passedLog / passedCount) {
      return new Refusal(
          Reason.NO_AGEING_IN_INSPECTIONS,
          "Inspections found failures no later than they found survivors: the shape falls to zero.",
          "What can be said is the share failed, not how it grows with age; the exponential fit and"
              + " a fit with an assumed shape exist.");
    }
    return null;
  }

  private static Refusal onePoint(double failures, double seen, double from, double to) {
    String instead =
        "The exponential fit exists, and with an assumed shape the scale does; one failure that"
            + " something outlives would do.";
    if (seen == 0) {
      return new Refusal(
          Reason.ONE_LIFE_FITS_ALL_INSPECTIONS,
          "One life between "
              + hours(from)
              + " and "
              + hours(to)
              + " satisfies every inspection: the shape is unbounded.",
          instead);
    }
    if (failures == 1) {
      return new Refusal(
          Reason.SINGLE_FAILURE_AT_LARGEST_TIME,
          "The only failure, at " + hours(to) + ", is at the largest time: the shape is unbounded.",
          instead);
    }
    return new Refusal(
        Reason.FAILURES_TIED_AT_LARGEST_TIME,
        "All failures fit " + hours(to) + " and nothing outlived it: the shape is unbounded.",
        instead);
  }

  static String hours(double hours) {
    return String.format(Locale.ROOT, "%.6g h", hours);
  }
}
