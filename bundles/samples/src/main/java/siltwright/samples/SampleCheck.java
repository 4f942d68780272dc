package siltwright.samples;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Optional;
import siltwright.cleanliness.Iso4406;
import siltwright.cleanliness.ParticleCounts;
import siltwright.cleanliness.ReportedCode;
import siltwright.model.SizeBands;

/**
 * What is suspicious of a sample.
 *
 * @param record the sample
 * @param kind what is suspicious
 * @param text what was found, in a clause
 */
public record SampleCheck(OilRecord record, Kind kind, String text) {
  /** What may be wrong with a sample. */
  public enum Kind {
    /** Counts at or above a size rise with size. */
    ORDER,
    /** Counts a hundred times those around them: per 100 mL instead of per mL, or the reverse. */
    UNIT,
    /** A code that the counts do not give. */
    CODE,
    /** A restart sample before the oil was mixed and warm. */
    EARLY,
    /** Counts that fall with size as no dust does, such as from air or water. */
    SHAPE
  }

  private static final double HUNDRED = 100;

  /** Counts within this factor of a hundredfold are taken for a mix-up of units. */
  private static final double NEAR = 3.5;

  /** Factor by which a code may miss: the border of a scale number lies anywhere. */
  private static final double CODE_SLACK = 1.1;

  private static final double STEEPEST = 400;
  private static final int ENOUGH = 3;

  /**
   * Checks the samples of one machine.
   *
   * @param rows the machine's rows in the order of hours
   * @param earliestMin minutes of running before which oil is not mixed
   */
  public static List<SampleCheck> of(List<OilRecord> rows, double earliestMin) {
    List<SampleCheck> found = new ArrayList<>();
    double[][] running =
        sorted(
            rows.stream()
                .filter(r -> r.kind() == OilRecord.Kind.SAMPLE && Double.isNaN(r.minutes()))
                .filter(OilRecord::counted)
                .toList());
    for (OilRecord r : rows) {
      if (r.kind() != OilRecord.Kind.SAMPLE) {
        continue;
      }
      if (r.minutes() < earliestMin) {
        found.add(
            new SampleCheck(
                r,
                Kind.EARLY,
                "drawn after " + plain(r.minutes()) + " min, before " + plain(earliestMin)));
      }
      Optional<String> order = order(r);
      order.ifPresent(text -> found.add(new SampleCheck(r, Kind.ORDER, text)));
      if (order.isEmpty()) {
        code(r).ifPresent(text -> found.add(new SampleCheck(r, Kind.CODE, text)));
        shape(r).ifPresent(text -> found.add(new SampleCheck(r, Kind.SHAPE, text)));
      }
      if (Double.isNaN(r.minutes()) && r.counted()) {
        unit(r, running).ifPresent(text -> found.add(new SampleCheck(r, Kind.UNIT, text)));
      }
    }
    return List.copyOf(found);
  }

  private static String plain(double v) {
    return v == Math.rint(v) ? Long.toString((long) v) : Double.toString(v);
  }

  private static Optional<String> order(OilRecord r) {
    double before = Double.POSITIVE_INFINITY;
    for (double c : r.perMl()) {
      if (c > before) {
        return Optional.of(plain(c) + " at a larger size after " + plain(before));
      }
      before = Double.isNaN(c) ? before : c;
    }
    return Optional.empty();
  }

  private static Optional<String> code(OilRecord r) {
    if (r.code().isEmpty() || !r.counted()) {
      return Optional.empty();
    }
    for (int i = 0; i < 3; i++) {
      double c = r.perMl()[i];
      ReportedCode.Place place = r.code().get().places().get(i);
      boolean told = !Double.isNaN(c) && place.rangePerMl().isPresent();
      if (told
          && !place.rangePerMl().get().contains(c)
          && !place.rangePerMl().get().contains(c * CODE_SLACK)
          && !place.rangePerMl().get().contains(c / CODE_SLACK)) {
        return Optional.of(
            "code "
                + r.code().get()
                + ", counts give "
                + Iso4406.code(ParticleCounts.perMl(r.perMl())));
      }
    }
    return Optional.empty();
  }

  private static Optional<String> shape(OilRecord r) {
    double c4 = r.perMl()[0];
    double c6 = r.perMl()[1];
    double c14 = r.perMl()[2];
    if (c4 > 100 && c6 > 0 && c4 / c6 > STEEPEST) {
      return Optional.of("far more fine particles than dust has: water, air or additive?");
    }
    if (c14 > 20 && c6 > 0 && c14 / c6 > 0.9) {
      return Optional.of("as many particles above 14 as above 6 µm(c): air or a blocked sensor?");
    }
    return Optional.empty();
  }

  /** Counts above zero of the samples in running at each size, in order. */
  private static double[][] sorted(List<OilRecord> running) {
    double[][] sorted = new double[SizeBands.COUNT][];
    for (int i = 0; i < sorted.length; i++) {
      int size = i;
      sorted[i] =
          running.stream().mapToDouble(o -> o.perMl()[size]).filter(v -> v > 0).sorted().toArray();
    }
    return sorted;
  }

  /** Median of a sorted series without one of its values. */
  private static double medianWithout(double[] sorted, double value) {
    int middle = (sorted.length - 1) / 2;
    return sorted[middle < Arrays.binarySearch(sorted, value) ? middle : middle + 1];
  }

  /** Against the median of the others at each size, in running. */
  private static Optional<String> unit(OilRecord r, double[][] running) {
    for (double factor : new double[] {HUNDRED, 1 / HUNDRED}) {
      int sizes = 0;
      int off = 0;
      for (int i = 0; i < running.length; i++) {
        double count = r.perMl()[i];
        if (running[i].length - 1 < ENOUGH || !(count > 0)) {
          continue;
        }
        double ratio = count / medianWithout(running[i], count) / factor;
        sizes++;
        off += ratio < NEAR && ratio > 1 / NEAR ? 1 : 0;
      }
      if (sizes > 0 && off == sizes) {
        return Optional.of(
            factor > 1
                ? "about a hundred times the others: counts per 100 mL?"
                : "about a hundredth of the others: a count divided twice?");
      }
    }
    return Optional.empty();
  }

  /** Returns whether nothing should rest on the sample. */
  public boolean grave() {
    return kind != Kind.CODE && kind != Kind.SHAPE;
  }

  /** Returns whether a sample is so doubtful that nothing should rest on it. */
  public static boolean doubtful(OilRecord r, List<SampleCheck> checks) {
    return checks.stream().anyMatch(c -> c.record() == r && c.grave());
  }
}
