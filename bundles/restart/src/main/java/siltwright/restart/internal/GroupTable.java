package siltwright.restart.internal;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.function.ToDoubleFunction;
import siltwright.analysis.Cell;
import siltwright.analysis.Entry;
import siltwright.analysis.Entry.Column;
import siltwright.analysis.Result;
import siltwright.restart.Ranking;

/**
 * Groups of changes side by side. Nothing is said of a group with too few changes.
 *
 * @param by what they are grouped by
 * @param what what is compared
 * @param suffix unit in the names of columns
 * @param unit unit
 * @param fewest changes that a group must have
 */
record GroupTable(String by, String what, String suffix, String unit, int fewest) {
  /**
   * Adds the table where there are at least two groups.
   *
   * @param log logarithm of what is compared, of a change
   */
  Optional<Ranking> addTo(Result.Builder result, List<Grade> grades, ToDoubleFunction<Grade> log) {
    List<Grade> named = grades.stream().filter(g -> !g.group(by).isEmpty()).toList();
    List<String> names = named.stream().map(g -> g.group(by)).toList();
    if (names.stream().distinct().count() < 2) {
      return Optional.empty();
    }
    Ranking ranking =
        Ranking.of(
            names,
            named.stream().mapToDouble(log).toArray(),
            named.stream().mapToDouble(g -> g.release().logSd()).toArray(),
            fewest);
    List<List<Cell>> rows = new ArrayList<>();
    for (Ranking.Group g : ranking.groups()) {
      rows.add(
          List.of(
              Cell.of(g.name()),
              Cell.of(g.changes()),
              g.enough() ? Cell.of(Math.exp(g.own())) : new Cell.None(),
              g.enough() ? Cell.of(Math.exp(g.shrunken())) : new Cell.None(),
              g.enough() ? new Cell.Range(Math.exp(g.low()), Math.exp(g.high())) : new Cell.None(),
              Cell.of(said(g, ranking))));
    }
    result.add(
        new Entry.Table(
            "by_" + by,
            "Typical "
                + what
                + ", by "
                + by
                + ", drawn towards the mean of all by as much as it is unsure",
            Entry.Use.READ,
            List.of(
                new Column("name", by, ""),
                new Column("changes", "Changes", "1"),
                new Column("own" + suffix, "Own mean", unit),
                new Column("typical" + suffix, "Typical", unit),
                new Column("interval90" + suffix, "90 % interval", unit),
                new Column("said", "Against the rest", "")),
            rows));
    return Optional.of(ranking);
  }

  private static String said(Ranking.Group g, Ranking ranking) {
    if (!g.enough()) {
      return "too few to say";
    }
    return g.above(ranking.mean())
        ? "above the rest"
        : g.below(ranking.mean()) ? "below the rest" : "like the rest";
  }
}
