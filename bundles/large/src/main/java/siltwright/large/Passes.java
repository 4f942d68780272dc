package siltwright.large;

import java.util.List;
import java.util.function.Consumer;
import siltwright.analysis.Progress;
import siltwright.model.InputException;
import siltwright.model.Problem;
import siltwright.wide.BackEnd;
import siltwright.wide.Work;

/** Goes through all ranges, once or several times. */
final class Passes {
  private static final int MOST_GROUPS = 1000;

  private final List<RowRange> ranges;
  private final BackEnd backEnd;
  private final Progress progress;
  private int passes;

  Passes(List<RowRange> ranges, BackEnd backEnd, Progress progress) {
    this.ranges = ranges;
    this.backEnd = backEnd;
    this.progress = progress;
  }

  /** Goes through all. */
  <A> void run(Work<RowRange, A> work, Consumer<A> to) {
    String pass = "pass " + ++passes + ", ";
    int[] done = {0};
    Progress watching =
        (share, doing) ->
            progress.report(
                done[0] / (double) ranges.size(),
                pass + done[0] + " of " + ranges.size() + " parts");
    backEnd.run(
        ranges.iterator(),
        work,
        a -> {
          to.accept(a);
          done[0]++;
          watching.check(0, "");
        },
        watching);
  }

  /** Returns how often all was gone through. */
  int count() {
    return passes;
  }

  /**
   * Refuses a column with more groups than anybody can look at.
   *
   * @throws InputException if there are too many
   */
  static void checkGroups(int groups, String by) {
    if (groups > MOST_GROUPS) {
      throw new InputException(
          new Problem(
              "option",
              "--by",
              by + ", which has more than " + MOST_GROUPS + " values",
              "a column of groups"));
    }
  }
}
