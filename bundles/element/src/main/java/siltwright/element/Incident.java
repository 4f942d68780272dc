package siltwright.element;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;

/**
 * Something other than loading that a log of pressure drops shows.
 *
 * @param kind what it is
 * @param row row of the log at which it happened
 * @param fromKPa drop before, at the reference, kPa
 * @param toKPa drop behind, kPa
 */
public record Incident(Kind kind, int row, double fromKPa, double toKPa) {
  /** Kinds of incident. */
  public enum Kind {
    /** The drop fell to that of a clean element: a new one was fitted. */
    CHANGE,
    /** The drop fell at once but not to that of a clean element: it tore or collapsed. */
    COLLAPSE,
    /** A loaded element's drop has stopped to rise: the bypass is open. */
    BYPASS_OPEN,
    /** The drop lies far below that of a clean element: none is fitted, or the bypass is stuck. */
    NO_ELEMENT
  }

  /** A fall to less than this share of the drop before is no noise. */
  private static final double FALL = 0.6;

  /** Up to so much above the clean drop an element counts as clean. */
  private static final double CLEAN = 1.4;

  private static final double FAR_BELOW_CLEAN = 0.35;

  /** A slope less than this share of the one before counts as none. */
  private static final double STOPPED = 0.15;

  private static final int LEAST_ROWS_TO_STOP = 24;

  /**
   * Looks through a log.
   *
   * @param log the log
   * @param reference at what its drops are compared
   * @param cleanKPa drop of a clean element at the reference, where it is known
   * @return incidents in order of time
   */
  public static List<Incident> in(DropLog log, Reference reference, OptionalDouble cleanKPa) {
    int n = log.times().length;
    int[] rows = new int[n];
    double[] drops = new double[n];
    int kept = 0;
    for (int i = 0; i < n; i++) {
      double p = reference.dropKPa(log, i);
      if (!Double.isNaN(p)) {
        rows[kept] = i;
        drops[kept++] = p;
      }
    }
    drops = Arrays.copyOf(drops, kept);
    List<Incident> found = new ArrayList<>();
    int width = Math.max(1, Math.min(25, kept / 40));
    int startUp = Math.min(kept, Math.max(width, kept / 25));
    int begin = 0;
    double clean = cleanKPa.orElse(median(drops, Math.min(startUp, kept / 2), startUp));
    for (int i = Math.max(startUp, width); i + width <= kept; i++) {
      double before = median(drops, i - width, i);
      double behind = median(drops, i, i + width);
      if (i - width < begin || !(behind < FALL * before) || drops[i] >= FALL * before) {
        continue;
      }
      // The fall must last: a dip while the oil stood still is none.
      int later = Math.min(kept, i + 4 * width);
      if (median(drops, Math.max(i, later - width), later) > 0.8 * before) {
        continue;
      }
      Kind kind =
          behind < FAR_BELOW_CLEAN * clean
              ? Kind.NO_ELEMENT
              : behind <= CLEAN * clean ? Kind.CHANGE : Kind.COLLAPSE;
      found.add(new Incident(kind, rows[i], before, behind));
      begin = i;
      i += width;
    }
    double first = kept == 0 ? Double.NaN : median(drops, Math.min(startUp, kept - 1), kept);
    if (found.isEmpty() && cleanKPa.isPresent() && first < FAR_BELOW_CLEAN * clean) {
      found.add(new Incident(Kind.NO_ELEMENT, rows[0], clean, first));
    }
    stopped(drops, begin, clean)
        .ifPresent(
            at ->
                found.add(
                    new Incident(Kind.BYPASS_OPEN, rows[at.row()], at.fromKPa(), at.toKPa())));
    return List.copyOf(found);
  }

  private static Optional<Incident> stopped(double[] drops, int begin, double clean) {
    int n = drops.length - begin;
    if (n < LEAST_ROWS_TO_STOP) {
      return Optional.empty();
    }
    int quarter = n / 4;
    int end = drops.length;
    double now = median(drops, end - quarter / 2, end);
    double behind = median(drops, end - quarter, end - quarter / 2);
    double before = median(drops, end - 2 * quarter, end - 2 * quarter + quarter / 2);
    double long0 = median(drops, end - 3 * quarter, end - 3 * quarter + quarter / 2);
    boolean rose = before > 1.25 * long0 && before > 1.5 * clean;
    boolean flat = now - behind < STOPPED * 0.5 * (before - long0) && now < 1.1 * behind;
    return rose && flat
        ? Optional.of(new Incident(Kind.BYPASS_OPEN, end - quarter, before, now))
        : Optional.empty();
  }

  private static double median(double[] values, int from, int to) {
    double[] sorted = Arrays.copyOfRange(values, from, Math.max(from + 1, to));
    Arrays.sort(sorted);
    return sorted[sorted.length / 2];
  }
}
