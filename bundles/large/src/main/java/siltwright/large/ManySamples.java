package siltwright.large;

import java.io.Serializable;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import siltwright.analysis.Progress;
import siltwright.analysis.Result;
import siltwright.cleanliness.Iso4406;
import siltwright.cleanliness.ReportedCode;
import siltwright.model.InputException;
import siltwright.model.Problem;
import siltwright.model.SizeBands;
import siltwright.parquet.ParquetRows;
import siltwright.samples.CountsInParts;
import siltwright.samples.OilRecords;
import siltwright.wide.BackEnd;
import siltwright.wide.Work;

/**
 * What oil samples that do not fit in memory come to, by group.
 *
 * @param groups by name
 * @param leftOut rows that are no samples in running
 * @param rows how the rows fared
 */
public record ManySamples(Map<String, Group> groups, long leftOut, Result.Rows rows) {
  private static final String HOURS = "hours";
  private static final int CODE_SIZES = 3;

  /** Samples of a group. */
  public static final class Group implements Serializable {
    private static final long serialVersionUID = 1;

    private final CountsInParts[] sizes = new CountsInParts[SizeBands.COUNT];
    private long judged;
    private long within;

    Group() {
      for (int i = 0; i < sizes.length; i++) {
        sizes[i] = new CountsInParts();
      }
    }

    void add(Group other) {
      for (int i = 0; i < sizes.length; i++) {
        sizes[i].add(other.sizes[i]);
      }
      judged += other.judged;
      within += other.within;
    }

    /** Returns the counts at a size, by its place from 0 for 4 µm(c). */
    public CountsInParts size(int i) {
      return sizes[i];
    }

    /** Returns the samples that were held against the target. */
    public long judged() {
      return judged;
    }

    /** Returns those of them that were within it. */
    public long within() {
      return within;
    }
  }

  /**
   * What a range comes to.
   *
   * @param groups by name
   * @param leftOut rows that are no samples in running
   * @param faults how the rows fared
   */
  record Some(TreeMap<String, Group> groups, long leftOut, Faults faults) implements Serializable {}

  /**
   * Sums up.
   *
   * @param source Parquet file, or a folder of them, with the columns of oil records
   * @param by column of the groups; empty for none
   * @param target code that samples are held against; empty for none
   * @param together most rows of a part
   */
  public static ManySamples of(
      Path source, String by, String target, long together, BackEnd backEnd, Progress progress) {
    List<RowRange> ranges =
        RowRange.of(source, together, by.isEmpty() ? List.of(HOURS) : List.of(HOURS, by));
    TreeMap<String, Group> groups = new TreeMap<>();
    long[] leftOut = {0};
    Faults faults = new Faults();
    new Passes(ranges, backEnd, progress)
        .run(
            new Part(by, target),
            some -> {
              some.groups().forEach((g, of) -> groups.computeIfAbsent(g, n -> new Group()).add(of));
              Passes.checkGroups(groups.size(), by);
              leftOut[0] += some.leftOut();
              faults.add(some.faults());
            });
    if (groups.isEmpty()) {
      List<Problem> problems = new ArrayList<>(faults.rows().refusals());
      problems.add(new Problem(source.toString(), "", "no sound sample", "at least one"));
      throw new InputException(problems);
    }
    return new ManySamples(groups, leftOut[0], faults.rows());
  }

  /**
   * What is done with samples in a range of rows.
   *
   * @param by column of the groups; empty for none
   * @param target code that samples are held against; empty for none
   */
  record Part(String by, String target) implements Work<RowRange, Some> {
    @Override
    public Some of(RowRange part, Progress watching) {
      List<String> columns =
          new ArrayList<>(List.of(HOURS, "event", "minutes_after_restart", "code"));
      int counts = columns.size();
      for (int i = 0; i < SizeBands.COUNT; i++) {
        columns.add(OilRecords.countColumn(i));
      }
      if (!by.isEmpty()) {
        columns.add(by);
      }
      TreeMap<String, Group> groups = new TreeMap<>();
      Faults faults = new Faults();
      long leftOut = 0;
      int[] limits =
          target.isEmpty()
              ? new int[0]
              : ReportedCode.parse(target).places().stream()
                  .mapToInt(ReportedCode.Place::scaleNumber)
                  .toArray();
      try (ParquetRows rows = part.open(columns, 0)) {
        for (long row = part.from(); row < part.to(); row++) {
          Object[] cells = rows.next();
          faults.read(1);
          String event = Cells.text(cells[1]);
          if (cells[2] != null || !event.isEmpty() && !event.equalsIgnoreCase("sample")) {
            leftOut++;
            continue;
          }
          double hours = Cells.number(cells[0]);
          String group = by.isEmpty() ? "" : Cells.text(cells[cells.length - 1]);
          if (!(hours >= 0 && Double.isFinite(hours))) {
            faults.refuse(1, part, row, HOURS, cells[0], "a number from 0");
          } else if (group.isEmpty() && !by.isEmpty()) {
            faults.refuse(1, part, row, by, "", "a value, since it names the group");
          } else {
            double[] perMl = perMl(cells, counts, part, row, faults);
            if (perMl != null) {
              add(groups.computeIfAbsent(group, g -> new Group()), hours, perMl, limits);
            }
          }
        }
      }
      return new Some(groups, leftOut, faults);
    }

    /** Returns the counts, or the middles of the code's numbers; null if the row is refused. */
    private static double[] perMl(Object[] cells, int at, RowRange part, long row, Faults faults) {
      double[] perMl = new double[SizeBands.COUNT];
      boolean any = false;
      for (int i = 0; i < perMl.length; i++) {
        perMl[i] = Cells.number(cells[at + i]);
        if (cells[at + i] != null && !(perMl[i] >= 0 && perMl[i] <= 1e9)) {
          faults.refuse(
              1, part, row, OilRecords.countColumn(i), cells[at + i], "a number from 0 to 1e9");
          return null;
        }
        any |= !Double.isNaN(perMl[i]);
      }
      String code = Cells.text(cells[at - 1]);
      if (!code.isEmpty()) {
        try {
          double[] middles =
              ReportedCode.parse(code).code().map(Iso4406::cumulativePerMl).orElse(new double[0]);
          for (int i = 0; i < Math.min(CODE_SIZES, middles.length); i++) {
            perMl[i] = Double.isNaN(perMl[i]) ? middles[i] : perMl[i];
            any = true;
          }
        } catch (IllegalArgumentException e) {
          faults.refuse(1, part, row, "code", code, e.getMessage());
          return null;
        }
      }
      if (!any) {
        faults.refuse(1, part, row, "", "a sample without counts or code", "one of them");
        return null;
      }
      return perMl;
    }

    private static void add(Group group, double hours, double[] perMl, int[] limits) {
      boolean judged = limits.length > 0;
      boolean within = true;
      for (int i = 0; i < perMl.length; i++) {
        if (!Double.isNaN(perMl[i])) {
          group.sizes[i].add(hours, perMl[i]);
        }
        if (i < limits.length) {
          judged &= !Double.isNaN(perMl[i]);
          within &= judged && Iso4406.scaleNumber(perMl[i]) <= limits[i];
        }
      }
      group.judged += judged ? 1 : 0;
      group.within += judged && within ? 1 : 0;
    }
  }
}
