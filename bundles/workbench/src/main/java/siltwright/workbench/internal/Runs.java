package siltwright.workbench.internal;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.concurrent.CancellationException;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import java.util.function.Consumer;
import java.util.function.Function;
import javax.swing.SwingUtilities;
import siltwright.analysis.Progress;
import siltwright.model.InputException;

/**
 * Long work off the event thread. A newer request of an owner and slot cancels the one before.
 * Everything but the work itself happens on the event thread.
 */
final class Runs {
  private static final int MOST_LISTED = 50;

  private final ExecutorService pool =
      Executors.newFixedThreadPool(
          Math.max(2, Runtime.getRuntime().availableProcessors()),
          task -> {
            Thread thread = new Thread(task, "siltwright-run");
            thread.setDaemon(true);
            return thread;
          });
  private final List<Run> listed = new ArrayList<>();
  private final Map<Slot, Run> current = new HashMap<>();
  private final List<Runnable> listeners = new ArrayList<>();

  private record Slot(Object owner, String name) {}

  /** How a run stands. */
  enum State {
    /** Waits for a thread. */
    WAITING,
    /** Computes. */
    RUNNING,
    /** Has an outcome. */
    DONE,
    /** Was stopped, by the user or by a newer request. */
    CANCELLED,
    /** Has no outcome for a reason that its message tells. */
    FAILED
  }

  /** One piece of work. */
  static final class Run {
    private final String title;
    private final long begunNs = System.nanoTime();
    private volatile boolean unwanted;
    private volatile double share;
    private volatile String doing = "";
    private volatile State state = State.WAITING;
    private long endedNs;
    private String message = "";

    private Run(String title) {
      this.title = title;
    }

    String title() {
      return title;
    }

    State state() {
      return state;
    }

    double share() {
      return share;
    }

    /** Returns what it does, or why it has no outcome. */
    String doing() {
      return message.isEmpty() ? doing : message;
    }

    double elapsedS() {
      return ((isOver() ? endedNs : System.nanoTime()) - begunNs) * 1e-9;
    }

    boolean isOver() {
      return state != State.WAITING && state != State.RUNNING;
    }

    private void end(State how, String why) {
      state = how;
      message = why;
      endedNs = System.nanoTime();
    }
  }

  void addListener(Runnable listener) {
    listeners.add(listener);
  }

  void removeListener(Runnable listener) {
    listeners.remove(listener);
  }

  private void changed() {
    List.copyOf(listeners).forEach(Runnable::run);
  }

  /** Returns the runs, the newest first. */
  List<Run> list() {
    return List.copyOf(listed);
  }

  /** Returns whether nothing is being computed. */
  boolean isIdle() {
    return listed.stream().allMatch(Run::isOver);
  }

  <T> void start(
      Object owner,
      String slot,
      String title,
      Function<Progress, T> work,
      Consumer<T> done,
      Consumer<String> failed) {
    Slot key = new Slot(owner, slot);
    Run before = current.get(key);
    if (before != null) {
      before.unwanted = true;
      before.end(State.CANCELLED, Texts.of("runs.overtaken"));
    }
    Run run = new Run(title);
    current.put(key, run);
    listed.add(0, run);
    for (int i = listed.size() - 1; i >= 0 && listed.size() > MOST_LISTED; i--) {
      if (listed.get(i).isOver()) {
        listed.remove(i);
      }
    }
    pool.execute(() -> compute(key, run, work, done, failed));
    changed();
  }

  private <T> void compute(
      Slot key, Run run, Function<Progress, T> work, Consumer<T> done, Consumer<String> failed) {
    if (run.unwanted) {
      return;
    }
    run.state = State.RUNNING;
    Progress progress =
        (share, doing) -> {
          run.share = share;
          run.doing = doing;
          return !run.unwanted;
        };
    try {
      T outcome = work.apply(progress);
      SwingUtilities.invokeLater(
          () -> finish(key, run, State.DONE, "", () -> done.accept(outcome)));
    } catch (CancellationException e) {
      fail(key, run, State.CANCELLED, Texts.of("runs.cancelled"), failed);
    } catch (InputException e) {
      fail(key, run, State.FAILED, e.getMessage(), failed);
    } catch (OutOfMemoryError e) {
      long mostMiB = Runtime.getRuntime().maxMemory() >> 20;
      fail(key, run, State.FAILED, Texts.of("runs.memory", mostMiB), failed);
    } catch (RuntimeException | Error e) {
      fail(key, run, State.FAILED, Texts.of("runs.fault", e), failed);
    }
  }

  private void fail(Slot key, Run run, State how, String why, Consumer<String> failed) {
    SwingUtilities.invokeLater(() -> finish(key, run, how, why, () -> failed.accept(why)));
  }

  private void finish(Slot key, Run run, State how, String why, Runnable tell) {
    if (!run.isOver()) {
      run.end(how, why);
      if (current.remove(key, run)) {
        tell.run();
      }
    }
    changed();
  }

  /** Stops a run at the user's wish; its owner is told. */
  void cancel(Run run) {
    run.unwanted = true;
  }

  /** Stops all of an owner's runs, of which it hears no more. */
  void cancelAll(Object owner) {
    current
        .entrySet()
        .removeIf(
            e -> {
              boolean its = e.getKey().owner() == owner;
              if (its) {
                e.getValue().unwanted = true;
                e.getValue().end(State.CANCELLED, Texts.of("runs.closed"));
              }
              return its;
            });
    changed();
  }

  void clear() {
    listed.removeIf(Run::isOver);
    changed();
  }

  void close() {
    current.values().forEach(run -> run.unwanted = true);
    current.clear();
    pool.shutdownNow();
  }
}
