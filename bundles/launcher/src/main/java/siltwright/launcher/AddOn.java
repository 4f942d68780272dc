package siltwright.launcher;

import java.io.PrintStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.util.List;
import org.osgi.framework.Bundle;

/**
 * A jar in an add-ons folder and what became of it. Its threads are a group of their own, so that
 * what they print or leave running is known to be its.
 */
final class AddOn {
  /** How it stands. */
  enum State {
    /** Works. */
    ACTIVE("active"),
    /** Needs what starts later, such as the window. */
    WAITS("waits for a later stage"),
    /** Not taken, or stopped for something it did. */
    SET_ASIDE("set aside");

    private final String words;

    State(String words) {
      this.words = words;
    }

    String words() {
      return words;
    }
  }

  private static final int MOST_TOLD = 10;

  private final Path file;
  private final Stamp stamp;
  private final PrintStream told;
  private final Threads threads;
  private volatile Bundle bundle;
  private volatile String name;
  private volatile Signature signature = new Signature(List.of());
  private volatile boolean trusted;
  private volatile State state = State.WAITS;
  private volatile String why = "";
  private final StringBuilder line = new StringBuilder();
  private int lines;

  /** What tells one version of a file from another. */
  record Stamp(long size, long modified, Object key) {}

  AddOn(Path file, Stamp stamp, PrintStream told) {
    this.file = file;
    this.stamp = stamp;
    this.told = told;
    this.threads = new Threads(this);
    this.name = file.getFileName().toString();
  }

  Path file() {
    return file;
  }

  Stamp stamp() {
    return stamp;
  }

  /** Returns its bundle; null while it has none. */
  Bundle bundle() {
    return bundle;
  }

  void installed(Bundle its) {
    bundle = its;
    if (its.getSymbolicName() != null) {
      name = its.getSymbolicName() + " " + its.getVersion();
    }
  }

  /** Lets go of the bundle, so that its classes can be collected. */
  void forget() {
    bundle = null;
  }

  Signature signature() {
    return signature;
  }

  boolean trusted() {
    return trusted;
  }

  void signed(Signature by, boolean isTrusted) {
    signature = by;
    trusted = isTrusted;
  }

  State state() {
    return state;
  }

  String why() {
    return why;
  }

  void become(State next, String reason) {
    why = reason;
    state = next;
  }

  /** Returns name and version, or the file's name where it is no bundle. */
  String name() {
    return name;
  }

  /** Prepares a thread of its; the program does not wait for it at the end. */
  Thread thread(Runnable task) {
    Thread thread = new Thread(threads, task, "add-on " + file.getFileName());
    thread.setDaemon(true);
    return thread;
  }

  /** Returns how many threads it has running. */
  int threads() {
    return threads.activeCount();
  }

  /** Asks its threads to end; those that do not get what time is left over. */
  void interrupt() {
    threads.interrupt();
    threads.setMaxPriority(Thread.MIN_PRIORITY);
    Thread[] running = new Thread[threads.activeCount() + 8];
    int n = threads.enumerate(running);
    for (int i = 0; i < n; i++) {
      running[i].setPriority(Thread.MIN_PRIORITY);
    }
  }

  /** Takes what it printed: the first lines are told as its, the rest is dropped. */
  synchronized void printed(byte[] bytes, int from, int length) {
    if (lines > MOST_TOLD) {
      return;
    }
    String text = new String(bytes, from, length, StandardCharsets.UTF_8);
    for (int i = 0; i < text.length() && lines <= MOST_TOLD; i++) {
      char c = text.charAt(i);
      if (c != '\n' && line.length() < 200) {
        line.append(Character.isISOControl(c) ? ' ' : c);
      } else if (c == '\n') {
        lines++;
        told.println(
            "siltwright: add-on "
                + name()
                + " printed: "
                + (lines > MOST_TOLD ? "more, which is dropped" : line.toString().strip()));
        line.setLength(0);
      }
    }
  }

  /** Returns the add-on that the calling thread belongs to; null if it is the program's. */
  static AddOn current() {
    for (ThreadGroup g = Thread.currentThread().getThreadGroup(); g != null; g = g.getParent()) {
      if (g instanceof Threads its) {
        return its.of;
      }
    }
    return null;
  }

  private static final class Threads extends ThreadGroup {
    private final AddOn of;

    Threads(AddOn of) {
      super("add-on " + of.file.getFileName());
      this.of = of;
    }

    /** A thread that it left behind fails: told in a line. */
    @Override
    public void uncaughtException(Thread thread, Throwable fault) {
      byte[] text = ("a thread failed: " + fault + "\n").getBytes(StandardCharsets.UTF_8);
      of.printed(text, 0, text.length);
    }
  }
}
