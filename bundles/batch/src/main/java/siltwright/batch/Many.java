package siltwright.batch;

import java.nio.file.Path;
import java.security.MessageDigest;
import java.security.NoSuchAlgorithmException;
import java.util.ArrayList;
import java.util.HexFormat;
import java.util.Iterator;
import java.util.Locale;
import java.util.concurrent.CancellationException;
import java.util.function.Consumer;
import siltwright.analysis.Progress;
import siltwright.wide.BackEnd;

/**
 * Tunes every machine of a table, several at a time, and gives the answers in the table's order.
 * However long the table, no more than a number of machines is held at once.
 */
final class Many {
  private static final long NANOS_PER_S = 1_000_000_000L;

  /** Machines that go to another process at once: a second's work or so, and some 10 KB. */
  private static final int TOGETHER = 64;

  private final TunePart work;
  private final Path table;
  private final BackEnd backEnd;

  /**
   * Prepares a run.
   *
   * @param work what is done with some machines
   * @param table the table
   * @param backEnd where it is done
   */
  Many(TunePart work, Path table, BackEnd backEnd) {
    this.work = work;
    this.table = table;
    this.backEnd = backEnd;
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
   * @param to given each machine's row, in order, by this thread
   * @param progress told how far it is and how long it may still take
   * @throws CancellationException if asked to stop; what was given before stays
   */
  void run(long skip, Consumer<ArrayList<Object>> to, Progress progress) {
    try (MachineRows rows = new MachineRows(table, null)) {
      long[] number = {0};
      while (number[0] < skip && rows.next() != null) {
        number[0]++;
      }
      Pace pace = new Pace(rows.share(), progress);
      Parts parts = new Parts(rows, backEnd.elsewhere() ? TOGETHER : 1);
      backEnd.run(
          parts,
          work,
          answers -> {
            answers.forEach(to);
            number[0] += answers.size();
            pace.done(number[0], parts.hasNext() ? rows.share() : 1);
          },
          pace.watching());
    }
  }

  /** The rows of a table, some together. */
  private static final class Parts implements Iterator<ArrayList<MachineRows.Entry>> {
    private final MachineRows rows;
    private final int together;
    private MachineRows.Entry next;

    Parts(MachineRows rows, int together) {
      this.rows = rows;
      this.together = together;
      next = rows.next();
    }

    @Override
    public boolean hasNext() {
      return next != null;
    }

    @Override
    public ArrayList<MachineRows.Entry> next() {
      ArrayList<MachineRows.Entry> part = new ArrayList<>();
      while (next != null && part.size() < together) {
        part.add(next);
        next = rows.next();
      }
      return part;
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
