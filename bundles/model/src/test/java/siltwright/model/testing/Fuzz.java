package siltwright.model.testing;

import com.sun.management.ThreadMXBean;
import java.io.IOException;
import java.lang.management.ManagementFactory;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.SplittableRandom;
import java.util.concurrent.ConcurrentSkipListMap;
import java.util.stream.Stream;

/**
 * Gives a reader files of a corpus, and spoilt ones. Whatever the file, it is read or refused: with
 * lines that name it, soon, with little memory, and with nothing thrown that the reader's user does
 * not expect.
 *
 * <p>A corpus is a folder {@code src/test/corpus/READER}; what begins with {@code sound-} must be
 * read, what begins with {@code refused-} must be refused, the rest is only to be survived. A round
 * spoils one of them. As many rounds as a test says run in each build, the same in each; {@code
 * -Dsiltwright.fuzz.seconds} runs them for a time instead and {@code -Dsiltwright.fuzz.seed} runs
 * others. Files that a reader fails on are kept in {@code target/fuzz}, to be put into the corpus.
 */
public final class Fuzz {
  private static final int SECONDS = Integer.getInteger("siltwright.fuzz.seconds", 0);
  private static final long SEED = Long.getLong("siltwright.fuzz.seed", 1);
  private static final long LONGEST_CPU_NS = 10_000_000_000L;
  private static final int LOOK_MS = 200;
  private static final int MOST_LOOKS = 900;
  private static final ThreadMXBean THREADS = (ThreadMXBean) ManagementFactory.getThreadMXBean();
  private static final int LONGEST_LINE = 1500;
  private static final int MOST_FAILURES = 20;

  private final String reader;
  private final Mutation mutation;
  private final Reading reading;
  private final List<Path> corpus = new ArrayList<>();
  private final Map<String, String> failures = new ConcurrentSkipListMap<>();
  private final Path kept;
  private long mostBytes = 256L << 20;
  private volatile int tried;
  private volatile boolean begun;
  private volatile long begunCpuNs;
  private int read;
  private int refused;

  /** A reader under test. */
  public interface Reading {
    /**
     * Reads a file, and, where that writes it in any way, what it has written.
     *
     * @return what its user is told, a problem a line, where it is refused; else nothing
     */
    Optional<String> read(Path file) throws Exception;
  }

  private Fuzz(String reader, Mutation mutation, Reading reading) {
    this.reader = reader;
    this.mutation = mutation;
    this.reading = reading;
    this.kept = Path.of("target", "fuzz", reader);
  }

  /**
   * Begins with the corpus of a reader.
   *
   * @param reader name of the corpus
   * @param mutation how to spoil its files
   * @param reading what reads
   */
  public static Fuzz of(String reader, Mutation mutation, Reading reading) throws IOException {
    Fuzz fuzz = new Fuzz(reader, mutation, reading);
    try (Stream<Path> files = Files.list(Path.of("src", "test", "corpus", reader))) {
      files.sorted().forEach(fuzz.corpus::add);
    }
    return fuzz;
  }

  /** Adds a sound file that lies elsewhere. */
  public Fuzz with(Path file) {
    corpus.add(file);
    return this;
  }

  /** Allows a file so many bytes of memory. */
  public Fuzz within(long bytes) {
    mostBytes = bytes;
    return this;
  }

  /**
   * Runs.
   *
   * @param rounds spoilt files of a short run
   * @throws AssertionError that tells all kinds of failure, and where the files are
   */
  public void run(int rounds) throws Exception {
    Path folder = Files.createTempDirectory("siltwright-fuzz");
    Thread work = new Thread(() -> work(folder, rounds), "fuzz " + reader);
    work.setDaemon(true);
    work.start();
    int looks = 0;
    int seen = 0;
    while (work.isAlive()) {
      work.join(LOOK_MS);
      // by the processor's time, since the machine may do something else; by looks if it waits,
      // since the clock goes on while the process is held
      looks = begun && tried == seen ? looks + 1 : 0;
      seen = tried;
      boolean busy = THREADS.getThreadCpuTime(work.getId()) - begunCpuNs > LONGEST_CPU_NS;
      if (begun && busy || looks > MOST_LOOKS) {
        StringBuilder where = new StringBuilder("no end:");
        for (StackTraceElement e : work.getStackTrace()) {
          where.append("\n  ").append(e);
        }
        where.append("\nseed ").append(SEED).append(", file in ").append(folder);
        throw new AssertionError(where + "\n" + String.join("\n", failures.values()));
      }
    }
    try (Stream<Path> files = Files.walk(folder)) {
      files.sorted(java.util.Comparator.reverseOrder()).forEach(f -> f.toFile().delete());
    }
    System.out.println(
        "fuzz " + reader + ": " + read + " files read, " + refused + " refused, seed " + SEED);
    if (!failures.isEmpty()) {
      throw new AssertionError("seed " + SEED + "\n" + String.join("\n", failures.values()));
    }
  }

