package siltwright.workbench;

import javax.swing.JComponent;
import org.osgi.annotation.versioning.ConsumerType;

/** An open view. Every method is called on the event thread. */
@ConsumerType
public interface Pane {
  /** Returns what is shown, always the same component; it scrolls by itself where it must. */
  JComponent component();

  /**
   * Shows a scenario: after opening, and whenever the document, the selection, the units or the
   * theme changed. Must be quick: what takes over 20 ms goes through {@link Desk#compute}, and
   * until it is done the old picture stays, marked as stale.
   *
   * @param scenario what to show; it may hold no fleet, or no machine, at any time
   */
  void show(Scenario scenario);

  /** Lets go of everything: listeners, timers, threads. Nothing is called afterwards. */
  void close();
}
