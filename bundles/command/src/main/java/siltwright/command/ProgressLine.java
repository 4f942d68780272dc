package siltwright.command;

import java.io.PrintStream;
import java.time.Clock;
import java.util.Arrays;
import java.util.Locale;
import java.util.function.BooleanSupplier;
import siltwright.analysis.Progress;

/** One line that says how far a run of several parts is, once it has lasted a second. */
final class ProgressLine implements AutoCloseable {
  private static final long QUIET_MS = 1000;
  private static final long BETWEEN_MS = 200;
  private static final int WIDTH = 78;

  private final Console console;
  private final Clock clock;
  private final BooleanSupplier cancelled;
  private final double[] shares;
  private long nextMs;
  private boolean shown;

  ProgressLine(Console console, Clock clock, BooleanSupplier cancelled, int parts) {
    this.console = console;
    this.clock = clock;
    this.cancelled = cancelled;
    this.shares = new double[parts];
    this.nextMs = clock.millis() + QUIET_MS;
  }

  /** Returns the progress of one part. */
  Progress part(int index) {
    return (share, doing) -> {
      tell(index, share, doing);
      return !cancelled.getAsBoolean();
    };
  }

  private synchronized void tell(int index, double share, String doing) {
    shares[index] = share;
    long now = clock.millis();
    if (!console.terminal() || now < nextMs) {
      return;
    }
    nextMs = now + BETWEEN_MS;
    shown = true;
    double mean = Arrays.stream(shares).average().orElse(0);
    String line = String.format(Locale.ROOT, "%3.0f %%  %s", 100 * mean, Text.clean(doing));
    print("\r" + Text.padded(Text.width(line) > WIDTH ? line.substring(0, WIDTH) : line, WIDTH));
  }

  /** Wipes the line. */
  @Override
  public synchronized void close() {
    if (shown) {
      print("\r" + " ".repeat(WIDTH) + "\r");
    }
  }

  private void print(String text) {
    PrintStream err = console.err();
    err.print(text);
    err.flush();
  }
}