  private void work(Path folder, int rounds) {
    try {
      List<byte[]> files = new ArrayList<>();
      List<Integer> any = new ArrayList<>();
      List<Integer> sound = new ArrayList<>();
      for (Path file : corpus) {
        byte[] bytes = Files.readAllBytes(file);
        any.add(files.size());
        String name = file.getFileName().toString();
        Optional<Boolean> expected =
            name.startsWith("refused-")
                ? Optional.of(true)
                : name.startsWith("sound-") ? Optional.of(false) : Optional.empty();
        if (!round(folder, file, bytes, expected)) {
          sound.add(files.size());
        }
        files.add(bytes);
      }
      SplittableRandom seeds = new SplittableRandom(SEED);
      long end = System.currentTimeMillis() + 1000L * SECONDS;
      for (int i = 0; SECONDS > 0 ? System.currentTimeMillis() < end : i < rounds; i++) {
        if (failures.size() >= MOST_FAILURES) {
          return;
        }
        SplittableRandom random = seeds.split();
        // what is refused as it is hides what comes behind the fault
        List<Integer> all = !sound.isEmpty() && random.nextInt(4) > 0 ? sound : any;
        int from = all.get(random.nextInt(all.size()));
        byte[] spoilt = mutation.of(files.get(from), files, random);
        round(folder, corpus.get(from), spoilt, Optional.empty());
      }
    } catch (IOException | RuntimeException e) {
      failures.put("the fuzzer itself", thrown(e));
    }
  }

  /** Reads one file; keeps it if that fails in a way not seen before. Whether it was refused. */
  private boolean round(Path folder, Path of, byte[] bytes, Optional<Boolean> expected)
      throws IOException {
    String name = of.getFileName().toString();
    Path file = Files.write(folder.resolve(name), bytes);
    long before = THREADS.getCurrentThreadAllocatedBytes();
    begunCpuNs = THREADS.getCurrentThreadCpuTime();
    tried++;
    begun = true;
    String fault;
    boolean refuses = true;
    try {
      Optional<String> told = reading.read(file);
      fault = told.map(t -> badlyTold(t, file.getFileName().toString())).orElse("");
      boolean other = expected.isPresent() && expected.get() != told.isPresent();
      fault = other ? name + " is no longer what its name says: " + told.orElse("read") : fault;
      refuses = told.isPresent();
      read += refuses ? 0 : 1;
      refused += refuses ? 1 : 0;
    } catch (Throwable e) {
      fault = thrown(e);
    }
    begun = false;
    long took = THREADS.getCurrentThreadAllocatedBytes() - before;
    if (fault.isEmpty() && took > mostBytes) {
      fault = "more than " + (mostBytes >> 20) + " MiB of memory";
    }
    if (!fault.isEmpty()) {
      keep(fault, of, bytes);
    }
    return refuses;
  }

  private void keep(String fault, Path of, byte[] bytes) throws IOException {
    String kind = fault.lines().findFirst().orElse("").replaceAll("[0-9]+", "0");
    kind += fault.lines().skip(1).findFirst().orElse("");
    if (!failures.containsKey(kind)) {
      Files.createDirectories(kept);
      String name = SEED + "-" + failures.size() + "-" + of.getFileName();
      Files.write(kept.resolve(name), bytes);
      failures.put(kind, kept.resolve(name) + ": " + fault.replaceAll("[^\\x20-\\x7e\n]", "?"));
    }
  }

  private static String thrown(Throwable e) {
    StringBuilder text = new StringBuilder(e.toString());
    StackTraceElement[] trace = e.getStackTrace();
    for (int i = 0; i < Math.min(12, trace.length); i++) {
      text.append("\n    ").append(trace[i]);
    }
    return text.toString();
  }

  /** Fails if what a user is told of a file that was read all the same does not help. */
  public static void assertWellTold(String told, Path file) {
    String fault = badlyTold(told, file.getFileName().toString());
    if (!fault.isEmpty()) {
      throw new AssertionError(fault);
    }
  }

  /** What is wrong with what the user is told; empty if nothing is. */
  private static String badlyTold(String told, String file) {
    if (told.isBlank()) {
      return "refused without a word";
    }
    for (String line : told.split("\n", -1)) {
      String fault =
          !line.contains(file)
              ? "a line that does not name the file"
              : line.length() > LONGEST_LINE
                  ? "a line that is too long"
                  : line.contains("Exception") || line.contains("java.")
                      ? "a line with the words of the machine"
                      : line.chars().anyMatch(Character::isISOControl)
                          ? "a line with control characters"
                          : !StandardCharsets.UTF_8.newEncoder().canEncode(line)
                              ? "a line with half a character"
                              : "";
      if (!fault.isEmpty()) {
        return fault + ": " + line.substring(0, Math.min(line.length(), 300));
      }
    }
    return "";
  }
}
