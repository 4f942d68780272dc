package siltwright.batch;

import java.nio.file.Path;
import siltwright.analysis.Progress;
import siltwright.interval.Tuning;
import siltwright.model.json.Extensions;
import siltwright.model.json.FleetVariants;
import siltwright.wide.BackEnd;

/** Tunes every machine of a table and writes a table of results, a row each. */
public final class TuneMany {
  private TuneMany() {}

  /**
   * What to do.
   *
   * @param table the machines: {@code machine} is the id of each, {@code like} the machine of the
   *     fleet file that it is like, each other column a place in that machine
   * @param fleet the fleet file
   * @param extensions loading laws and terms of the cost that it may name
   * @param to where the results go (CSV); must not be there
   * @param resume whether to go on with what a run has left that was broken off
   * @param settings how to compute each machine
   * @param backEnd where it is computed
   */
  public record Task(
      Path table,
      Path fleet,
      Extensions extensions,
      Path to,
      boolean resume,
      Tuning.Settings settings,
      BackEnd backEnd) {}

  /**
   * Does it. What stops it leaves the rows that were done in {@code to} with {@code .part} behind
   * its name, for a later run to go on with.
   *
   * @throws siltwright.model.InputException if a file is at fault; a machine at fault is a row
   * @throws java.util.concurrent.CancellationException if asked to stop
   */
  public static Summary run(Task task, Progress progress) {
    TunePart work =
        TunePart.of(
            task.fleet(),
            // what an add-on brings stays in this process
            task.backEnd().elsewhere() ? TunePart.BASIC : task.extensions(),
            task.settings());
    FleetVariants variants = work.variants();
    Many many = new Many(work, task.table(), task.backEnd());
    String of =
        String.join(
            "\n",
            "table " + many.sha256(progress),
            "fleet " + variants.sha256(),
            task.settings().toString(),
            "");
    long before;
    try (PartFile results = new PartFile(task.to(), Answer.HEADINGS, of, task.resume())) {
      before = results.there();
      many.run(before, results::add, progress);
      results.keep();
    }
    return Summary.of(task.to(), before, variants.fleet().currency());
  }
}
