package siltwright.large.internal;

import java.nio.file.InvalidPathException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import siltwright.analysis.Cell;
import siltwright.analysis.Description;
import siltwright.analysis.Finding.Severity;
import siltwright.analysis.NumberParameter;
import siltwright.analysis.Parameter;
import siltwright.analysis.Result;
import siltwright.analysis.Scope;
import siltwright.analysis.TextParameter;
import siltwright.analysis.Values;
import siltwright.analysis.WholeParameter;
import siltwright.model.InputException;
import siltwright.model.Problem;
import siltwright.wide.BackEnd;
import siltwright.wide.WideOptions;

/** Options and words that the commands share. */
final class Settings {
  static final TextParameter BY =
      TextParameter.optional("by", "a column", "column of the groups; if not given, all together");
  static final TextParameter BY_REQUIRED =
      TextParameter.required("by", "a column", "column of the groups to compare");
  static final NumberParameter GRID =
      NumberParameter.of(
          "grid",
          "h",
          1e-3,
          1000,
          1,
          "hours to which hour meters are rounded where risks are counted");
  private static final WholeParameter TOGETHER =
      new WholeParameter(
          "part-rows",
          1,
          10_000_000,
          200_000,
          "rows of a part: as many are in memory for each that are computed at once");

  private Settings() {}

  /** Describes a command with these options and its own. */
  static Description describe(String id, String title, String question, Parameter<?>... own) {
    List<Parameter<?>> all = new ArrayList<>(List.of(own));
    all.addAll(
        List.of(
            TOGETHER, WideOptions.THREADS, WideOptions.ON, WideOptions.KIT, WideOptions.SECRET));
    return Description.of(id, title, question, Scope.NONE, all.toArray(Parameter<?>[]::new));
  }

  static long together(Values values) {
    return values.get(TOGETHER);
  }

  static BackEnd backEnd(Values values) {
    return WideOptions.backEnd(values, 2 * values.get(WideOptions.THREADS).intValue());
  }

  /** Returns what a group is called; that of all together has no name. */
  static Cell group(String name) {
    return Cell.of(name.isEmpty() ? "all" : name);
  }

  /** Tells in a finding how many rows were left out, if any. */
  static void leftOut(Result.Builder result, Result.Rows rows, String table) {
    if (rows.refused() > 0) {
      result.finding(Severity.CAUTION, rows.refused() + " rows at fault were left out.", table);
    }
  }

  static Path source(String file) {
    try {
      return Path.of(file);
    } catch (InvalidPathException e) {
      throw new InputException(
          new Problem("option", "FILE", file, "a Parquet file, or a folder of them"));
    }
  }
}
