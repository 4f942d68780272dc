package siltwright.large;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.TreeMap;
import siltwright.analysis.Progress;
import siltwright.analysis.Result;
import siltwright.life.Estimate;
import siltwright.life.FitInParts;
import siltwright.life.LifeFamily;
import siltwright.life.LifeFit;
import siltwright.life.LogRank;
import siltwright.life.SignificanceTest;
import siltwright.wide.BackEnd;

/**
 * How long components last, by lives that do not fit in memory.
 *
 * @param groups by name, all together first under an empty name
 * @param alike by law: whether groups live alike, by the likelihood; where each group has a fit
 * @param logRank the same without a law; empty where it cannot be made
 * @param rows how the rows fared
 * @param passes how often all rows were gone through
 */
public record ManyLives(
    Map<String, Group> groups,
    Map<LifeFamily, SignificanceTest> alike,
    Optional<LogRank> logRank,
    Result.Rows rows,
    int passes) {
  /**
   * Lives of a group.
   *
   * @param components components
   * @param failures of these, failed
   * @param fits by law
   */
  public record Group(
      double components, double failures, Map<LifeFamily, Estimate<LifeFit>> fits) {}

  /**
   * Fits.
   *
   * @param source Parquet file, or a folder of them
   * @param by column of the groups; empty for none
   * @param laws the laws
   * @param gridH grid of the log-rank test, h
   * @param together most rows of a part
   */
  public static ManyLives of(
      Path source,
      String by,
      List<LifeFamily> laws,
      double gridH,
      long together,
      BackEnd backEnd,
      Progress progress) {
    List<RowRange> ranges =
        RowRange.of(
            source, together, by.isEmpty() ? List.of(LifeRows.HOURS) : List.of(LifeRows.HOURS, by));
    Passes passes = new Passes(ranges, backEnd, progress);
    TreeMap<String, EnumMap<LifeFamily, FitInParts>> fits = new TreeMap<>();
    LifeGrid grid = new LifeGrid(gridH);
    Faults faults = new Faults();
    long all = ranges.stream().mapToLong(r -> r.to() - r.from()).sum();
    int every = (int) Math.max(1, Math.min(Integer.MAX_VALUE, all / FitInParts.SAMPLE));
    passes.run(
        new LifeParts.First(by, every, gridH),
        looked -> {
          looked
              .looks()
              .forEach(
                  (group, look) -> {
                    EnumMap<LifeFamily, FitInParts> of =
                        fits.computeIfAbsent(group, g -> new EnumMap<>(LifeFamily.class));
                    for (LifeFamily law : laws) {
                      of.computeIfAbsent(law, FitInParts::new).add(look);
                    }
                  });
          looked.counts().forEach(grid::add);
          faults.add(looked.faults());
          Passes.checkGroups(fits.size(), by);
        });
    for (var wanted = wanted(fits); !wanted.isEmpty(); wanted = wanted(fits)) {
      passes.run(
          new LifeParts.Slopes(by, wanted),
          slopes ->
              slopes.forEach(
                  (group, sums) -> sums.forEach((law, s) -> fits.get(group).get(law).add(s))));
      wanted.forEach((group, at) -> at.keySet().forEach(law -> fits.get(group).get(law).step()));
    }
    return told(fits, laws, grid, faults, passes.count());
  }

  private static TreeMap<String, EnumMap<LifeFamily, double[]>> wanted(
      Map<String, EnumMap<LifeFamily, FitInParts>> fits) {
    TreeMap<String, EnumMap<LifeFamily, double[]>> wanted = new TreeMap<>();
    fits.forEach(
        (group, of) ->
            of.forEach(
                (law, fit) ->
                    fit.wanted()
                        .ifPresent(
                            at ->
                                wanted
                                    .computeIfAbsent(group, g -> new EnumMap<>(LifeFamily.class))
                                    .put(law, at))));
    return wanted;
  }

  private static ManyLives told(
      Map<String, EnumMap<LifeFamily, FitInParts>> fits,
      List<LifeFamily> laws,
      LifeGrid grid,
      Faults faults,
      int passes) {
    Map<String, Group> groups = new TreeMap<>();
    fits.forEach(
        (name, of) -> {
          EnumMap<LifeFamily, Estimate<LifeFit>> found = new EnumMap<>(LifeFamily.class);
          of.forEach((law, fit) -> found.put(law, fit.fit()));
          FitInParts any = of.values().iterator().next();
          groups.put(name, new Group(any.components(), any.failures(), found));
        });
    EnumMap<LifeFamily, SignificanceTest> alike = new EnumMap<>(LifeFamily.class);
    boolean several = groups.size() > 2;
    for (LifeFamily law : laws) {
      List<LifeFit> each = new ArrayList<>();
      groups.values().stream()
          .map(g -> g.fits().get(law))
          .filter(Estimate::exists)
          .forEach(e -> each.add(e.get()));
      if (several && each.size() == groups.size()) {
        alike.put(law, FitInParts.alike(each.get(0), each.subList(1, each.size())));
      }
    }
    boolean failed = groups.get(LifeRows.ALL).failures() > 0;
    return new ManyLives(
        groups,
        alike,
        several && failed && grid.usable() ? Optional.of(grid.test()) : Optional.empty(),
        faults.rows(),
        passes);
  }
}
