package siltwright.features;

import java.awt.AWTEvent;
import java.awt.EventQueue;
import java.awt.Toolkit;
import java.lang.management.ManagementFactory;
import java.lang.management.ThreadMXBean;

/**
 * Measures how long the event thread works on one event: in processor time, which does not count
 * what other programs take of a machine that is shared.
 */
final class Stalls extends EventQueue {
  private final ThreadMXBean clock = ManagementFactory.getThreadMXBean();
  private long longestNs;

  Stalls() {
    Toolkit.getDefaultToolkit().getSystemEventQueue().push(this);
  }

  @Override
  protected void dispatchEvent(AWTEvent event) {
    long begin = clock.getCurrentThreadCpuTime();
    super.dispatchEvent(event);
    longestNs = Math.max(longestNs, clock.getCurrentThreadCpuTime() - begin);
  }

  /** Prints the longest work since the last time. */
  void tell(String what) {
    long longest =
        Hand.onScreen(
            () -> {
              long now = longestNs;
              longestNs = 0;
              return now;
            });
    System.out.printf("longest event, %s: %d ms%n", what, longest / 1_000_000);
  }
}
