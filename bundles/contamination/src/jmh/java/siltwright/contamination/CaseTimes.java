package siltwright.contamination;

import java.util.Arrays;
import java.util.List;
import java.util.Locale;

/**
 * Times of the reference cases, printed as {@code src/test/reference/reference --time} prints its
 * own: a whole case with all its cycles is one run.
 */
public final class CaseTimes {
  private static final int WARM_UP = 30;

  private CaseTimes() {}

  /** Takes the number of runs of each case. */
  public static void main(String[] arguments) {
    int repeats = Integer.parseInt(arguments[0]);
    List<Case> cases = ReferenceCase.all().stream().map(Case::of).toList();
    for (int i = 0; i < WARM_UP; i++) {
      cases.forEach(Case::run);
    }
    System.out.println("case,tag,cycles,median_us");
    for (Case one : cases) {
      double[] us = new double[repeats];
      for (int i = 0; i < repeats; i++) {
        long from = System.nanoTime();
        double mass = one.run();
        us[i] = (System.nanoTime() - from) / 1e3;
        if (Double.isNaN(mass)) {
          throw new IllegalStateException(one.name + " gives no mass");
        }
      }
      Arrays.sort(us);
      System.out.printf(Locale.ROOT, "%s,%d,%.1f%n", one.name, one.cycles, us[repeats / 2]);
    }
  }

  private record Case(
      String name,
      Balance balance,
      double[] start,
      double backFlush,
      double[] handling,
      double intervalH,
      int cycles) {
    static Case of(ReferenceCase r) {
      return new Case(
          r.toString().replace(' ', ','),
          new Balance(r.circuit(), r.wear()),
          r.bands("start_#_per_mL"),
          r.get("back_flush_share"),
          r.bands("handling_#"),
          r.get("interval_h"),
          (int) r.get("cycles"));
    }

    double run() {
      balance.counts(start);
      for (int i = 0; i < cycles; i++) {
        balance.fresh();
        balance.runTo(intervalH);
        for (int j = 0; j < handling.length; j++) {
          balance.release(j, backFlush * balance.retained[j] + handling[j]);
        }
      }
      return balance.massG;
    }
  }
}
