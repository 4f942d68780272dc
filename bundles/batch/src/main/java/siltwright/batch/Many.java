package siltwright.batch;

import java.nio.file.Path;
import java.security.MessageDigest;
import java.security.NoSuchAlgorithmException;
import java.util.ArrayDeque;
import java.util.Deque;
import java.util.HexFormat;
import java.util.Locale;
import java.util.concurrent.CancellationException;
import java.util.concurrent.ExecutionException;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import java.util.concurrent.Future;
import java.util.function.Consumer;
import siltwright.analysis.Progress;
import siltwright.interval.Tuning;
import siltwright.model.json.FleetVariants;

/**
 * Tunes every machine of a table, several at a time, and gives the answers in the table's order.
 * However long the table, no more than a number of machines is held at once.
 */
final class Many {
  private static final long NANOS_PER_S = 1_000_000_000L;

  private final FleetVariants variants;
  private final Path table;
  private final Tuning.Settings settings;
  private final int threads;
  private final int ahead;

  /**
   * Prepares a run.
   *
   * @param variants the machines that those of the table are like
   * @param table the table
   * @param settings how to compute each machine
   * @param threads machines computed at once
   * @param ahead machines computed ahead of the one that is written
   */
  Many(FleetVariants variants, Path table, Tuning.Settings settings, int threads, int ahead) {
    this.variants = variants;
    this.table = table;
    this.settings = settings;
    this.threads = threads;
    this.ahead = ahead;
  }

  /** Reads the table once and returns its SHA-256, so that a later run knows it again. */
  String sha256(Progress progress) {
    try {
      MessageDigest digest = MessageDigest.getInstance("SHA-256");
      try (MachineRows rows = new MachineRows(table, digest)) {
        for (long i = 0; rows.next() != null; i++) {
          if (i % 1000 == 0) {
            progress.check(0, "the table is looked through");
          }
        }
      }
      return HexFormat.of().formatHex(digest.digest());
    } catch (NoSuchAlgorithmException e) {
      throw new IllegalStateException(e); // every Java has it
    }
  }

  /**
   * Computes.
   *
   * @param skip machines at the beginning that are left out
   * @param to given each answer, in order, by this thread
   * @param progress told how far it is and how long it may still take
   * @throws CancellationException if asked to stop; what was given before stays
   */
  void run(long skip, Consumer<Answer> to, Progress progress) {
    ExecutorService pool =
        Executors.newFixedThreadPool(
            threads,
            task -> {
              Thread thread = new Thread(task, "siltwright-machine");
              thread.setDaemon(true);
              return thread;
            });
    Deque<Future<Answer>> open = new ArrayDeque<>();
    try (MachineRows rows = new MachineRows(table, null)) {
      long number = 0;
      while (number < skip && rows.next() != null) {
        number++;
      }
      Pace pace = new Pace(rows.share(), progress);
      for (MachineRows.Entry e = rows.next(); e != null; e = rows.next()) {
        MachineRows.Entry entry = e;
        open.add(pool.submit(() -> Answer.of(entry, variants, settings, pace.watching())));
        if (open.size() >= ahead) {
          to.accept(get(open.remove()));
          pace.done(++number, rows.share());
        }
      }
      while (!open.isEmpty()) {
        to.accept(get(open.remove()));
        pace.done(++number, 1);
      }
    } finally {
      pool.shutdownNow();
    }
  }

  private static Answer get(Future<Answer> future) {
    try {
      return future.get();
    } catch (InterruptedException e) {
      Thread.currentThread().interrupt();
      throw new CancellationException("interrupted");
    } catch (ExecutionException e) {
      if (e.getCause() instanceof RuntimeException cause) {
        throw cause;
      }
      throw new IllegalStateException(e.getCause());
    }
  }

  /** How far a run is, and how long the rest takes at the pace so far. */
  private static final class Pace {
    private final long beginNs = System.nanoTime();
    private final double from;
    private final Progress progress;
    private volatile double share;
    private volatile String words = "machines";

    Pace(double from, Progress progress) {
      this.from = from;
      this.progress = progress;
      share = from;
    }

    /** Lets a machine that takes long be cancelled, too. */
    Progress watching() {
      return (ofMachine, doing) -> progress.report(share, words);
    }

    void done(long machines, double read) {
      share = read;
      double seconds = (System.nanoTime() - beginNs) / (double) NANOS_PER_S;
      double left = read > from ? seconds * (1 - read) / (read - from) : 0;
      words = machines + " machines" + (left < 1 ? "" : ", " + duration(left) + " left");
      progress.check(share, words);
    }

    private static String duration(double seconds) {
      if (seconds < 90) {
        return Math.round(seconds) + " s";
      }
      return seconds < 5400
          ? Math.round(seconds / 60) + " min"
          : String.format(Locale.ROOT, "%.1f h", seconds / 3600);
    }
  }
}
