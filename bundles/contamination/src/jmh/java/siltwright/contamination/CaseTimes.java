package siltwright.contamination;

import java.lang.management.ManagementFactory;
import java.lang.management.ThreadMXBean;
import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import siltwright.model.Bands;

/**
 * Times of the reference cases, printed as {@code src/test/reference/reference --time} prints its
 * own, in processor time of the thread: a whole case with all its cycles is one run. Behind it the
 * mean time of finding the repeating cycle of 64 intervals up to the case's own, the course
 * included.
 */
public final class CaseTimes {
  private static final int WARM_UP = 30;
  private static final int INTERVALS = 64;
  private static final ThreadMXBean THREADS = ManagementFactory.getThreadMXBean();

  private CaseTimes() {}

  /** Takes the number of runs of each case. */
  public static void main(String[] arguments) {
    int repeats = Integer.parseInt(arguments[0]);
    List<Case> cases = ReferenceCase.all().stream().map(Case::of).toList();
    for (int i = 0; i < WARM_UP; i++) {
      cases.forEach(Case::run);
      if (i % 10 == 0) {
        cases.forEach(Case::fill);
      }
    }
    System.out.println("case,tag,cycles,median_us,fill_us");
    for (Case one : cases) {
      double[] us = new double[repeats];
      for (int i = 0; i < repeats; i++) {
        long from = THREADS.getCurrentThreadCpuTime();
        double mass = one.run();
        us[i] = (THREADS.getCurrentThreadCpuTime() - from) / 1e3;
        if (Double.isNaN(mass)) {
          throw new IllegalStateException(one.name + " gives no mass");
        }
      }
      double[] fillUs = new double[repeats];
      for (int i = 0; i < repeats; i++) {
        long from = THREADS.getCurrentThreadCpuTime();
        one.fill();
        fillUs[i] = (THREADS.getCurrentThreadCpuTime() - from) / 1e3 / INTERVALS;
      }
      Arrays.sort(us);
      Arrays.sort(fillUs);
      System.out.printf(
          Locale.ROOT,
          "%s,%d,%.1f,%.2f%n",
          one.name,
          one.cycles,
          us[repeats / 2],
          fillUs[repeats / 2]);
    }
  }

  private record Case(
      String name,
      Circuit circuit,
      List<Wear> wear,
      Balance balance,
      double[] start,
      double backFlush,
      double[] handling,
      double intervalH,
      int cycles) {
    static Case of(ReferenceCase r) {
      Circuit circuit = r.circuit();
      return new Case(
          r.toString().replace(' ', ','),
          circuit,
          r.wear(),
          new Balance(circuit, r.wear()),
          r.bands("start_#_per_mL"),
          r.get("back_flush_share"),
          r.bands("handling_#"),
          r.get("interval_h"),
          (int) r.get("cycles"));
    }

    void fill() {
      CycleSweep sweep = new CycleSweep(circuit, wear);
      Cycle cycle = new Cycle(wear.size());
      Bands dirt = Bands.of(handling);
      for (int i = 1; i <= INTERVALS; i++) {
        sweep.fill(intervalH * i / INTERVALS, backFlush, dirt, cycle);
      }
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
