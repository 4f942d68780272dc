package siltwright.analysis;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.concurrent.Callable;
import java.util.concurrent.CancellationException;
import java.util.concurrent.ExecutionException;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import java.util.concurrent.Future;
import java.util.function.IntFunction;
import siltwright.model.Fleet;
import siltwright.model.InputException;
import siltwright.model.Machine;
import siltwright.model.Problem;

/** Runs an analysis on every machine of a fleet, several at a time. */
public final class EachMachine {
  private EachMachine() {}

  /**
   * What came of one machine.
   *
   * @param machine the machine
   * @param result the result, unless the analysis refused the machine
   * @param problems why it did
   */
  public record Outcome(Machine machine, Optional<Result> result, List<Problem> problems) {}

  /**
   * Runs the analysis.
   *
   * @param progress progress of the machine with an index
   * @param threads most threads to use
   * @return outcomes in the fleet's order
   * @throws CancellationException if asked to stop
   */
  public static List<Outcome> run(
      Analysis analysis, Fleet fleet, Values values, IntFunction<Progress> progress, int threads) {
    ExecutorService pool =
        Executors.newFixedThreadPool(
            Math.max(1, Math.min(threads, fleet.machines().size())),
            task -> {
              Thread thread = new Thread(task, "siltwright-machine");
              thread.setDaemon(true);
              return thread;
            });
    try {
      List<Future<Outcome>> futures = new ArrayList<>();
      for (int i = 0; i < fleet.machines().size(); i++) {
        futures.add(pool.submit(one(analysis, fleet, values, progress.apply(i), i)));
      }
      List<Outcome> outcomes = new ArrayList<>();
      for (int i = 0; i < futures.size(); i++) {
        outcomes.add(get(futures.get(i), fleet.machines().get(i)));
      }
      return outcomes;
    } finally {
      pool.shutdownNow();
    }
  }

  private static Callable<Outcome> one(
      Analysis analysis, Fleet fleet, Values values, Progress progress, int index) {
    Machine m = fleet.machines().get(index);
    return () -> {
      try {
        Result result = analysis.run(Context.of(fleet, m), values, progress);
        progress.report(1, m.id());
        return new Outcome(m, Optional.of(result), List.of());
      } catch (InputException e) {
        return new Outcome(m, Optional.empty(), e.problems());
      }
    };
  }

  private static Outcome get(Future<Outcome> future, Machine m) {
    try {
      return future.get();
    } catch (InterruptedException e) {
      Thread.currentThread().interrupt();
      throw new CancellationException("interrupted");
    } catch (ExecutionException e) {
      if (e.getCause() instanceof CancellationException c) {
        throw c;
      }
      throw new IllegalStateException("on machine " + m.id(), e.getCause());
    }
  }
}
