package siltwright.command;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.concurrent.Callable;
import java.util.concurrent.CancellationException;
import java.util.concurrent.ExecutionException;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import java.util.concurrent.Future;
import siltwright.analysis.Analysis;
import siltwright.analysis.Context;
import siltwright.analysis.Result;
import siltwright.analysis.Values;
import siltwright.model.Fleet;
import siltwright.model.InputException;
import siltwright.model.Machine;
import siltwright.model.Problem;

/** Runs an analysis on every machine of a fleet, several at a time. */
final class FleetRun {
  private final Analysis analysis;
  private final Fleet fleet;
  private final String file;
  private final Values values;
  private final ProgressLine progress;

  FleetRun(Analysis analysis, Fleet fleet, String file, Values values, ProgressLine progress) {
    this.analysis = analysis;
    this.fleet = fleet;
    this.file = file;
    this.values = values;
    this.progress = progress;
  }

  /** What came of one machine: a result, or problems. */
  private record Done(Machine machine, Optional<Result> result, List<Problem> problems) {}

  /**
   * Runs the analysis.
   *
   * @param threads most threads to use
   * @param problems problems of the file, which come first
   * @return results in the fleet's order; a machine that the analysis refuses is among the problems
   */
  Outcome run(int threads, List<Problem> problems) {
    List<Outcome.Of> results = new ArrayList<>();
    List<Problem> all = new ArrayList<>(problems);
    for (Done done : all(threads)) {
      Machine m = done.machine();
      done.result()
          .ifPresent(r -> results.add(new Outcome.Of(m.id(), m.name(), r, Context.of(fleet, m))));
      all.addAll(done.problems());
    }
    return new Outcome(file, fleet.name(), values, results, all);
  }

  private List<Done> all(int threads) {
    ExecutorService pool =
        Executors.newFixedThreadPool(
            Math.max(1, Math.min(threads, fleet.machines().size())),
            task -> {
              Thread thread = new Thread(task, "siltwright-machine");
              thread.setDaemon(true);
              return thread;
            });
    try {
      List<Future<Done>> futures = new ArrayList<>();
      for (int i = 0; i < fleet.machines().size(); i++) {
        futures.add(pool.submit(one(i)));
      }
      List<Done> done = new ArrayList<>();
      for (int i = 0; i < futures.size(); i++) {
        done.add(get(futures.get(i), fleet.machines().get(i)));
      }
      return done;
    } finally {
      pool.shutdownNow();
    }
  }

  private Callable<Done> one(int index) {
    Machine m = fleet.machines().get(index);
    return () -> {
      try {
        Result result = analysis.run(Context.of(fleet, m), values, progress.part(index));
        progress.part(index).report(1, m.id());
        return new Done(m, Optional.of(result), List.of());
      } catch (InputException e) {
        return new Done(
            m, Optional.empty(), e.problems().stream().map(p -> onMachine(m, p)).toList());
      }
    };
  }

  private Problem onMachine(Machine m, Problem p) {
    String source = p.source().equals(file) ? "" : p.source();
    String place = ("machine " + m.id() + " " + source + " " + p.place()).replaceAll(" +", " ");
    return new Problem(file, place.strip(), p.value(), p.expected());
  }

  private static Done get(Future<Done> future, Machine m) {
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
