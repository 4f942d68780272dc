package siltwright.fleet;

import java.lang.management.ManagementFactory;
import java.util.Arrays;
import java.util.Locale;

/**
 * Time, processor time and memory of the mean cumulative function with its robust variance, of
 * fleets of 25 000 to 200 000 machines with some 11 events each: prints the table of
 * docs/benchmarks-fleet.md.
 */
public final class MeanCumulativeBenchmark {
  private static final int RUNS = 7;

  private MeanCumulativeBenchmark() {}

  /** Runs the benchmark. */
  public static void main(String[] args) {
    com.sun.management.ThreadMXBean threads =
        (com.sun.management.ThreadMXBean) ManagementFactory.getThreadMXBean();
    long thread = Thread.currentThread().getId();
    System.out.println(
        "| machines | events | first s | its processor s | median s | least s | processor s | allocated MB | bytes an event |");
    System.out.println("| ---: | ---: | ---: | ---: | ---: | ---: | ---: | ---: | ---: |");
    for (int machines : new int[] {100_000, 25_000, 50_000, 100_000, 200_000}) {
      EventData data = ReferenceCases.Recipe.machines(machines);
      double[] elapsed = new double[RUNS];
      double[] processor = new double[RUNS];
      double allocated = 0;
      for (int run = 0; run < RUNS; run++) {
        long bytes = threads.getThreadAllocatedBytes(thread);
        long cpu = threads.getCurrentThreadCpuTime();
        long start = System.nanoTime();
        MeanCumulative mean = MeanCumulative.of(data);
        elapsed[run] = (System.nanoTime() - start) / 1e9;
        processor[run] = (threads.getCurrentThreadCpuTime() - cpu) / 1e9;
        allocated = threads.getThreadAllocatedBytes(thread) - bytes;
        if (!(mean.varianceAt(8000) > 0)) {
          throw new IllegalStateException("no variance");
        }
      }
      double first = elapsed[0];
      double firstProcessor = processor[0];
      Arrays.sort(elapsed);
      Arrays.sort(processor);
      System.out.printf(
          Locale.ROOT,
          "| %d | %d | %.2f | %.2f | %.2f | %.2f | %.2f | %.0f | %.0f |%n",
          machines,
          data.events(),
          first,
          firstProcessor,
          elapsed[RUNS / 2],
          elapsed[0],
          processor[RUNS / 2],
          allocated / 1e6,
          allocated / data.events());
    }
  }
}
