package siltwright.large;

import java.io.Serializable;
import java.util.EnumMap;
import java.util.TreeMap;
import siltwright.analysis.Progress;
import siltwright.life.FitInParts;
import siltwright.life.LifeFamily;
import siltwright.wide.Work;

/** What is done with lives in a range of rows. */
final class LifeParts {
  private LifeParts() {}

  /**
   * The first look.
   *
   * @param by column of the groups; empty for none
   * @param every one in so many rows goes into the sample
   * @param gridH grid of the counts, h
   */
  record First(String by, int every, double gridH) implements Work<RowRange, Looked> {
    @Override
    public Looked of(RowRange part, Progress watching) {
      LifeRows rows = LifeRows.read(part, by);
      TreeMap<String, FitInParts.Look> looks = new TreeMap<>();
      TreeMap<String, LifeGrid.Counts> counts = new TreeMap<>();
      rows.groups()
          .forEach(
              (group, data) -> {
                looks.put(group, FitInParts.look(data, every));
                if (!group.equals(LifeRows.ALL)) {
                  counts.put(group, LifeGrid.Counts.of(data, gridH));
                }
              });
      return new Looked(looks, counts, rows.faults());
    }
  }

  /**
   * What a range comes to at first.
   *
   * @param looks by group
   * @param counts by group
   * @param faults how the rows fared
   */
  record Looked(
      TreeMap<String, FitInParts.Look> looks,
      TreeMap<String, LifeGrid.Counts> counts,
      Faults faults)
      implements Serializable {}

  /**
   * The likelihood, where it is wanted.
   *
   * @param by column of the groups; empty for none
   * @param wanted mu and ln sigma by group and law
   */
  record Slopes(String by, TreeMap<String, EnumMap<LifeFamily, double[]>> wanted)
      implements Work<RowRange, TreeMap<String, EnumMap<LifeFamily, FitInParts.Sums>>> {
    @Override
    public TreeMap<String, EnumMap<LifeFamily, FitInParts.Sums>> of(
        RowRange part, Progress watching) {
      TreeMap<String, EnumMap<LifeFamily, FitInParts.Sums>> all = new TreeMap<>();
      LifeRows.read(part, by)
          .groups()
          .forEach(
              (group, data) -> {
                EnumMap<LifeFamily, FitInParts.Sums> sums = new EnumMap<>(LifeFamily.class);
                wanted
                    .getOrDefault(group, new EnumMap<>(LifeFamily.class))
                    .forEach((law, theta) -> sums.put(law, FitInParts.sums(data, law, theta)));
                all.put(group, sums);
              });
      return all;
    }
  }
}
