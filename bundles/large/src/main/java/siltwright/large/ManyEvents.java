package siltwright.large;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.HashSet;
import java.util.List;
import java.util.Set;
import siltwright.analysis.Progress;
import siltwright.analysis.Result;
import siltwright.fleet.EventsInParts;
import siltwright.model.InputException;
import siltwright.model.Problem;
import siltwright.wide.BackEnd;

/**
 * Groups of machines compared by events that do not fit in memory.
 *
 * @param events the comparison
 * @param openEnded machines without an end of watching
 * @param rows how the rows fared
 */
public record ManyEvents(EventsInParts events, long openEnded, Result.Rows rows) {
  /**
   * Compares.
   *
   * @param source Parquet file, or a folder of them; the rows of a machine stand together
   * @param by column of the groups
   * @param gridH grid of the risk sets, h
   * @param atH age at which means are compared, h; not a number for one that the records give
   * @param together most rows of a part
   * @throws InputException if no machine is sound, or the rows of one are apart
   */
  public static ManyEvents of(
      Path source,
      String by,
      double gridH,
      double atH,
      long together,
      BackEnd backEnd,
      Progress progress) {
    List<RowRange> ranges =
        RowRange.of(
            source,
            together,
            List.of(EventMachines.MACHINE, EventMachines.HOURS, EventMachines.EVENT, by));
    Passes passes = new Passes(ranges, backEnd, progress);
    EventsInParts events = new EventsInParts(gridH);
    Faults faults = new Faults();
    List<long[]> ids = new ArrayList<>();
    long[] openEnded = {0};
    Set<String> groups = new HashSet<>();
    passes.run(
        new EventParts.First(by, gridH),
        looked -> {
          looked
              .looks()
              .forEach(
                  look -> {
                    events.add(look);
                    groups.add(look.group());
                  });
          Passes.checkGroups(groups.size(), by);
          ids.add(looked.ids());
          openEnded[0] += looked.openEnded();
          faults.add(looked.faults());
        });
    long[] all = ids.stream().flatMapToLong(Arrays::stream).sorted().toArray();
    for (int i = 1; i < all.length; i++) {
      if (all[i] == all[i - 1]) {
        throw new InputException(
            new Problem(
                source.toString(),
                "column " + EventMachines.MACHINE,
                "machines whose rows are apart",
                "the rows of a machine together, as sorted by machine"));
      }
    }
    if (groups.isEmpty()) {
      List<Problem> problems = new ArrayList<>(faults.rows().refusals());
      problems.add(new Problem(source.toString(), "", "no sound machine", "at least one"));
      throw new InputException(problems);
    }
    EventsInParts.Tables tables = events.tables(atH);
    passes.run(new EventParts.Spreads(by, tables), spreads -> spreads.forEach(events::add));
    return new ManyEvents(events, openEnded[0], faults.rows());
  }
}
