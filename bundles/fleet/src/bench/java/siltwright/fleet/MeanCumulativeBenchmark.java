package siltwright.fleet;

import java.io.IOException;
import java.io.PrintWriter;
import java.lang.management.ManagementFactory;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Arrays;
import java.util.Locale;

/**
 * Time, processor time and memory of the mean cumulative function with its robust variance, of
 * fleets of 25 000 to 200 000 machines with some 11 events each: prints the table of
 * docs/benchmarks-fleet.md. With {@code once}: the first call of the process and the next, of 100
 * 000 machines; with {@code records FILE}: those machines as a table, for {@code one_pass.py}.
 */
public final class MeanCumulativeBenchmark {
  private static final int RUNS = 7;

  private MeanCumulativeBenchmark() {}

  /** Runs the benchmark. */
  public static void main(String[] args) throws IOException {
    if (args.length > 0) {
      EventData data = ReferenceCases.Recipe.machines(100_000);
      if (args[0].equals("records")) {
        write(data, Path.of(args[1]));
      } else {
        once(data);
        once(data);
      }
      return;
    }
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

  private static void once(EventData data) {
    long cpu = ManagementFactory.getThreadMXBean().getCurrentThreadCpuTime();
    long start = System.nanoTime();
    MeanCumulative mean = MeanCumulative.of(data);
    double elapsed = (System.nanoTime() - start) / 1e9;
    double processor = (ManagementFactory.getThreadMXBean().getCurrentThreadCpuTime() - cpu) / 1e9;
    int last = mean.timesH().length - 1;
    System.out.printf(
        Locale.ROOT,
        "%d machines, %d events: %.2f s, %.2f s of processor; last %.1f h %.6f %.6g%n",
        data.machines().size(),
        data.events(),
        elapsed,
        processor,
        mean.timesH()[last],
        mean.meanAt(mean.timesH()[last]),
        mean.varianceAt(mean.timesH()[last]));
  }

  private static void write(EventData data, Path file) throws IOException {
    try (PrintWriter out = new PrintWriter(Files.newBufferedWriter(file))) {
      out.println("machine,hours,event");
      for (int e = 0; e < data.events(); e++) {
        out.println(data.machines().get(data.eventMachine(e)) + "," + data.atH(e) + ",1");
      }
      for (int w = 0; w < data.windows(); w++) {
        out.println(data.machines().get(data.windowMachine(w)) + "," + data.toH(w) + ",0");
      }
    }
  }
}
